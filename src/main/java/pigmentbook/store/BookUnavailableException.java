package pigmentbook.store;

/** Thrown where there is no book to open. The message says what is there and what to do. */
public final class BookUnavailableException extends Exception {

    private static final long serialVersionUID = 1L;

    /**
     * Makes the exception.
     *
     * @param message one or two sentences for the person who wanted to open the book
     */
    public BookUnavailableException(String message) {
        super(message);
    }
}
