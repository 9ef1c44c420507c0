package pigmentbook.web;

/** Thrown where a port can't be listened on. */
public final class PortTakenException extends Exception {

    private static final long serialVersionUID = 1L;

    PortTakenException(int port) {
        super("The port " + port + " is taken by another program.");
    }
}
