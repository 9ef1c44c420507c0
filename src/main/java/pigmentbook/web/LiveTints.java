package pigmentbook.web;

import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.tint.Tints;

/**
 * The tints of the open book: fitted beside whatever else there is to do, and again when the book's readings change.
 */
final class LiveTints {

    private static final long LONGEST_WAIT_MS = 5_000;

    private @Nullable Book fitted;
    private @Nullable Tints last;
    private @Nullable CompletableFuture<Tints> fitting;

    /** Returns the tints, waiting a little for the first fit; null where that takes longer. A newer fit comes later. */
    @Nullable
    Tints of(Book book) {
        CompletableFuture<Tints> wait = begin(book);
        if (wait == null) {
            return last();
        }
        Tints before = last();
        if (before != null && !wait.isDone()) {
            return before;
        }
        try {
            return wait.get(LONGEST_WAIT_MS, TimeUnit.MILLISECONDS);
        } catch (TimeoutException e) {
            return null;
        } catch (ExecutionException e) {
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return null;
        }
    }

    /** Returns the tints that are there already, begun to be fitted anew where need be; null before the first fit. */
    @Nullable
    Tints ready(Book book) {
        CompletableFuture<Tints> unused = begin(book);
        return last();
    }

    /** Returns the tints as of just this state of the book, however long that takes. */
    Tints exactly(Book book) {
        CompletableFuture<Tints> wait = begin(book);
        Tints done = last();
        return wait != null ? wait.join() : done != null ? done : Tints.fit(book, Optional.empty());
    }

    private synchronized @Nullable Tints last() {
        return last;
    }

    private synchronized @Nullable CompletableFuture<Tints> begin(Book book) {
        if (fitted != book) {
            fitted = book;
            Optional<Tints> earlier = Optional.ofNullable(last);
            CompletableFuture<Tints> fresh = new CompletableFuture<>();
            fitting = fresh;
            Thread thread = new Thread(() -> fit(book, earlier, fresh), "fit the tints");
            thread.setDaemon(true);
            thread.start();
        }
        return fitting;
    }

    private void fit(Book book, Optional<Tints> earlier, CompletableFuture<Tints> fresh) {
        try {
            Tints tints = Tints.fit(book, earlier);
            synchronized (this) {
                if (fitted == book) {
                    last = tints;
                    fitting = null;
                }
            }
            fresh.complete(tints);
        } catch (RuntimeException e) {
            fresh.completeExceptionally(e);
        }
    }
}
