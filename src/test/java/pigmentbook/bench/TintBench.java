package pigmentbook.bench;

import pigmentbook.tint.TintRounds;

/**
 * How long colours take: the nearest of 100 000, one look, a match of 4 of 40 pigments, a fit of 40 pigments to 2 000
 * readings, and one reading more.
 *
 * <p>Run: {@code mvn -q test-compile exec:exec@program -Dprogram=pigmentbook.bench.TintBench}.
 */
public final class TintBench {

    private TintBench() {}

    /** Prints medians of wall-clock time and of this thread's own time. */
    public static void main(String[] args) {
        TintRounds.print();
    }
}
