package pigmentbook.web;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.concurrent.atomic.AtomicBoolean;
import pigmentbook.store.BookFolder;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.Opened;

/**
 * The open book. A file changed from outside (an editor, a synchronised folder) is noticed: when a page is asked for,
 * the folder is looked at again, at most every two seconds and beside the answer.
 */
public final class LiveBook {

    private static final long LOOK_EVERY_NANOS = 2_000_000_000L;

    private final Path folder;
    private final AtomicBoolean looking = new AtomicBoolean();
    private volatile Opened opened;
    private volatile long stamp;
    private volatile long lookedAt;

    /**
     * Opens a book.
     *
     * @param folder its folder
     * @throws BookUnavailableException if there is no book to open
     */
    public LiveBook(Path folder) throws BookUnavailableException {
        this.folder = folder;
        this.opened = new BookFolder(folder).open();
        this.stamp = stamp();
        this.lookedAt = System.nanoTime();
    }

    /** Returns the book as it was last read. */
    Opened now() {
        if (System.nanoTime() - lookedAt > LOOK_EVERY_NANOS && looking.compareAndSet(false, true)) {
            Thread thread = new Thread(this::look, "look at the book");
            thread.setDaemon(true);
            thread.start();
        }
        return opened;
    }

    private void look() {
        try {
            long seen = stamp();
            if (seen != stamp) {
                opened = new BookFolder(folder).open();
                stamp = seen;
            }
        } catch (BookUnavailableException e) {
            // The folder is gone for a moment, as when it is being synchronised: what was read stays.
            stamp = 0;
        } finally {
            lookedAt = System.nanoTime();
            looking.set(false);
        }
    }

    /** Returns a number that changes when any file is changed, added or taken away. */
    private long stamp() {
        long[] sum = {0};
        try {
            Files.walkFileTree(folder, new SimpleFileVisitor<>() {
                @Override
                public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
                    long each = attributes.lastModifiedTime().toMillis() * 31 + attributes.size();
                    sum[0] += each * (file.hashCode() | 1L);
                    return FileVisitResult.CONTINUE;
                }

                @Override
                public FileVisitResult visitFileFailed(Path file, IOException e) {
                    return FileVisitResult.CONTINUE;
                }
            });
        } catch (IOException e) {
            return 0;
        }
        return sum[0];
    }
}
