package pigmentbook.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Writes many files of a book, under its lock. Each is written whole or not at all; one that takes the place of another
 * keeps that one first, in {@code put-away/replaced}.
 */
final class Batch {

    private static final String REPLACED = "put-away/replaced/";

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
            for (Write each : writes) {
                batch.write(each);
            }
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
                + " were. Then run the command again for the rest.");
    }

    private void write(Write write) throws SaveFailedException {
        Path path = folder.resolve(write.file());
        byte[] there = Files.isRegularFile(path) ? RecordFiles.bytes(path) : null;
        if (write.over() == null) {
            String way = there != null ? "A file of this name appeared meanwhile. Run the command again." : way(path);
            if (!way.isEmpty()) {
                setAside.add(SetAside.of(write.file(), way));
                return;
            }
            fresh(path, write.source().bytes());
            written.add(write.file());
        } else if (there == null || !Versions.of(there).equals(write.over())) {
            setAside.add(SetAside.of(write.file(), "It was changed in the book meanwhile. Run the command again."));
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

    private void fresh(Path path, byte[] bytes) throws SaveFailedException {
        files.makeFolder(RecordFiles.parent(path));
        files.putFresh(path, bytes);
        names.add(path);
        touched.add(RecordFiles.parent(path));
        touched.add(RecordFiles.parent(RecordFiles.parent(path)));
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
        fresh(kept, bytes);
        files.force(RecordFiles.parent(kept));
        return kept;
    }
}
