package pigmentbook.store;

/** Thrown where an import makes no sense as it was asked for. The message says what is there and what to do. */
public final class ImportRefusedException extends Exception {

    private static final long serialVersionUID = 1L;

    ImportRefusedException(String message) {
        super(message);
    }
}
