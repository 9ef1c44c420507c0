package pigmentbook.store;

import java.text.Normalizer;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where a file of a pack belongs in a book.
 *
 * @param kind the kind of record, or null for what lies beside the records: photos, papers, what was put away
 * @param id the record's id; empty where there is none
 */
record PackPath(@Nullable Kind kind, String id) {

    /** The pack's own list. Its ending is none that a book's file may have. */
    static final String LIST = "pack.manifest";

    /** What an import has learnt of the heads of columns. */
    static final String COLUMNS = "import/columns.json";

    private static final String AWAY = "put-away/";
    private static final int MOST_NAME = 200;
    private static final int MOST_PARTS = 12;
    private static final Set<String> PAPERS = Set.of(
            "jpg", "jpeg", "png", "webp", "heic", "gif", "tif", "tiff", "svg", "pdf", "md", "txt", "csv", "ods",
            "xlsx");
    private static final Pattern DRIVE = Pattern.compile("[A-Za-z]:");
    private static final Pattern DEVICE =
            Pattern.compile("(?:con|prn|aux|nul|com\\d|lpt\\d)(?:\\..*)?", Pattern.CASE_INSENSITIVE);
    private static final String NOT_EVERYWHERE = "\\:*?\"<>|";

    /** Thrown where a file has no place; the message says why. */
    static final class NoPlace extends Exception {
        private static final long serialVersionUID = 1L;

        NoPlace(String why) {
            super(why, null, false, false);
        }
    }

    /** Requires a name that means one file inside a folder, on every computer. */
    static void requireSafe(String file) throws NoPlace {
        if (file.isEmpty() || file.length() > MOST_NAME) {
            throw new NoPlace("Its name has " + file.length() + " characters; 1 to " + MOST_NAME + " were expected.");
        }
        if (file.startsWith("/") || file.startsWith("\\") || DRIVE.matcher(file).lookingAt()) {
            throw new NoPlace("Its name begins at the top of a disk; a book's file lies inside the book.");
        }
        List<String> parts = List.of(file.split("/", -1));
        if (parts.size() > MOST_PARTS) {
            throw new NoPlace("It lies " + parts.size() + " folders deep; no file of a book does.");
        }
        for (String part : parts) {
            requireSafePart(part);
        }
    }

    private static void requireSafePart(String part) throws NoPlace {
        if (part.equals("..") || part.equals(".") || part.isEmpty()) {
            throw new NoPlace("Its name leads out of its folder; a book's file lies inside the book.");
        }
        if (part.startsWith(".")) {
            throw new NoPlace("Its name begins with a dot; no file of a book is hidden.");
        }
        boolean odd = !Records.seen(part).equals(part) || part.endsWith(".") || !part.equals(part.strip());
        for (int i = 0; i < part.length(); i++) {
            odd |= NOT_EVERYWHERE.indexOf(part.charAt(i)) >= 0;
        }
        if (odd || DEVICE.matcher(part).matches()) {
            throw new NoPlace("Its name can't stand on every computer. Rename it with letters, digits and hyphens.");
        }
    }

    /** Requires a file of a sort that a book holds. */
    static void requireSort(String file) throws NoPlace {
        if (!file.endsWith(Listing.SUFFIX) && !PAPERS.contains(ending(file))) {
            throw new NoPlace("It is no record, photo or paper of a book.");
        }
    }

    private static String ending(String file) {
        return file.substring(file.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    }

    /**
     * Returns where a file belongs.
     *
     * @throws NoPlace if its name is unsafe, or a book has no place for it
     */
    static PackPath of(String file) throws NoPlace {
        requireSafe(file);
        requireSort(file);
        if (!file.endsWith(Listing.SUFFIX) || file.equals(COLUMNS) || file.startsWith(AWAY)) {
            return new PackPath(null, "");
        }
        int slash = file.lastIndexOf('/');
        String folder = slash < 0 ? "" : file.substring(0, slash);
        String id = file.substring(slash + 1, file.length() - Listing.SUFFIX.length());
        Kind kind = kind(folder, id);
        String wrong = kind == Kind.SETTINGS ? "" : kind.wrongWithId(id);
        if (!wrong.isEmpty()) {
            throw new NoPlace("Its name is no id. " + wrong + " Rename it.");
        }
        return new PackPath(kind, id);
    }

    private static Kind kind(String folder, String id) throws NoPlace {
        if (folder.isEmpty()) {
            return id.equals("book") ? Kind.SETTINGS : Kind.RECIPE;
        }
        for (Kind each : List.of(Kind.RESIN, Kind.PIGMENT, Kind.LOT, Kind.MOLD)) {
            if (folder.equals(each.folder())) {
                return each;
            }
        }
        if (folder.startsWith("pours/") && folder.indexOf('/', "pours/".length()) < 0) {
            return Kind.POUR;
        }
        throw new NoPlace("It lies where no record of a book lies. Records lie at the top, in shelf/resins,"
                + " shelf/pigments, shelf/lots, molds and pours/YEAR.");
    }

    /** Returns what is the same for names that some computers can't tell apart. */
    static String folded(String file) {
        return Normalizer.normalize(file, Normalizer.Form.NFC).toLowerCase(Locale.ROOT);
    }
}
