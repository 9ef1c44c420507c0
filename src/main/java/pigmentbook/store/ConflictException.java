package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;

/** Thrown where a record was changed by somebody else since it was read. Both sides are kept: nothing is lost. */
public final class ConflictException extends Exception {

    private static final long serialVersionUID = 1L;
    private final transient ObjectNode there;
    private final transient ObjectNode wanted;
    private final String version;

    ConflictException(String message, ObjectNode there, String version, ObjectNode wanted) {
        super(message);
        this.there = there;
        this.version = version;
        this.wanted = wanted;
    }

    /** Returns what the file says now. */
    public ObjectNode there() {
        return there;
    }

    /** Returns the version of what the file says now. */
    public String version() {
        return version;
    }

    /** Returns what was to be saved. */
    public ObjectNode wanted() {
        return wanted;
    }
}
