package pigmentbook.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
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

    /**
     * Returns what percent one mass is of another, to six significant digits: 3.6 g of 300 g is 1.2 %. Six digits are
     * finer than any scale, and leave out what binary fractions add.
     *
     * @param part the mass, 0 g or more
     * @param whole the mass it is a percent of, above 0 g
     * @throws BadAmountException if {@code whole} is not above 0 g
     */
    public static Percent share(Mass part, Mass whole) {
        if (whole.grams() <= 0) {
            throw Refusal.notPositive(whole.written(), Kind.MASS);
        }
        BigDecimal percent = BigDecimal.valueOf(part.grams())
                .movePointRight(2)
                .divide(BigDecimal.valueOf(whole.grams()), new MathContext(6));
        return of(percent.doubleValue());
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
