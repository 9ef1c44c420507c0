package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** Looks a pack through beside a book, and takes in what the book lacks. */
public final class Unpack {

    private final Path folder;
    private final PackFile pack;
    private final RecordFiles files;
    private final FolderNames names = new FolderNames();
    private final Set<String> pours = new HashSet<>();
    private final @Nullable String laterFormat;

    private final List<String> fresh = new ArrayList<>();
    private final List<String> same = new ArrayList<>();
    private final List<Different> different = new ArrayList<>();
    private final List<SetAside> setAside = new ArrayList<>();
    private final List<Batch.Write> writes = new ArrayList<>();
    private final List<Batch.Write> theirs = new ArrayList<>();

    private Unpack(Path folder, PackFile pack) {
        this.folder = folder;
        this.pack = pack;
        this.files = new RecordFiles(folder, new Disk());
        this.laterFormat = laterFormat();
    }

    /**
     * A file that the book has and that says something else.
     *
     * @param file its name, from the book's folder
     * @param fields the names of the fields that differ, in order; none where one of the two is no JSON
     */
    public record Different(String file, List<String> fields) {}

    /**
     * A file that took the place of another.
     *
     * @param file its name, from the book's folder
     * @param kept where the old one is kept
     */
    public record Replaced(String file, String kept) {}

    /**
     * What is in a pack, beside a book. Each list is in the order of names.
     *
     * @param fresh what the book lacks
     * @param same what it has already
     * @param different what says something else in the book
     * @param setAside what can't be taken, and why
     * @param saved what was written; empty for a look
     * @param replaced what took the place of the book's own
     */
    public record Found(
            List<String> fresh,
            List<String> same,
            List<Different> different,
            List<SetAside> setAside,
            List<String> saved,
            List<Replaced> replaced) {}

    /**
     * Looks a pack through; nothing is written.
     *
     * @param folder the book's folder; it may be empty or not there yet
     * @throws BadPackException if the file is no pack that can be taken
     */
    public static Found look(Path folder, Path file) throws BadPackException {
        try (PackFile pack = PackFile.open(file)) {
            Unpack unpack = new Unpack(folder, pack);
            unpack.sort();
            return unpack.found(new Batch.Done(List.of(), List.of(), List.of()));
        }
    }

    /**
     * Takes in what the book lacks.
     *
     * @param takeTheirs whether what differs takes the place of the book's own, which is kept in put-away
     * @throws BadPackException if the file is no pack that can be taken
     * @throws SaveFailedException if the disk does not take a file
     */
    public static Found save(Path folder, Path file, boolean takeTheirs) throws BadPackException, SaveFailedException {
        try (PackFile pack = PackFile.open(file)) {
            Unpack unpack = new Unpack(folder, pack);
            unpack.sort();
            List<Batch.Write> all = new ArrayList<>(unpack.writes);
            if (takeTheirs) {
                all.addAll(unpack.theirs);
            }
            return unpack.found(
                    all.isEmpty()
                            ? new Batch.Done(List.of(), List.of(), List.of())
                            : Batch.run(folder, new Disk(), all));
        }
    }

    private Found found(Batch.Done done) {
        setAside.addAll(done.setAside());
        setAside.sort(Comparator.comparing(SetAside::file));
        return new Found(
                List.copyOf(fresh),
                List.copyOf(same),
                List.copyOf(different),
                List.copyOf(setAside),
                done.written(),
                done.replaced().stream()
                        .map(each -> new Replaced(each.file(), each.kept()))
                        .toList());
    }

    private @Nullable String laterFormat() {
        if (!pack.names().contains("book.json")) {
            return null;
        }
        try {
            ObjectNode settings = JsonFile.read(pack.bytes("book.json", JsonFile.MOST_BYTES));
            int format = settings.path("format").asInt(0);
            return format > SettingsReader.FORMAT
                    ? "The pack's book is of format " + format + "; this program reads " + SettingsReader.FORMAT
                            + ". Use a newer program for it."
                    : null;
        } catch (RefusedException | PackFile.Damaged e) {
            // Told when its turn comes.
            return null;
        }
    }

    private void sort() {
        pack.refused().forEach((file, why) -> setAside.add(SetAside.of(file, why)));
        for (String file : pack.names()) {
            try {
                sort(file);
            } catch (PackPath.NoPlace | PackFile.Damaged e) {
                setAside.add(SetAside.of(file, String.valueOf(e.getMessage())));
            }
        }
    }

