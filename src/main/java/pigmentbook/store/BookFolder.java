package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileSystemLoopException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntConsumer;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.Mold;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;

/** Opens the folder that a book is. */
public final class BookFolder {

    private static final String SUFFIX = ".json";

    /** Names that programs which keep folders in step give to a file that two people changed at once. */
    private static final Pattern CONFLICT = Pattern.compile("(?i).+(conflict|\\bcopy\\b| \\(\\d+\\)$|~[^~]+$).*");

    private final Path folder;

    /**
     * Names a book.
     *
     * @param folder its folder
     */
    public BookFolder(Path folder) {
        this.folder = folder;
    }

    /** One file of the book: where it lies, and what it should hold. */
    private record Found(Path path, String name, Kind kind, String id) {}

    /** What came of one file: a record, or a problem. */
    private record Result(
            Found found, @Nullable Object record, @Nullable Problem problem) {}

    /** Opens the whole book. */
    public Opened open() throws BookUnavailableException {
        return open(files -> {});
    }

    /**
     * Opens the whole book. A file that can't be read becomes a problem; the rest of the book works.
     *
     * @param progress told now and then how many files have been read; from any thread
     * @throws BookUnavailableException if there is no such folder, or it can't be read, or it holds no book
     */
    public Opened open(IntConsumer progress) throws BookUnavailableException {
        if (!Files.exists(folder)) {
            throw new BookUnavailableException("There is no folder \"" + folder
                    + "\". Name the book's folder with --book, or go to the folder that \"recipes\" lies in.");
        }
        if (!Files.isDirectory(folder)) {
            throw new BookUnavailableException("\"" + folder + "\" is a file; a book is a folder. Name its folder.");
        }
        if (!Files.isReadable(folder)) {
            throw new BookUnavailableException("The folder \"" + folder + "\" can't be read. Check who may read it.");
        }
        List<Problem> problems = new ArrayList<>();
        List<Found> files = new ArrayList<>();
        list(folder, "", Kind.RECIPE, files, problems);
        for (Kind kind : List.of(Kind.RESIN, Kind.PIGMENT, Kind.LOT, Kind.MOLD)) {
            list(folder.resolve(kind.folder()), kind.folder() + "/", kind, files, problems);
        }
        pours(files, problems);
        if (files.isEmpty() && problems.isEmpty()) {
            throw new BookUnavailableException(
                    "The folder \"" + folder + "\" is empty; a book holds at least a book.json, a resin and a recipe.");
        }
        AtomicInteger read = new AtomicInteger();
        List<Result> results = (files.size() > 64 ? files.parallelStream() : files.stream())
                .map(found -> {
                    progress.accept(read.incrementAndGet());
                    return read(found);
                })
                .toList();
        return opened(results, problems);
    }

    private void pours(List<Found> files, List<Problem> problems) {
        Path pours = folder.resolve(Kind.POUR.folder());
        if (!Files.isDirectory(pours)) {
            return;
        }
        try (DirectoryStream<Path> years = Files.newDirectoryStream(pours)) {
            List<Path> sorted = new ArrayList<>();
            years.forEach(sorted::add);
            sorted.sort(Comparator.naturalOrder());
            for (Path year : sorted) {
                String name = String.valueOf(year.getFileName());
                if (Files.isDirectory(year) && !name.startsWith(".")) {
                    list(year, "pours/" + name + "/", Kind.POUR, files, problems);
                }
            }
        } catch (IOException e) {
            problems.add(new Problem("pours", 0, "unreadable", "This folder can't be read. Check who may read it."));
        }
    }

