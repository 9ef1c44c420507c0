package pigmentbook.store;

import java.util.regex.Pattern;

/** Makes records of the bytes of files. */
final class Records {

    private static final int MOST_SHOWN = 60;
    private static final Pattern UNSEEN = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Cs}\\p{Zl}\\p{Zp}]");

    private Records() {}

    /**
     * Reads a record.
     *
     * @param kind what the file should hold
     * @param id the file's name without its ending
     * @throws RefusedException if the bytes hold no such record
     */
    static Object read(Kind kind, String id, byte[] bytes) throws RefusedException {
        Fields fields = new Fields(JsonFile.read(bytes));
        String own = kind == Kind.SETTINGS ? null : fields.text("id");
        if (own != null && !own.equals(id)) {
            throw new RefusedException(
                    "/id",
                    "other-id",
                    "id is \"" + shown(own) + "\", but the file is named " + id + ".json. Make the two the same.");
        }
        return switch (kind) {
            case SETTINGS -> SettingsReader.read(fields);
            case RESIN -> ShelfReader.resin(id, fields);
            case PIGMENT -> ShelfReader.pigment(id, fields);
            case LOT -> ShelfReader.lot(id, fields);
            case MOLD -> RecipeReader.mold(id, fields);
            case RECIPE -> RecipeReader.recipe(id, fields);
            case POUR -> RecipeReader.pour(id, fields);
        };
    }

    /** Returns a text as a message may show it: on one line, marks that can't be seen as dots, cut where it is long. */
    static String shown(String text) {
        String cut = text.length() > MOST_SHOWN ? text.substring(0, MOST_SHOWN) + "…" : text;
        return seen(cut);
    }

    /** Returns a text on one line, marks that can't be seen as dots. */
    static String seen(String text) {
        return UNSEEN.matcher(text).replaceAll("·");
    }
}
