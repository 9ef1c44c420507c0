package pigmentbook.quantity;

/**
 * Thrown where a text is no amount of the kind that is wanted. The message is one or two sentences for the person who
 * wrote it: what is there, what was expected, what to do.
 */
public class BadAmountException extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;
    private final boolean ambiguous;

    /**
     * Makes the exception.
     *
     * @param message what is there, what was expected, what to do
     */
    public BadAmountException(String message) {
        this(message, false);
    }

    /**
     * Makes the exception.
     *
     * @param message what is there, what was expected, what to do
     * @param ambiguous whether the text can be read in two ways
     */
    protected BadAmountException(String message, boolean ambiguous) {
        super(message);
        this.ambiguous = ambiguous;
    }

    /** Returns whether the text can be read in two ways, so that the person has only to say which is meant. */
    public final boolean isAmbiguous() {
        return ambiguous;
    }
}
