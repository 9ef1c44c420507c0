package pigmentbook.store;

/** Thrown where a record can't be saved; every file is as it was. The message says why and what to do. */
public final class SaveFailedException extends Exception {

    private static final long serialVersionUID = 1L;

    SaveFailedException(String message) {
        super(message);
    }
}
