package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * Saves records. A save writes a file beside, forces it to the disk, renames it over the old one and forces the folder:
 * a crash at any moment leaves the old or the new. A save that was based on an older version is refused with both
 * sides. No record is ever deleted.
 */
public final class BookWriter {

    /** One save at a time in this process; the lock file keeps other processes out. */
    private static final ReentrantLock IN_THIS_PROCESS = new ReentrantLock();

    private static final byte[] BYTE_ORDER_MARK = {(byte) 0xef, (byte) 0xbb, (byte) 0xbf};

    private final Path folder;

    /**
     * Writes into a book.
     *
     * @param folder its folder
     */
    public BookWriter(Path folder) {
        this.folder = folder;
    }

    /**
     * A record as its file says it.
     *
     * @param file the file, from the book's folder
     * @param version its version
     * @param record what it says
     */
    public record Current(String file, String version, ObjectNode record) {}

    /**
     * Returns a record as its file says it now.
     *
     * @throws SaveFailedException if there is no such file or it can't be read
     */
    public Current read(Kind kind, String id) throws SaveFailedException {
        requireId(kind, id);
        String file = file(kind, id);
        try {
            byte[] bytes = Files.readAllBytes(folder.resolve(file));
            return new Current(file, Versions.of(bytes), JsonFile.read(bytes));
        } catch (NoSuchFileException e) {
            throw new SaveFailedException("There is no " + kind.word() + " \"" + id + "\" in the book.");
        } catch (RefusedException e) {
            throw new SaveFailedException(file + ": " + e.getMessage());
        } catch (IOException e) {
            throw new SaveFailedException(file + " can't be read. Check who may read it.");
        }
    }

    /**
     * Saves a changed record. The text of the file stays as it is but for what changed.
     *
     * @param base the version the change was based on
     * @param changed the whole record as it is to be
     * @return the record as saved
     * @throws ConflictException if the file was changed since that version
     * @throws SaveFailedException if the record could not be read again as it would be, or can't be written
     */
    public Current save(Kind kind, String id, String base, ObjectNode changed)
            throws ConflictException, SaveFailedException {
        requireId(kind, id);
        return locked(() -> {
            String file = file(kind, id);
            Path path = folder.resolve(file);
            byte[] old = Files.readAllBytes(path);
            ObjectNode before = JsonFile.read(old);
            String version = Versions.of(old);
            if (!version.equals(base)) {
                throw new ConflictException(
                        "The " + kind.word() + " \"" + id
                                + "\" was changed meanwhile; both versions are kept to choose from.",
                        before,
                        version,
                        changed);
            }
            requireOldRevisions(kind, before, changed);
            int offset = JsonFile.offset(old);
            String text = new String(old, offset, old.length - offset, StandardCharsets.UTF_8);
            byte[] bytes = withMark(offset > 0, JsonSplice.apply(text, before, changed));
            return written(kind, id, file, bytes);
        });
    }

    /**
     * Saves a new record.
     *
     * @throws ConflictException if there is one of that id already
     * @throws SaveFailedException if the id is none, or the record could not be read again, or can't be written
     */
    public Current create(Kind kind, String id, ObjectNode record) throws ConflictException, SaveFailedException {
        requireId(kind, id);
        return locked(() -> {
            String file = file(kind, id);
            Path path = folder.resolve(file);
            if (Files.exists(path)) {
                byte[] old = Files.readAllBytes(path);
                throw new ConflictException(
                        "There is a " + kind.word() + " \"" + id + "\" already; give the new one another id.",
                        JsonFile.read(old),
                        Versions.of(old),
                        record);
            }
            return written(kind, id, file, withMark(false, JsonLayout.file(record)));
        });
    }

    private static void requireId(Kind kind, String id) throws SaveFailedException {
        String wrong = kind == Kind.SETTINGS ? "" : kind.wrongWithId(id);
        if (!wrong.isEmpty()) {
            throw new SaveFailedException("\"" + id + "\" is no id. " + wrong);
        }
    }

