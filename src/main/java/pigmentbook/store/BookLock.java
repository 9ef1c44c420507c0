package pigmentbook.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/** Holds a book for one writer at a time, among the threads of this program and among programs. */
final class BookLock implements AutoCloseable {

    /** The file that is locked; it stays, since taking it away would let two writers lock two files of this name. */
    static final String FILE = ".lock";

    private static final ReentrantLock WITHIN = new ReentrantLock();
    private static final long PAUSE_MILLIS = 10;

    private final FileChannel channel;

    private BookLock(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Waits for the book.
     *
     * @param mostMillis how long at most
     * @throws SaveFailedException if somebody else holds it for longer, or the lock can't be made
     */
    static BookLock take(Path folder, long mostMillis) throws SaveFailedException {
        long until = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(mostMillis);
        FileChannel channel = null;
        boolean taken = false;
        try {
            if (!WITHIN.tryLock(mostMillis, TimeUnit.MILLISECONDS)) {
                throw busy();
            }
            taken = true;
            channel = FileChannel.open(folder.resolve(FILE), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            while (!locked(channel)) {
                if (System.nanoTime() > until) {
                    throw busy();
                }
                Thread.sleep(PAUSE_MILLIS);
            }
            BookLock lock = new BookLock(channel);
            channel = null;
            taken = false;
            return lock;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw busy();
        } catch (IOException e) {
            throw SaveFailures.of(folder, e);
        } finally {
            close(channel);
            if (taken) {
                WITHIN.unlock();
            }
        }
    }

    private static boolean locked(FileChannel channel) {
        try {
            return channel.tryLock() != null;
        } catch (IOException e) {
            // Some network disks know no locks. Saving without one is better than not saving: versions are compared.
            System.getLogger(BookLock.class.getName()).log(System.Logger.Level.DEBUG, "no locks here", e);
            return true;
        }
    }

    private static SaveFailedException busy() {
        return new SaveFailedException("Another program is saving in this book just now. Try again in a moment.");
    }

    private static void close(@Nullable FileChannel channel) {
        if (channel != null) {
            try {
                channel.close();
            } catch (IOException e) {
                // The system lets go of the lock when the program ends; nothing was written through this channel.
                System.getLogger(BookLock.class.getName()).log(System.Logger.Level.DEBUG, "lock not closed", e);
            }
        }
    }

    boolean isClosed() {
        return !channel.isOpen();
    }

    @Override
    public void close() {
        close(channel);
        WITHIN.unlock();
    }
}
