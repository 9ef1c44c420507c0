package pigmentbook.quantity;

import org.hipparchus.fraction.BigFraction;

/**
 * A percentage, exact, 0 or more.
 *
 * @param exactPercent the percent: 6/5 for 1.2 %
 * @param written the text it was read from
 */
public record Percent(BigFraction exactPercent, String written) implements Amount {

    public Percent {
        if (exactPercent.signum() < 0) {
            throw Refusal.negative(written, Kind.PERCENT.noun());
        }
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "1.2 %"}
     * @throws BadAmountException if the text is no percentage, is ambiguous, lacks its sign or is negative
     */
    public static Percent parse(String text) {
        return new Percent(AmountParser.parseExact(text, Kind.PERCENT), text);
    }

    /** Makes a percentage from a number that a calculation gave: 1.2 for 1.2 %. */
    public static Percent of(double percent) {
        return new Percent(Numbers.exact(percent), Numbers.plain(percent) + " %");
    }

    /** Returns the percent: 1.2 for 1.2 %. */
    public double percent() {
        return Numbers.nearest(exactPercent);
    }

    /** Returns the fraction: 0.012 for 1.2 %. */
    public double fraction() {
        return Numbers.nearest(exactPercent.divide(100));
    }
}
