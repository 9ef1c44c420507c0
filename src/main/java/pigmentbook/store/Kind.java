package pigmentbook.store;

/** The kinds of record, and where their files lie. */
public enum Kind {
    /** {@code book.json}. */
    SETTINGS("", "book settings"),
    /** {@code shelf/resins}. */
    RESIN("shelf/resins", "resin"),
    /** {@code shelf/pigments}. */
    PIGMENT("shelf/pigments", "pigment"),
    /** {@code shelf/lots}. */
    LOT("shelf/lots", "lot"),
    /** {@code molds}. */
    MOLD("molds", "mold"),
    /** The top of the book. */
    RECIPE("", "recipe"),
    /** {@code pours/YEAR}. */
    POUR("pours", "pour");

    private static final int MOST_ID = 64;
    private static final int YEAR = 4;

    private final String folder;
    private final String word;

    Kind(String folder, String word) {
        this.folder = folder;
        this.word = word;
    }

    /** Returns the folder of these files, from the book's folder, with forward slashes. */
    public String folder() {
        return folder;
    }

    /** Returns what such a record is called. */
    public String word() {
        return word;
    }

    /** Returns the file in which a record of this id lies unless somebody moved it: a pour may lie in another year. */
    String usualFile(String id) {
        return switch (this) {
            case SETTINGS -> "book.json";
            case RECIPE -> id + ".json";
            case POUR -> folder + "/" + (id.length() < YEAR ? id : id.substring(0, YEAR)) + "/" + id + ".json";
            default -> folder + "/" + id + ".json";
        };
    }

    /** Returns what is wrong with an id, or an empty text. */
    public String wrongWithId(String id) {
        boolean lot = this == LOT;
        if (id.isEmpty() || id.length() > MOST_ID || !isPlain(id, lot)) {
            return "An id has 1 to " + MOST_ID + " of the characters " + (lot ? "A-Z " : "")
                    + "a-z 0-9 and the hyphen.";
        }
        if (this == PIGMENT && (id.equals("part-a") || id.equals("part-b"))) {
            return "\"" + id + "\" can't be a pigment's id; it is kept for the resin's parts.";
        }
        if (this == RECIPE && id.equals("book")) {
            return "\"book\" can't be a recipe's id; book.json holds the book's settings.";
        }
        return "";
    }

    private static boolean isPlain(String id, boolean capitals) {
        for (int i = 0; i < id.length(); i++) {
            char c = id.charAt(i);
            boolean plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
            if (!plain && !(capitals && c >= 'A' && c <= 'Z')) {
                return false;
            }
        }
        return true;
    }
}
