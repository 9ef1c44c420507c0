package pigmentbook.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.function.IntConsumer;
import java.util.stream.Stream;
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

    /** A file written less than this before it was looked at may have been written again in the same tick. */
    private static final long COARSEST_TICK_MILLIS = 2_000;

    private static final int FEW = 64;

    private final Path folder;

    /**
     * Names a book.
     *
     * @param folder its folder
     */
    public BookFolder(Path folder) {
        this.folder = folder;
    }

    /** Opens the whole book. */
    public Opened open() throws BookUnavailableException {
        return open(files -> {});
    }

    /**
     * Opens the whole book. A file that can't be read becomes a problem; the rest of the book works.
     *
     * @param progress told how many files have been read; from any thread
     * @throws BookUnavailableException if there is no such folder, or it can't be read, or it holds no book
     */
    public Opened open(IntConsumer progress) throws BookUnavailableException {
        requireFolder();
        long now = System.currentTimeMillis();
        List<Problem> unfinished = finishTogether();
        Listing listing = Listing.of(folder);
        if (listing.files().isEmpty() && listing.problems().isEmpty()) {
            throw new BookUnavailableException(
                    "The folder \"" + folder + "\" is empty; a book holds at least a book.json, a resin and a recipe.");
        }
        AtomicInteger read = new AtomicInteger();
        List<Loaded> loaded = each(listing, file -> {
            progress.accept(read.incrementAndGet());
            return read(file);
        });
        return opened(loaded, with(unfinished, listing), now);
    }

    private static List<Problem> with(List<Problem> unfinished, Listing listing) {
        return Stream.concat(unfinished.stream(), listing.problems().stream()).toList();
    }

    /**
     * Looks at the folder again and reads what was changed, added or taken away from outside.
     *
     * @param before the book as it was
     * @return the book as it is; {@code before} itself where nothing changed
     * @throws BookUnavailableException if the folder is gone or can't be read
     */
    public Opened refresh(Opened before) throws BookUnavailableException {
        requireFolder();
        long now = System.currentTimeMillis();
        Opened.Look last = before.look();
        List<Problem> unfinished = finishTogether();
        Listing listing = Listing.of(folder);
        List<Problem> listed = with(unfinished, listing);
        List<Loaded> loaded = each(listing, file -> again(file, last));
        boolean same = loaded.size() == last.files().size()
                && listed.equals(last.listed())
                && loaded.stream().allMatch(each -> {
                    Loaded old = last.files().get(each.file().name());
                    return old != null && each.saysTheSameAs(old);
                });
        if (same) {
            before.lookedAgain(Opened.Look.of(loaded, listed, now));
            return before;
        }
        return opened(loaded, listed, now);
    }

    /** Where it can't be finished, as on a disk that only reads, the records are read as they lie, and it is told. */
    private List<Problem> finishTogether() {
        if (Files.exists(folder.resolve(Together.FILE))) {
            try {
                new RecordFiles(folder, new Disk()).lock().close();
            } catch (SaveFailedException e) {
                return List.of(new Problem(Together.FILE, 0, "unfinished-change", String.valueOf(e.getMessage())));
            }
        }
        return List.of();
    }

    private void requireFolder() throws BookUnavailableException {
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
    }

    private static List<Loaded> each(Listing listing, Function<Listing.BookFile, Loaded> load) {
        List<Listing.BookFile> files = listing.files();
        return (files.size() > FEW ? files.parallelStream() : files.stream())
                .map(load)
                .toList();
    }

    private Loaded again(Listing.BookFile file, Opened.Look last) {
        Loaded old = last.files().get(file.name());
        Loaded.Stamp stamp = old == null ? null : old.stamp();
        if (old == null || stamp == null) {
            return read(file);
        }
        boolean settled = stamp.modifiedMillis() < last.atMillis() - COARSEST_TICK_MILLIS;
        if (settled) {
            try {
                if (stamp.equals(stamp(attributes(file)))) {
                    return old;
                }
            } catch (IOException e) {
                return read(file);
            }
        }
        return read(file);
    }

    private Path path(Listing.BookFile file) {
        return folder.resolve(file.name());
    }

    private BasicFileAttributes attributes(Listing.BookFile file) throws IOException {
        return Files.readAttributes(path(file), BasicFileAttributes.class);
    }

    private static Loaded.Stamp stamp(BasicFileAttributes attributes) {
        long second = TimeUnit.SECONDS.toNanos(1);
        long nanos = Math.floorMod(attributes.lastModifiedTime().to(TimeUnit.NANOSECONDS), second);
        return new Loaded.Stamp(attributes.lastModifiedTime().toMillis(), (int) nanos, attributes.size());
    }

    private Loaded read(Listing.BookFile file) {
        Loaded.Stamp stamp = null;
        byte[] bytes;
        try {
            BasicFileAttributes attributes = attributes(file);
            if (!attributes.isRegularFile()) {
                return Loaded.refused(
                        file,
                        null,
                        new Problem(
                                file.name(),
                                0,
                                "not-a-file",
                                "Here stands a folder, or something else that is no file, where the file of a "
                                        + file.kind().word() + " was expected. Move it away."));
            }
            stamp = stamp(attributes);
            if (stamp.size() > JsonFile.MOST_BYTES) {
                return Loaded.refused(file, stamp, JsonFile.tooLarge().in(file.name(), new byte[0]));
            }
            bytes = bytes(path(file), (int) stamp.size());
        } catch (IOException e) {
            return Loaded.refused(file, stamp, unreadable(file));
        }
        try {
            return new Loaded(file, stamp, Records.read(file.kind(), file.id(), bytes), null);
        } catch (RefusedException e) {
            return Loaded.refused(file, stamp, e.in(file.name(), bytes));
        }
    }

    /**
     * Reads so many bytes, or fewer where the file ends before: without a look for more, which thousands of files feel.
     */
    private static byte[] bytes(Path path, int size) throws IOException {
        ByteBuffer buffer = ByteBuffer.allocate(size);
        try (SeekableByteChannel channel = Files.newByteChannel(path)) {
            int read = 0;
            while (buffer.hasRemaining() && read >= 0) {
                read = channel.read(buffer);
            }
        }
        return buffer.hasRemaining() ? Arrays.copyOf(buffer.array(), buffer.position()) : buffer.array();
    }

    private Problem unreadable(Listing.BookFile file) {
        boolean link = Files.isSymbolicLink(path(file));
        return link
                ? new Problem(
                        file.name(),
                        0,
                        "dead-link",
                        "This link leads nowhere or back to itself. Put the file here, or take the link away.")
                : new Problem(file.name(), 0, "unreadable", "This file can't be read. Check who may read it.");
    }

    private Opened opened(List<Loaded> files, List<Problem> listed, long now) {
        List<Problem> problems = new ArrayList<>(listed);
        Map<String, String> pourFiles = new HashMap<>();
        Settings settings = Settings.unstated();
        Map<Kind, List<Object>> records = new EnumMap<>(Kind.class);
        for (Kind kind : Kind.values()) {
            records.put(kind, new ArrayList<>());
        }
        for (Loaded each : files) {
            Object record = each.record();
            if (record == null) {
                problems.add(Objects.requireNonNull(each.problem()));
                continue;
            }
            Listing.BookFile file = each.file();
            String twin = file.kind() == Kind.POUR ? pourFiles.putIfAbsent(file.id(), file.name()) : null;
            if (twin == null) {
                Objects.requireNonNull(records.get(file.kind())).add(record);
            } else {
                problems.add(new Problem(
                        file.name(),
                        0,
                        "same-name",
                        "A pour of this name lies in " + twin + " too. Rename one of the two."));
            }
        }
        for (Settings each : of(records, Kind.SETTINGS, Settings.class)) {
            settings = each;
        }
        Book book = new Book(
                settings,
                of(records, Kind.RESIN, Resin.class),
                of(records, Kind.PIGMENT, Pigment.class),
                of(records, Kind.LOT, Lot.class),
                of(records, Kind.MOLD, Mold.class),
                of(records, Kind.RECIPE, Recipe.class),
                of(records, Kind.POUR, Pour.class));
        return new Opened(folder, book, problems, pourFiles, Opened.Look.of(files, List.copyOf(listed), now));
    }

    private static <T> List<T> of(Map<Kind, List<Object>> records, Kind kind, Class<T> type) {
        return records.getOrDefault(kind, List.of()).stream().map(type::cast).toList();
    }
}
