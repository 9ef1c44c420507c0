package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;

/** Thrown where a record was changed by somebody else since it was read. Both sides are kept: nothing is lost. */
public final class ConflictException extends Exception {

    private static final long serialVersionUID = 1L;
    private final transient ObjectNode there;
    private final transient ObjectNode wanted;
    private final transient byte[] theirs;
    private final transient byte[] yours;
    private final String version;

    ConflictException(String message, ObjectNode there, byte[] theirs, ObjectNode wanted, byte[] yours) {
        super(message);
        this.there = there;
        this.theirs = theirs;
        this.version = Versions.of(theirs);
        this.wanted = wanted;
        this.yours = yours;
    }

    /** Returns what the file says now. */
    public ObjectNode there() {
        return there;
    }

    /** Returns the version of what the file says now. */
    public String version() {
        return version;
    }

    /** Returns the bytes that are in the file now. */
    public byte[] theirs() {
        return theirs.clone();
    }

    /** Returns the bytes that the file would hold with what was to be saved, laid out as it is now. */
    public byte[] yours() {
        return yours.clone();
    }

    /** Returns what was to be saved. */
    public ObjectNode wanted() {
        return wanted;
    }
}
