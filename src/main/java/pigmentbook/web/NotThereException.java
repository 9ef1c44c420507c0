package pigmentbook.web;

/** Thrown where a page names a record that is not in the book. */
final class NotThereException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    NotThereException(String message) {
        super(message, null, false, false);
    }
}
