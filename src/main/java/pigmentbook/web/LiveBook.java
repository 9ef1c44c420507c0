package pigmentbook.web;

import java.nio.file.Path;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import pigmentbook.store.BookFolder;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.BookWriter;
import pigmentbook.store.Opened;
import pigmentbook.store.PutAway;

/**
 * The open book. A file changed from outside (an editor, a synchronised folder) is noticed: when a page is asked for,
 * the folder is looked at again, at most every two seconds and beside the answer.
 */
public final class LiveBook {

    private static final long LOOK_EVERY_NANOS = 2_000_000_000L;

    private final BookFolder folder;
    private final AtomicBoolean looking = new AtomicBoolean();
    private final FutureTask<Opened> opening;
    private volatile @Nullable Opened refreshed;
    private volatile long lookedAt;

    /**
     * Begins to open a book, beside whatever else there is to do at the start.
     *
     * @param folder its folder
     */
    public LiveBook(Path folder) {
        this.folder = new BookFolder(folder);
        this.opening = new FutureTask<>(this.folder::open);
        this.lookedAt = System.nanoTime();
        background(opening, "open the book");
    }

    /**
     * Waits until the book is open.
     *
     * @throws BookUnavailableException if there is no book to open
     */
    public void awaitOpened() throws BookUnavailableException {
        try {
            opening.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof BookUnavailableException unavailable) {
                throw unavailable;
            }
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** Does something once the book is open, beside whatever else there is to do; never where it can't be opened. */
    void whenOpened(Consumer<Opened> work) {
        background(
                () -> {
                    try {
                        work.accept(opening.get());
                    } catch (ExecutionException e) {
                        // Whoever waits for the book is told.
                        return;
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                },
                "make the colours ready");
    }

    private static void background(Runnable work, String name) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    /** Returns the book as it was last read. */
    Opened now() {
        if (System.nanoTime() - lookedAt > LOOK_EVERY_NANOS && looking.compareAndSet(false, true)) {
            background(this::look, "look at the book");
        }
        return opened();
    }

    /** Returns the book as its files are at this moment: after a save. */
    Opened reread() throws BookUnavailableException {
        return refresh();
    }

    /**
     * One look at a time: one that began earlier and ends later would put the book back to what it was before a save.
     */
    private synchronized Opened refresh() throws BookUnavailableException {
        Opened newer = folder.refresh(opened());
        refreshed = newer;
        return newer;
    }

    /** Returns the book with a pour in it that may have been begun this very moment. */
    Opened reread(String pourId) {
        Opened there = now();
        try {
            return there.book().pours().containsKey(pourId) ? there : reread();
        } catch (BookUnavailableException e) {
            // The folder is gone for a moment: what was read stays.
            return there;
        }
    }

    /** Lets the folder be looked at again once a page is asked for: after a save that nobody waits to see. */
    void lookAgain() {
        lookedAt = System.nanoTime() - 2 * LOOK_EVERY_NANOS;
    }

    /** Returns what saves into this book. */
    BookWriter writer() {
        return new BookWriter(opened().folder());
    }

    /** Returns where records of this book are put away. */
    PutAway putAway() {
        return new PutAway(opened().folder());
    }

    private Opened opened() {
        Opened newer = refreshed;
        if (newer != null) {
            return newer;
        }
        try {
            return opening.get();
        } catch (ExecutionException e) {
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private void look() {
        lookedAt = System.nanoTime();
        try {
            refresh();
        } catch (BookUnavailableException e) {
            // The folder is gone for a moment, as while it is being synchronised: what was read stays.
            return;
        } finally {
            looking.set(false);
        }
    }
}