    private void sort(String file) throws PackPath.NoPlace, PackFile.Damaged {
        PackPath place = PackPath.of(file);
        boolean json = file.endsWith(Listing.SUFFIX);
        if (json && laterFormat != null) {
            throw new PackPath.NoPlace(laterFormat);
        }
        if (place.kind() == Kind.POUR && !pours.add(place.id())) {
            throw new PackPath.NoPlace("The pour " + place.id() + " stands in another folder of the pack too.");
        }
        int most = json ? JsonFile.MOST_BYTES : Pack.MOST_PAPER_BYTES;
        byte[] bytes = pack.bytes(file, most);
        ObjectNode record = json ? requireRecord(file, place, bytes) : null;
        compare(file, inBook(file, place), bytes, record, most);
    }

    private static ObjectNode requireRecord(String file, PackPath place, byte[] bytes) throws PackPath.NoPlace {
        try {
            if (place.kind() != null) {
                Records.read(place.kind(), place.id(), bytes);
            }
            return JsonFile.read(bytes);
        } catch (RefusedException e) {
            Problem problem = e.in(file, bytes);
            throw new PackPath.NoPlace(
                    problem.line() > 0 ? "Line " + problem.line() + ": " + problem.text() : problem.text());
        }
    }

    /** A pour may lie in another year's folder of the book. */
    private Path inBook(String file, PackPath place) throws PackPath.NoPlace {
        Path usual = folder.resolve(file);
        if (place.kind() != Kind.POUR || Files.exists(usual)) {
            return usual;
        }
        try {
            Path found = files.find(Kind.POUR, place.id());
            return Files.exists(found) ? found : usual;
        } catch (SaveFailedException e) {
            throw new PackPath.NoPlace(String.valueOf(e.getMessage()));
        }
    }

    private void compare(String file, Path path, byte[] bytes, @Nullable ObjectNode record, int most)
            throws PackPath.NoPlace {
        if (!Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
            String way = FolderNames.fileAsFolder(folder, path)
                    ? "A file stands where its folder was expected. Move that away."
                    : names.inTheWay(path);
            if (!way.isEmpty()) {
                throw new PackPath.NoPlace(way);
            }
            fresh.add(file);
            writes.add(new Batch.Write(file, null, () -> again(file, most)));
            return;
        }
        byte[] ours = ours(path);
        if (Arrays.equals(ours, bytes)) {
            same.add(file);
            return;
        }
        List<String> fields = record == null ? List.of() : fields(ours, record);
        if (fields.isEmpty() && record != null && isJson(ours)) {
            same.add(file);
            return;
        }
        String here = files.name(path);
        different.add(new Different(here, fields));
        theirs.add(new Batch.Write(here, Versions.of(ours), () -> again(file, most)));
    }

    private static byte[] ours(Path path) throws PackPath.NoPlace {
        try {
            if (!Files.isRegularFile(path)) {
                throw new PackPath.NoPlace(
                        "A folder, or a link that leads nowhere, stands in its place. Take that away.");
            }
            if (Files.size(path) > Pack.MOST_PAPER_BYTES) {
                throw new PackPath.NoPlace("The book's file of this name is too large to compare. Look at the two.");
            }
            return Files.readAllBytes(path);
        } catch (IOException e) {
            throw new PackPath.NoPlace("The book's file of this name can't be read. Check who may read it.");
        }
    }

    private static boolean isJson(byte[] bytes) {
        try {
            JsonFile.read(bytes);
            return true;
        } catch (RefusedException e) {
            return false;
        }
    }

    private static List<String> fields(byte[] ours, ObjectNode record) {
        ObjectNode before;
        try {
            before = JsonFile.read(ours);
        } catch (RefusedException e) {
            return List.of();
        }
        Set<String> names = new TreeSet<>();
        before.fieldNames().forEachRemaining(names::add);
        record.fieldNames().forEachRemaining(names::add);
        names.removeIf(
                name -> before.has(name) && record.has(name) && JsonSplice.same(before.get(name), record.get(name)));
        return List.copyOf(names);
    }

    private byte[] again(String file, int most) throws SaveFailedException {
        try {
            return pack.bytes(file, most);
        } catch (PackFile.Damaged e) {
            throw new SaveFailedException(file + ": " + e.getMessage() + " Nothing was changed.");
        }
    }
}
