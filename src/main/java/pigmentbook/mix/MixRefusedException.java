package pigmentbook.mix;

/** Thrown where a request can't be met. The message says what is wrong and what would be accepted. */
public final class MixRefusedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /**
     * Makes the exception.
     *
     * @param message one or two sentences for the person who asked
     */
    public MixRefusedException(String message) {
        super(message);
    }
}
