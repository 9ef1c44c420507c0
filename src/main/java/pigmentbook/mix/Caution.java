package pigmentbook.mix;

/**
 * Something to beware of.
 *
 * @param code a short, stable name, lower case with hyphens
 * @param severity how much it matters
 * @param text one sentence that says what and why, with its numbers
 * @param basis {@code data sheet}, a published source, or {@code common practice}
 */
public record Caution(String code, Severity severity, String text, String basis) {

    /** Entered by the person from the product's data sheet. */
    public static final String DATA_SHEET = "data sheet";

    /** What the trade does, without a source. */
    public static final String COMMON_PRACTICE = "common practice";

    /** The code of the rule of thumb by which another loading keeps the look at another depth. */
    public static final String KEEPING_THE_LOOK = "loading-for-depth";

    /** How much a caution matters. */
    public enum Severity {
        /** Do not go on. */
        STOP,
        /** Beware. */
        WARN,
        /** Good to know. */
        NOTE
    }
}
