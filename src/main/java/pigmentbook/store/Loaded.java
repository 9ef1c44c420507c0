package pigmentbook.store;

import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What came of one file.
 *
 * @param file where it lies, and what it should hold
 * @param stamp how it looked from outside just before it was read; null where that could not be told
 * @param record the record; null where there is a problem
 * @param problem what is wrong with it, or null
 */
record Loaded(
        Listing.BookFile file,
        @Nullable Stamp stamp,
        @Nullable Object record,
        @Nullable Problem problem) {

    /**
     * How a file looks from outside: enough to tell that it changed, but for a change within the same tick of the file
     * system's clock.
     *
     * @param modifiedMillis when it was last written, since 1970
     * @param modifiedNanos the nanoseconds of that second
     * @param size its bytes
     */
    record Stamp(long modifiedMillis, int modifiedNanos, long size) {}

    static Loaded refused(Listing.BookFile file, @Nullable Stamp stamp, Problem problem) {
        return new Loaded(file, stamp, null, problem);
    }

    /** Returns whether the file says the same as another time. */
    boolean saysTheSameAs(Loaded other) {
        return Objects.equals(record, other.record) && Objects.equals(problem, other.problem);
    }
}
