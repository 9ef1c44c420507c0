package pigmentbook.store;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Finds the files of a book. */
final class Listing {

    static final String SUFFIX = ".json";

    private final Path folder;
    private final List<BookFile> files = new ArrayList<>();
    private final List<Problem> problems = new ArrayList<>();

    private Listing(Path folder) {
        this.folder = folder;
    }

    /**
     * One file of the book.
     *
     * @param name its name from the book's folder, with forward slashes
     * @param kind what it should hold
     * @param id its name without its ending
     */
    record BookFile(String name, Kind kind, String id) {}

    /** Lists a book's folder. */
    static Listing of(Path folder) {
        Listing listing = new Listing(folder);
        listing.list("", Kind.RECIPE);
        if (listing.isFolder("shelf", "shelf")) {
            for (Kind kind : List.of(Kind.RESIN, Kind.PIGMENT, Kind.LOT)) {
                listing.list(kind.folder(), kind);
            }
            listing.astray("shelf", "A resin, pigment or lot lies in a folder of the shelf, such as shelf/lots.");
        }
        listing.list(Kind.MOLD.folder(), Kind.MOLD);
        listing.pours();
        return listing;
    }

    List<BookFile> files() {
        return files;
    }

    List<Problem> problems() {
        return problems;
    }

    private void pours() {
        String pours = Kind.POUR.folder();
        if (!isFolder(pours, "pours")) {
            return;
        }
        for (String year : names(pours)) {
            if (!year.startsWith(".") && Files.isDirectory(folder.resolve(pours).resolve(year))) {
                list(pours + "/" + year, Kind.POUR);
            }
        }
        astray(pours, "A pour lies in the folder of its year, such as pours/2026.");
    }

    /** Tells of records that lie beside the folders they belong in. */
    private void astray(String in, String where) {
        for (String name : names(in)) {
            if (isRecordName(name) && !Files.isDirectory(folder.resolve(in).resolve(name))) {
                problems.add(
                        new Problem(Records.seen(in + "/" + name), 0, "misplaced", where + " Move this file there."));
            }
        }
    }

    private static boolean isRecordName(String name) {
        int ending = name.length() - SUFFIX.length();
        return !name.startsWith(".") && name.regionMatches(true, ending, SUFFIX, 0, SUFFIX.length());
    }

    private boolean isFolder(String in, String what) {
        Path path = folder.resolve(in);
        if (Files.isDirectory(path)) {
            return true;
        }
        if (Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
            problems.add(new Problem(
                    in,
                    0,
                    "not-a-folder",
                    "Here stands a file or a dead link where the folder of the " + what
                            + " was expected. Move it away."));
        }
        return false;
    }

    private List<String> names(String in) {
        List<String> names = new ArrayList<>();
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder.resolve(in))) {
            entries.forEach(entry -> names.add(String.valueOf(entry.getFileName())));
        } catch (IOException | DirectoryIteratorException e) {
            problems.add(new Problem(in, 0, "unreadable", "This folder can't be read. Check who may read it."));
            return List.of();
        }
        names.sort(Comparator.naturalOrder());
        return names;
    }

    private void list(String in, Kind kind) {
        if (!in.isEmpty() && !isFolder(in, kind.word() + "s")) {
            return;
        }
        List<String> names = names(in);
        Map<String, String> byFold = new HashMap<>();
        for (String name : names) {
            if (!isRecordName(name)) {
                continue;
            }
            String id = name.substring(0, name.length() - SUFFIX.length());
            String file = in.isEmpty() ? name : in + "/" + name;
            if (kind == Kind.RECIPE && name.equals("book.json")) {
                files.add(new BookFile(file, Kind.SETTINGS, id));
                continue;
            }
            String wrong =
                    name.endsWith(SUFFIX) ? kind.wrongWithId(id) : "A file's name ends with .json in small letters.";
            if (!wrong.isEmpty()) {
                problems.add(misnamed(Records.seen(file), id, names, wrong));
                continue;
            }
            // Only lots may have capitals.
            String twin = kind == Kind.LOT ? byFold.putIfAbsent(id.toLowerCase(Locale.ROOT), name) : null;
            if (twin != null) {
                problems.add(new Problem(
                        file,
                        0,
                        "same-name",
                        "This name differs from " + twin
                                + " only by capitals, which some computers can't tell apart. Rename one of the two."));
                continue;
            }
            files.add(new BookFile(file, kind, id));
        }
    }

    private static Problem misnamed(String file, String id, List<String> names, String wrong) {
        if (!ConflictNames.matches(id)) {
            return new Problem(file, 0, "bad-id", "This name is no id. " + wrong + " Rename the file.");
        }
        List<String> others = names.stream()
                .filter(name -> name.endsWith(SUFFIX))
                .map(name -> name.substring(0, name.length() - SUFFIX.length()))
                .toList();
        String original = ConflictNames.original(id, others);
        return new Problem(
                file,
                0,
                "conflict-copy",
                "This looks like a second version that a synchronised folder put aside"
                        + (original == null ? "" : " beside " + original + SUFFIX)
                        + ". Compare the two, keep what is right in the original, and move this one away.");
    }
}
