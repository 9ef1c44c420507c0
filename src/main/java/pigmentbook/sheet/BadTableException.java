package pigmentbook.sheet;

/** Thrown where a file is no table that can be read. The message says what is there and what to do. */
public final class BadTableException extends Exception {

    private static final long serialVersionUID = 1L;

    BadTableException(String message) {
        super(message);
    }
}
