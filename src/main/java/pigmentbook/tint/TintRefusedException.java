package pigmentbook.tint;

/** Thrown where a colour can't be worked out. The message says what is missing and what to do. */
public final class TintRefusedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /**
     * Makes the exception.
     *
     * @param message one or two sentences for the person who asked
     */
    public TintRefusedException(String message) {
        super(message);
    }
}
