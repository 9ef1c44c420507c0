package pigmentbook.quantity;

import org.hipparchus.fraction.BigFraction;

/**
 * Two parts to one another, exact, both above zero. It does not say by what: by weight and by volume are kept apart
 * where the ratio is used.
 *
 * @param a the first part
 * @param b the second part
 * @param written the text it was read from
 */
public record Ratio(BigFraction a, BigFraction b, String written) implements Amount {

    public Ratio {
        if (a.signum() <= 0 || b.signum() <= 0) {
            throw new BadAmountException(
                    "A ratio of " + Refusal.quoted(written) + " has a part that is not above zero; write it like 2:1.");
        }
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "2:1"}, {@code "100:47"}, {@code "2 to 1"}
     * @throws BadAmountException if the text is no ratio
     */
    public static Ratio parse(String text) {
        return AmountParser.parseRatio(text);
    }

    /** Returns a/b: 2 for 2:1. */
    public double quotient() {
        return Numbers.nearest(a.divide(b));
    }

    /** Returns the first part's share of the whole: 2:1 is 0.667. */
    public double shareOfA() {
        return Numbers.nearest(a.divide(a.add(b)));
    }
}
