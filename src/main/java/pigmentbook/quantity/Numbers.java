package pigmentbook.quantity;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import org.hipparchus.fraction.BigFraction;

/** Plain numbers: read from what people type, written the same way on every machine. */
public final class Numbers {

    private static final BigInteger EXACT_AS_DOUBLE = BigInteger.ONE.shiftLeft(53);

    private static final List<RoundingMode> SHORTENING = List.of(RoundingMode.HALF_EVEN, RoundingMode.UP);
    private static final double[] TENS = {1, 10, 100, 1e3, 1e4, 1e5, 1e6};
    private static final double SURE_BELOW = 1e9;
    private static final double SURE_BY = 1e-5;

    private Numbers() {}

    /**
     * Reads a plain number without a unit, with a dot or a comma as decimal mark; it may be negative or a fraction.
     *
     * @throws BadAmountException if the text is no number or is ambiguous
     */
    public static BigFraction parse(String text) {
        return AmountParser.parseNumber(text);
    }

    /**
     * Returns the fraction of the shortest decimal that reads back as this double.
     *
     * @throws BadAmountException if it is infinite or no number
     */
    public static BigFraction exact(double value) {
        AmountParser.requireFinite(value, String.valueOf(value));
        return fraction(shortest(value));
    }

    /** Returns the double nearest to a fraction, the even one of two that are equally near; may be infinite. */
    public static double nearest(BigFraction exact) {
        BigInteger numerator = exact.getNumerator();
        BigInteger denominator = exact.getDenominator();
        if (numerator.abs().compareTo(EXACT_AS_DOUBLE) <= 0 && denominator.compareTo(EXACT_AS_DOUBLE) <= 0) {
            return numerator.doubleValue() / denominator.doubleValue();
        }
        // A quotient of 66 bits or more, its last bit set where something is cut off, rounds like the fraction.
        int shift = 66 - (numerator.abs().bitLength() - denominator.bitLength());
        BigInteger[] quotient = numerator
                .abs()
                .shiftLeft(Math.max(0, shift))
                .divideAndRemainder(denominator.shiftLeft(Math.max(0, -shift)));
        BigInteger bits = quotient[1].signum() == 0 ? quotient[0] : quotient[0].setBit(0);
        return exact.signum() * Math.scalb(bits.doubleValue(), -shift);
    }

    /**
     * Returns the shortest decimal that reads back as this double, a dot as decimal mark, no exponent, no end zeros;
     * {@code 0} for −0, and Java's word for an infinite value or no number.
     */
    public static String plain(double value) {
        if (!Double.isFinite(value)) {
            return String.valueOf(value);
        }
        BigDecimal decimal = shortest(value);
        return (decimal.scale() < 0 ? decimal.setScale(0) : decimal).toPlainString();
    }

    /**
     * Returns the number with just so many decimals, halves away from zero, a dot as decimal mark; never −0. A half is
     * one of the shortest decimal that reads back as this double, so 1.005 gives 1.01.
     */
    public static String fixed(double value, int decimals) {
        if (decimals >= 0 && decimals < TENS.length) {
            // In whole numbers where no half is near enough to matter, which is nearly always.
            double scaled = Math.abs(value) * TENS[decimals];
            double whole = Math.rint(scaled);
            if (scaled < SURE_BELOW && Math.abs(Math.abs(scaled - whole) - 0.5) > SURE_BY) {
                return BigDecimal.valueOf(value < 0 ? -(long) whole : (long) whole, decimals)
                        .toPlainString();
            }
        }
        return Double.isFinite(value)
                ? shortest(value).setScale(decimals, RoundingMode.HALF_UP).toPlainString()
                : String.valueOf(value);
    }

    static BigFraction fraction(BigDecimal decimal) {
        return decimal.scale() <= 0
                ? new BigFraction(decimal.toBigIntegerExact())
                : new BigFraction(decimal.unscaledValue(), BigInteger.TEN.pow(decimal.scale()));
    }

    /**
     * Returns the shortest decimal that reads back, the nearest of several. Not {@link Double#toString(double)}, which
     * writes some doubles with a digit too many before Java 19.
     */
    private static BigDecimal shortest(double value) {
        if (value == Math.rint(value) && Math.abs(value) < 1e15) {
            return BigDecimal.valueOf((long) value);
        }
        BigDecimal exact = new BigDecimal(value);
        // 15 digits always tell decimals apart, 17 always tell doubles apart; below the normal range fewer may do.
        int digits = Math.abs(value) < Double.MIN_NORMAL ? 1 : 15;
        while (true) {
            // Above a power of two doubles lie wider apart than below it: only the decimal further off may read back.
            for (RoundingMode mode : SHORTENING) {
                BigDecimal rounded = exact.round(new MathContext(digits, mode));
                if (rounded.doubleValue() == value) {
                    return rounded.stripTrailingZeros();
                }
            }
            digits++;
        }
    }
}
