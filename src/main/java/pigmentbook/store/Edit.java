package pigmentbook.store;

import org.jspecify.annotations.Nullable;

/**
 * One thing that somebody changed in a record, as it was typed.
 *
 * @param what whether a value is set, an entry of a list is added, or one is taken out
 * @param path where, as a JSON pointer such as {@code /inserts/0/count}
 * @param was what the person saw there: a text as {@link Edits#text} gives it, or for an entry taken out its JSON
 * @param now what it shall be: a text, empty for nothing; or for an added entry its JSON
 */
public record Edit(What what, String path, String was, String now) {

    /** What an edit does. */
    public enum What {
        /** Sets one value. */
        SET,
        /** Adds an entry to a list, before the one that stands at the path's last number. */
        ADD,
        /** Takes an entry out of a list. */
        TAKE_OUT
    }

    /** Whether an edit was kept. */
    public enum State {
        /** It is on the disk. */
        SAVED,
        /** The record could not be read with it; the text says why. */
        REFUSED,
        /** Somebody else changed the same value meanwhile; the text is what stands there now. */
        CHANGED_ELSEWHERE
    }

    /**
     * What became of an edit.
     *
     * @param edit the edit
     * @param state whether it was kept
     * @param text why not, or what stands there now; empty where it was saved
     * @param missing where in the record a value is still missing, as a JSON pointer; null where that is not why
     */
    public record Outcome(
            Edit edit, State state, String text, @Nullable String missing) {}
}
