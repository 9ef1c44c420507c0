package pigmentbook.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;

/**
 * Writes many files of a book, under its lock. Each is written whole or not at all; one that takes the place of another
 * keeps that one first, in {@code put-away/replaced}.
 */
final class Batch {

    private static final String REPLACED = "put-away/replaced/";

    private static final int HANDS = 8;
    private static final int MOST_AT_ONCE = 128;
    private static final int MOST_BYTES_AT_ONCE = 32 * 1024 * 1024;

    private final Path folder;
    private final RecordFiles files;
    private final FolderNames names = new FolderNames();
    private final Set<Path> touched = new LinkedHashSet<>();
    private final List<String> written = new ArrayList<>();
    private final List<Replaced> replaced = new ArrayList<>();
    private final List<SetAside> setAside = new ArrayList<>();

    private Batch(Path folder, Disk disk) {
        this.folder = folder;
        this.files = new RecordFiles(folder, disk);
    }

    /** Gives the bytes of a file when they are wanted. */
    interface Source {
        byte[] bytes() throws SaveFailedException;
    }

    /**
     * A file to write.
     *
     * @param file its name, from the book's folder
     * @param over the version of the file whose place it takes; null for a new one
     * @param keep whether the old one is kept beside: not needed where the new one holds all that it says
     */
    record Write(String file, @Nullable String over, boolean keep, Source source) {

        Write(String file, @Nullable String over, Source source) {
            this(file, over, true, source);
        }
    }

    /** A file that was replaced, and where the old one is kept; empty where that is not needed. */
    record Replaced(String file, String kept) {}

    /**
     * What was done.
     *
     * @param written the files that were not there before
     * @param replaced those that took the place of others
     * @param setAside those that were not written, since something else stood there meanwhile
     */
    record Done(List<String> written, List<Replaced> replaced, List<SetAside> setAside) {}

    /**
     * Writes the files.
     *
     * @throws SaveFailedException if the disk does not take one; the message says how many were written before
     */
    static Done run(Path folder, Disk disk, List<Write> writes) throws SaveFailedException {
        Batch batch = new Batch(folder, disk);
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw SaveFailures.of(folder, e);
        }
        BookLock lock = batch.files.lock();
        try {
            batch.all(writes);
        } catch (SaveFailedException e) {
            throw batch.partly(e, writes.size());
        } finally {
            batch.touched.forEach(batch.files::force);
            lock.close();
        }
        return new Done(batch.written, batch.replaced, batch.setAside);
    }

    private SaveFailedException partly(SaveFailedException e, int all) {
        int done = written.size() + replaced.size();
        if (done == 0) {
            return e;
        }
        String why = String.valueOf(e.getMessage()).replace(" Nothing was changed.", "");
        return new SaveFailedException(why + " " + done + " of " + all
                + " files were written before that and are whole; the others are as they"
                + " were. Then do it again for the rest.");
    }

    /** Writes new files some at a time, since a disk takes several as quickly as one; others one by one. */
    private void all(List<Write> writes) throws SaveFailedException {
        ExecutorService hands = Executors.newFixedThreadPool(HANDS);
        try {
            List<Fresh> some = new ArrayList<>();
            int bytes = 0;
            for (Write each : writes) {
                if (each.over() != null) {
                    replace(each, each.over());
                } else if (isFree(each)) {
                    byte[] content = each.source().bytes();
                    some.add(new Fresh(each.file(), () -> content));
                    bytes += content.length;
                }
                if (some.size() >= MOST_AT_ONCE || bytes >= MOST_BYTES_AT_ONCE) {
                    together(hands, some);
                    some.clear();
                    bytes = 0;
                }
            }
            together(hands, some);
        } finally {
            hands.shutdown();
        }
    }

    private record Fresh(String file, Source content) {}

    private void together(ExecutorService hands, List<Fresh> some) throws SaveFailedException {
        Map<Fresh, Future<?>> under = new LinkedHashMap<>();
        for (Fresh each : some) {
            Path path = folder.resolve(each.file());
            makeFolder(path);
            under.put(each, hands.submit(() -> {
                files.putFresh(path, each.content().bytes());
                return null;
            }));
        }
        SaveFailedException failed = null;
        for (Map.Entry<Fresh, Future<?>> each : under.entrySet()) {
            try {
                each.getValue().get();
                written.add(each.getKey().file());
            } catch (ExecutionException e) {
                if (!(e.getCause() instanceof SaveFailedException why)) {
                    throw new IllegalStateException("writing a file fails in one way only", e.getCause());
                }
                failed = failed == null ? why : failed;
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new SaveFailedException("Saving was stopped. Do it again for the rest.");
            }
        }
        if (failed != null) {
            throw failed;
        }
    }

    private boolean isFree(Write write) {
        Path path = folder.resolve(write.file());
        String way =
                Files.isRegularFile(path) ? "A file of this name appeared meanwhile. Bring it in again." : way(path);
        if (!way.isEmpty()) {
            setAside.add(SetAside.of(write.file(), way));
        } else {
            names.add(path);
        }
        return way.isEmpty();
    }

    private void replace(Write write, String over) throws SaveFailedException {
        Path path = folder.resolve(write.file());
        byte[] there = Files.isRegularFile(path) ? RecordFiles.bytes(path) : null;
        if (there == null || !Versions.of(there).equals(over)) {
            setAside.add(SetAside.of(write.file(), "It was changed in the book meanwhile. Bring it in again."));
        } else {
            byte[] bytes = write.source().bytes();
            String kept = write.keep() ? files.name(keep(write.file(), there)) : "";
            files.put(path, bytes);
            replaced.add(new Replaced(write.file(), kept));
        }
    }

    private String way(Path path) {
        return FolderNames.fileAsFolder(folder, path)
                ? "A file stands where its folder was expected. Move that away."
                : names.inTheWay(path);
    }

    private void makeFolder(Path path) throws SaveFailedException {
        Path parent = RecordFiles.parent(path);
        if (touched.add(parent)) {
            files.makeFolder(parent);
            touched.add(RecordFiles.parent(parent));
        }
    }

    /** Keeps the old bytes under a name that is free, and waits until the disk holds them. */
    private Path keep(String file, byte[] bytes) throws SaveFailedException {
        int dot = file.lastIndexOf('.');
        String stem = REPLACED + (dot < 0 ? file : file.substring(0, dot));
        String ending = dot < 0 ? "" : file.substring(dot);
        Path kept = folder.resolve(stem + ending);
        for (int number = 2; Files.exists(kept, LinkOption.NOFOLLOW_LINKS); number++) {
            kept = folder.resolve(stem + "-" + number + ending);
        }
        files.requireNoFileAsFolder(RecordFiles.parent(kept));
        makeFolder(kept);
        files.putFresh(kept, bytes);
        names.add(kept);
        files.force(RecordFiles.parent(kept));
        return kept;
    }
}
