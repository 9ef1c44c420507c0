package pigmentbook.store;

import java.io.IOException;
import org.jspecify.annotations.Nullable;

/** Thrown where a record can't be saved; every file is as it was. The message says why and what to do. */
public final class SaveFailedException extends Exception {

    private static final long serialVersionUID = 1L;
    private final transient @Nullable Problem problem;
    private final @Nullable String missing;

    public SaveFailedException(String message) {
        super(message);
        this.problem = null;
        this.missing = null;
    }

    SaveFailedException(String message, IOException cause) {
        super(message, cause);
        this.problem = null;
        this.missing = null;
    }

    SaveFailedException(String message, Problem problem) {
        this(message, problem, null);
    }

    SaveFailedException(String message, Problem problem, @Nullable String missing) {
        super(message);
        this.problem = problem;
        this.missing = missing;
    }

    /** Returns what is wrong with the record, its line one of the text that was not written; null if it is the disk. */
    public @Nullable Problem problem() {
        return problem;
    }

    /** Returns where in the record a value is still missing, as a JSON pointer; null if something else is wrong. */
    public @Nullable String missing() {
        return missing;
    }
}
