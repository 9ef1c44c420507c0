package pigmentbook.quantity;

/**
 * Thrown where a text is no amount of the kind that is wanted. The message is one or two sentences for the person who
 * wrote it: what is there, what was expected, what to do.
 */
public final class BadAmountException extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;

    /**
     * Makes the exception.
     *
     * @param message what is there, what was expected, what to do
     */
    public BadAmountException(String message) {
        super(message);
    }
}
