package pigmentbook.web;

import java.nio.file.Path;
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

    private final BookFolder folder;
    private final AtomicBoolean looking = new AtomicBoolean();
    private volatile Opened opened;
    private volatile long lookedAt;

    /**
     * Opens a book.
     *
     * @param folder its folder
     * @throws BookUnavailableException if there is no book to open
     */
    public LiveBook(Path folder) throws BookUnavailableException {
        this.folder = new BookFolder(folder);
        this.opened = this.folder.open();
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
            opened = folder.refresh(opened);
        } catch (BookUnavailableException e) {
            // The folder is gone for a moment, as while it is being synchronised: what was read stays.
            return;
        } finally {
            lookedAt = System.nanoTime();
            looking.set(false);
        }
    }
}