    private static void list(Path in, String prefix, Kind kind, List<Found> files, List<Problem> problems) {
        if (!Files.isDirectory(in)) {
            if (Files.exists(in, LinkOption.NOFOLLOW_LINKS)) {
                problems.add(new Problem(
                        prefix.substring(0, prefix.length() - 1),
                        0,
                        "not-a-folder",
                        "Here stands a file or a dead link where the folder of the " + kind.word()
                                + "s was expected. Move it away."));
            }
            return;
        }
        List<String> names = new ArrayList<>();
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(in)) {
            entries.forEach(entry -> names.add(String.valueOf(entry.getFileName())));
        } catch (IOException e) {
            problems.add(new Problem(prefix, 0, "unreadable", "This folder can't be read. Check who may read it."));
            return;
        }
        names.sort(Comparator.naturalOrder());
        Map<String, String> byFold = new HashMap<>();
        for (String name : names) {
            if (!name.toLowerCase(Locale.ROOT).endsWith(SUFFIX) || name.startsWith(".")) {
                continue;
            }
            String id = name.substring(0, name.length() - SUFFIX.length());
            if (kind == Kind.RECIPE && name.equals("book.json")) {
                files.add(new Found(in.resolve(name), name, Kind.SETTINGS, id));
                continue;
            }
            String file = prefix + name;
            String wrong =
                    name.endsWith(SUFFIX) ? kind.wrongWithId(id) : "A file's name ends with .json in small letters.";
            if (!wrong.isEmpty()) {
                problems.add(misnamed(file, id, names, wrong));
                continue;
            }
            String twin = byFold.putIfAbsent(id.toLowerCase(Locale.ROOT), name);
            if (twin != null) {
                problems.add(new Problem(
                        file,
                        0,
                        "same-name",
                        "This name differs from " + twin
                                + " only by capitals, which some computers can't tell apart. Rename one of the two."));
                continue;
            }
            files.add(new Found(in.resolve(name), file, kind, id));
        }
    }

    private static Problem misnamed(String file, String id, List<String> names, String wrong) {
        if (CONFLICT.matcher(id).matches()) {
            String original = "";
            for (String name : names) {
                String stem = name.endsWith(SUFFIX) ? name.substring(0, name.length() - SUFFIX.length()) : name;
                if (!stem.equals(id) && id.startsWith(stem) && stem.length() > original.length()) {
                    original = stem;
                }
            }
            return new Problem(
                    file,
                    0,
                    "conflict-copy",
                    "This looks like a second version that a synchronised folder put aside"
                            + (original.isEmpty() ? "" : " beside " + original + SUFFIX)
                            + ". Compare the two, keep what is right in the original, and move this one away.");
        }
        return new Problem(file, 0, "bad-id", "This name is no id. " + wrong + " Rename the file.");
    }

    private static Result read(Found found) {
        byte[] bytes;
        try {
            if (Files.size(found.path()) > JsonFile.MOST_BYTES) {
                return new Result(
                        found,
                        null,
                        new Problem(
                                found.name(),
                                1,
                                "too-large",
                                "The file is larger than " + JsonFile.MOST_BYTES / 1024 / 1024
                                        + " MiB; no record needs that."));
            }
            bytes = Files.readAllBytes(found.path());
        } catch (FileSystemLoopException e) {
            return unreadable(found, "This link leads back to itself. Take it away.");
        } catch (IOException e) {
            boolean link = Files.isSymbolicLink(found.path());
            return unreadable(
                    found,
                    link
                            ? "This link leads nowhere or back to itself. Put the file here, or take the link away."
                            : "This file can't be read. Check who may read it.");
        }
        try {
            Fields fields = new Fields(JsonFile.read(bytes));
            requireOwnId(found, fields);
            return new Result(found, record(found.kind(), found.id(), fields), null);
        } catch (RefusedException e) {
            return new Result(found, null, e.in(found.name(), bytes));
        }
    }

    private static Result unreadable(Found found, String text) {
        String code = Files.isSymbolicLink(found.path()) ? "dead-link" : "unreadable";
        return new Result(found, null, new Problem(found.name(), 0, code, text));
    }

    private static void requireOwnId(Found found, Fields fields) throws RefusedException {
        String id = found.kind() == Kind.SETTINGS ? null : fields.text("id");
        if (id != null && !id.equals(found.id())) {
            throw new RefusedException(
                    "/id",
                    "other-id",
                    "id is \"" + (id.length() > 64 ? id.substring(0, 64) + "…" : id) + "\", but the file is named "
                            + found.id() + SUFFIX + ". Make the two the same.");
        }
    }

    /** Returns the record that a tree says. */
    static Object record(Kind kind, String id, ObjectNode record) throws RefusedException {
        return record(kind, id, new Fields(record));
    }

    private static Object record(Kind kind, String id, Fields fields) throws RefusedException {
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

    private Opened opened(List<Result> results, List<Problem> problems) {
        Settings settings = Settings.unstated();
        List<Resin> resins = new ArrayList<>();
        List<Pigment> pigments = new ArrayList<>();
        List<Lot> lots = new ArrayList<>();
        List<Mold> molds = new ArrayList<>();
        List<Recipe> recipes = new ArrayList<>();
        List<Pour> pours = new ArrayList<>();
        Map<String, String> pourFiles = new HashMap<>();
        for (Result result : results) {
            Object record = result.record();
            if (result.problem() != null) {
                problems.add(result.problem());
                continue;
            }
            if (result.found().kind() == Kind.POUR) {
                String other = pourFiles.putIfAbsent(
                        result.found().id(), result.found().name());
                if (other != null) {
                    problems.add(new Problem(
                            result.found().name(),
                            0,
                            "same-name",
                            "A pour of this name lies in " + other + " too. Rename one of the two."));
                    continue;
                }
            }
            if (record instanceof Settings each) {
                settings = each;
            } else if (record instanceof Resin each) {
                resins.add(each);
            } else if (record instanceof Pigment each) {
                pigments.add(each);
            } else if (record instanceof Lot each) {
                lots.add(each);
            } else if (record instanceof Mold each) {
                molds.add(each);
            } else if (record instanceof Recipe each) {
                recipes.add(each);
            } else if (record instanceof Pour each) {
                pours.add(each);
            }
        }
        Book book = new Book(settings, resins, pigments, lots, molds, recipes, pours);
        return new Opened(folder, book, problems, pourFiles);
    }
}
