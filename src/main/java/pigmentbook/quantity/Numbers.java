package pigmentbook.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.hipparchus.fraction.BigFraction;

/** Plain numbers: read from what people type, written the same way on every machine. */
public final class Numbers {

    private Numbers() {}

    /**
     * Reads a plain number without a unit, with a dot or a comma as decimal mark.
     *
     * @throws BadAmountException if the text is no number or is ambiguous
     */
    public static BigFraction parse(String text) {
        return AmountParser.parseNumber(text);
    }

    /** Returns the fraction of the shortest decimal that reads back as this double. */
    public static BigFraction exact(double value) {
        BigDecimal decimal = BigDecimal.valueOf(value);
        return decimal.scale() <= 0
                ? new BigFraction(decimal.toBigIntegerExact())
                : new BigFraction(decimal.unscaledValue(), java.math.BigInteger.TEN.pow(decimal.scale()));
    }

    /**
     * Returns the shortest decimal that reads back as this double, a dot as decimal mark, no exponent, no end zeros.
     */
    public static String plain(double value) {
        BigDecimal decimal = BigDecimal.valueOf(value).stripTrailingZeros();
        return (decimal.scale() < 0 ? decimal.setScale(0) : decimal).toPlainString();
    }

    /** Returns the number with just so many decimals, halves away from zero, a dot as decimal mark. */
    public static String fixed(double value, int decimals) {
        return BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_UP)
                .toPlainString();
    }
}
