package pigmentbook.store;

/** Thrown where a file is no pack that can be taken. The message says what is there and what to do. */
public final class BadPackException extends Exception {

    private static final long serialVersionUID = 1L;

    BadPackException(String message) {
        super(message);
    }
}
