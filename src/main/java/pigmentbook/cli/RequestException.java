package pigmentbook.cli;

/** Thrown where a request can't be met: what is wrong and what would be accepted. The program ends with 1. */
final class RequestException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    RequestException(String message) {
        super(message, null, false, false);
    }
}
