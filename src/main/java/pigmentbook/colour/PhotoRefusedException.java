package pigmentbook.colour;

/** Thrown where a photo gives no reading that could be trusted; the message says why and what to do. */
public final class PhotoRefusedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    PhotoRefusedException(String message) {
        super(message, null, false, false);
    }
}
