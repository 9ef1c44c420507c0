package pigmentbook.store;

import java.io.IOException;
import org.jspecify.annotations.Nullable;

/** Thrown where a record can't be saved; every file is as it was. The message says why and what to do. */
public final class SaveFailedException extends Exception {

    private static final long serialVersionUID = 1L;
    private final transient @Nullable Problem problem;

    public SaveFailedException(String message) {
        super(message);
        this.problem = null;
    }

    SaveFailedException(String message, IOException cause) {
        super(message, cause);
        this.problem = null;
    }

    SaveFailedException(String message, Problem problem) {
        super(message);
        this.problem = problem;
    }

    /** Returns what is wrong with the record, its line one of the text that was not written; null if it is the disk. */
    public @Nullable Problem problem() {
        return problem;
    }
}
