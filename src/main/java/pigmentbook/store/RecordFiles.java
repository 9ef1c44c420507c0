package pigmentbook.store;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicLong;
import org.jspecify.annotations.Nullable;

/** Where the records of a book lie as files, and how one is put in the place of another at once. */
final class RecordFiles {

    private static final long LONGEST_WAIT_MILLIS = 5_000;
    private static final AtomicLong COUNT = new AtomicLong();

    private final Path folder;
    private final Disk disk;

    RecordFiles(Path folder, Disk disk) {
        this.folder = folder;
        this.disk = disk;
    }

    /** Waits until nobody else saves in this book, and finishes what a stop cut short. */
    BookLock lock() throws SaveFailedException {
        BookLock lock = BookLock.take(requireFolder(), LONGEST_WAIT_MILLIS);
        try {
            Together.finish(this, folder);
        } catch (SaveFailedException e) {
            lock.close();
            throw e;
        }
        return lock;
    }

    static void requireId(Kind kind, String id) throws SaveFailedException {
        String wrong =
                kind != Kind.SETTINGS ? kind.wrongWithId(id) : id.equals("book") ? "" : "The settings' id is \"book\".";
        if (!wrong.isEmpty()) {
            throw new SaveFailedException("\"" + Records.shown(id) + "\" is no id. " + wrong);
        }
    }

    private Path requireFolder() throws SaveFailedException {
        if (!Files.isDirectory(folder)) {
            throw new SaveFailedException(
                    "There is no folder \"" + folder + "\" any more. Look where the book went. Nothing was changed.");
        }
        return folder;
    }

    /** Returns the record's file, or where it would be: a pour may lie in another year's folder than its own. */
    Path find(Kind kind, String id) throws SaveFailedException {
        Path usual = folder.resolve(kind.usualFile(id));
        Path pours = folder.resolve(Kind.POUR.folder());
        if (kind != Kind.POUR || Files.exists(usual) || !Files.isDirectory(pours)) {
            return usual;
        }
        try (DirectoryStream<Path> years = Files.newDirectoryStream(pours, Files::isDirectory)) {
            for (Path year : years) {
                Path file = year.resolve(id + Listing.SUFFIX);
                if (Files.exists(file)) {
                    return file;
                }
            }
        } catch (IOException e) {
            throw SaveFailures.of(pours, e);
        }
        return usual;
    }

    String name(Path path) {
        return folder.relativize(path).toString().replace('\\', '/');
    }

    static Path parent(Path path) {
        Path parent = path.getParent();
        return parent == null ? path : parent;
    }

    static byte @Nullable [] bytes(Path path) throws SaveFailedException {
        try {
            if (Files.isDirectory(path)) {
                throw new SaveFailedException("Here stands a folder where the file \"" + path
                        + "\" was expected. Move it away. Nothing was changed.");
            }
            return Files.readAllBytes(path);
        } catch (NoSuchFileException e) {
            return null;
        } catch (IOException e) {
            throw new SaveFailedException(
                    "The file \"" + path + "\" can't be read. Check who may read it. Nothing was changed.", e);
        }
    }

    static void requireNoTwin(Path path) throws SaveFailedException {
        String wanted = String.valueOf(path.getFileName());
        try (DirectoryStream<Path> others = Files.newDirectoryStream(parent(path))) {
            for (Path other : others) {
                String name = String.valueOf(other.getFileName());
                if (name.equals(wanted)) {
                    throw new SaveFailedException("A link that leads nowhere stands where the file \"" + path
                            + "\" was expected. Take it away. Nothing was changed.");
                }
                if (name.equalsIgnoreCase(wanted)) {
                    throw new SaveFailedException("This name differs from " + name
                            + " only by capitals, which some computers can't tell apart. Choose another id.");
                }
            }
        } catch (IOException e) {
            throw SaveFailures.of(parent(path), e);
        }
    }

    void requireNoFileAsFolder(Path wanted) throws SaveFailedException {
        for (Path each = wanted; each != null && !each.equals(folder); each = each.getParent()) {
            if (Files.exists(each, LinkOption.NOFOLLOW_LINKS) && !Files.isDirectory(each)) {
                throw new SaveFailedException("Here stands a file where the folder \"" + each
                        + "\" was expected. Move it away. Nothing was changed.");
            }
        }
    }

    void makeFolder(Path wanted) throws SaveFailedException {
        try {
            Files.createDirectories(wanted);
        } catch (IOException e) {
            throw SaveFailures.of(folder, e);
        }
    }

    /** Writes beside, then takes the file's place: whoever reads finds the old or the new, never a part. */
    void put(Path path, byte[] bytes) throws SaveFailedException {
        Path parent = parent(path);
        Path temporary = null;
        try {
            // A record that is a link stays one: what it leads to is replaced.
            boolean there = Files.exists(path);
            Path target = there ? path.toRealPath() : path;
            parent = parent(target);
            String prefix = "." + target.getFileName() + ".new-";
            disk.takeAway(parent, prefix);
            temporary = parent.resolve(prefix + ProcessHandle.current().pid() + "-" + COUNT.incrementAndGet());
            disk.write(temporary, bytes);
            if (there) {
                disk.keepRights(target, temporary);
            }
            disk.rename(temporary, target);
        } catch (IOException e) {
            SaveFailedException failed = SaveFailures.of(parent, e);
            takeAway(temporary, failed);
            throw failed;
        }
        force(parent);
        force(parent(parent));
    }

    /**
     * Writes a file that is not there yet, whole or not at all. Whoever calls looked that nothing stands in its place,
     * and forces the folder when all are written.
     */
    void putFresh(Path path, byte[] bytes) throws SaveFailedException {
        Path parent = parent(path);
        Path temporary = parent.resolve(
                "." + path.getFileName() + ".new-" + ProcessHandle.current().pid() + "-" + COUNT.incrementAndGet());
        try {
            disk.write(temporary, bytes);
            disk.rename(temporary, path);
        } catch (IOException e) {
            SaveFailedException failed = SaveFailures.of(parent, e);
            takeAway(temporary, failed);
            throw failed;
        }
    }

    private static void takeAway(@Nullable Path temporary, SaveFailedException failed) {
        if (temporary != null) {
            try {
                Files.deleteIfExists(temporary);
            } catch (IOException e) {
                failed.addSuppressed(e);
            }
        }
    }

    /** Some systems can't do this to a folder (Windows); the new file itself is on the disk already. */
    void force(Path in) {
        try {
            disk.force(in);
        } catch (IOException e) {
            System.getLogger(RecordFiles.class.getName()).log(System.Logger.Level.DEBUG, "folder not forced", e);
        }
    }

    /** Moves a file to a name that is free. */
    void move(Path from, Path to) throws SaveFailedException {
        requireNoFileAsFolder(parent(to));
        makeFolder(parent(to));
        try {
            disk.rename(from, to);
        } catch (IOException e) {
            throw SaveFailures.of(parent(to), e);
        }
        force(parent(to));
        force(parent(from));
    }
}
