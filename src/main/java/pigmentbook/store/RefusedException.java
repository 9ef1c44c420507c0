package pigmentbook.store;

import org.jspecify.annotations.Nullable;

/** A file or a value that can't be taken. The message says what is there, what was expected, what to do. */
final class RefusedException extends Exception {

    private static final long serialVersionUID = 1L;
    private final int line;
    private final String path;
    private final String code;
    private final String text;
    private final @Nullable String missing;

    /** Refuses a line of a file. */
    RefusedException(int line, String code, String message) {
        super(message, null, false, false);
        this.line = line;
        this.path = "";
        this.code = code;
        this.text = message;
        this.missing = null;
    }

    /** Refuses the value at a path. */
    RefusedException(String path, String code, String message) {
        this(path, code, message, null);
    }

    /** Refuses a part that lacks a value. */
    static RefusedException missing(String path, String name) {
        return new RefusedException(
                path, "missing-field", "\"" + name + "\" is missing. Write it in.", path + "/" + name);
    }

    private RefusedException(String path, String code, String message, @Nullable String missing) {
        super(message, null, false, false);
        this.line = 0;
        this.path = path;
        this.code = code;
        this.text = message;
        this.missing = missing;
    }

    /** Returns the path of the value that is missing, as a JSON pointer; null where something else is wrong. */
    @Nullable
    String missing() {
        return missing;
    }

    /** Returns the problem, with its line looked up where only its path is known. */
    Problem in(String file, byte[] bytes) {
        return new Problem(file, line > 0 ? line : JsonFile.lineOf(bytes, path), code, text);
    }
}
