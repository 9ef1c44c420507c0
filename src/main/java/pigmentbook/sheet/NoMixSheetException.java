package pigmentbook.sheet;

/** Thrown where a file is no mix sheet, or can't be read as one. The message says what it is and what to do. */
public final class NoMixSheetException extends Exception {

    private static final long serialVersionUID = 1L;

    NoMixSheetException(String message) {
        super(message, null, false, false);
    }
}