    private String file(Kind kind, String id) {
        String name = (kind == Kind.SETTINGS ? "book" : id) + ".json";
        if (kind == Kind.POUR) {
            return kind.folder() + "/" + id.substring(0, Math.min(4, id.length())) + "/" + name;
        }
        return kind.folder().isEmpty() ? name : kind.folder() + "/" + name;
    }

    /** Saved revisions never change: others look back to them. */
    private static void requireOldRevisions(Kind kind, ObjectNode before, ObjectNode changed)
            throws SaveFailedException {
        if (kind != Kind.RECIPE) {
            return;
        }
        JsonNode old = before.path("revisions");
        JsonNode now = changed.path("revisions");
        for (int i = 0; i < old.size(); i++) {
            if (!old.get(i).equals(now.path(i))) {
                throw new SaveFailedException(
                        "Revision " + old.get(i).path("number").asText()
                                + " is saved and stays as it is; make a new revision for the change.");
            }
        }
    }

    private static byte[] withMark(boolean mark, String text) {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        if (!mark) {
            return bytes;
        }
        byte[] marked = new byte[bytes.length + BYTE_ORDER_MARK.length];
        System.arraycopy(BYTE_ORDER_MARK, 0, marked, 0, BYTE_ORDER_MARK.length);
        System.arraycopy(bytes, 0, marked, BYTE_ORDER_MARK.length, bytes.length);
        return marked;
    }

    private Current written(Kind kind, String id, String file, byte[] bytes)
            throws IOException, RefusedException, SaveFailedException {
        ObjectNode record = JsonFile.read(bytes);
        BookFolder.record(kind, id, record);
        Path path = folder.resolve(file);
        Path parent = path.getParent();
        if (parent != null) {
            Files.createDirectories(parent);
        }
        replace(path, bytes);
        return new Current(file, Versions.of(bytes), record);
    }

    private static void replace(Path path, byte[] bytes) throws IOException {
        Path beside = path.resolveSibling("." + path.getFileName() + ".new");
        boolean moved = false;
        try {
            try (FileChannel channel = FileChannel.open(
                    beside,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.TRUNCATE_EXISTING,
                    StandardOpenOption.WRITE)) {
                ByteBuffer left = ByteBuffer.wrap(bytes);
                while (left.hasRemaining()) {
                    channel.write(left);
                }
                channel.force(true);
            }
            try {
                Files.move(beside, path, StandardCopyOption.ATOMIC_MOVE);
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(beside, path, StandardCopyOption.REPLACE_EXISTING);
            }
            moved = true;
        } finally {
            if (!moved) {
                Files.deleteIfExists(beside);
            }
        }
        forceFolder(path.getParent());
    }

    /** Forces the rename to the disk; some systems can't open a folder, and there the rename is kept by the system. */
    private static void forceFolder(@Nullable Path parent) {
        if (parent == null) {
            return;
        }
        try (FileChannel channel = FileChannel.open(parent, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            // Windows refuses to open a folder; the file itself is on the disk already.
            return;
        }
    }

    /** Work on files that must not be interleaved with another save. */
    private interface Work {
        Current run() throws IOException, RefusedException, ConflictException, SaveFailedException;
    }

    private Current locked(Work work) throws ConflictException, SaveFailedException {
        IN_THIS_PROCESS.lock();
        try (FileChannel channel =
                        FileChannel.open(folder.resolve(".lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                FileLock lock = channel.lock()) {
            if (!lock.isValid()) {
                throw new SaveFailedException("The book is being written by another program. Try again.");
            }
            return work.run();
        } catch (RefusedException e) {
            throw new SaveFailedException("This can't be saved. " + e.getMessage());
        } catch (NoSuchFileException e) {
            throw new SaveFailedException(
                    "\"" + e.getFile() + "\" is not there any more; the book's folder was moved or changed.");
        } catch (IOException e) {
            throw new SaveFailedException("The book's folder can't be written to ("
                    + e.getClass().getSimpleName().replace("Exception", "")
                    + "). Everything is as it was; make room or check"
                    + " who may write there.");
        } finally {
            IN_THIS_PROCESS.unlock();
        }
    }
}
