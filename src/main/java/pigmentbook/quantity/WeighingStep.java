package pigmentbook.quantity;

import java.math.BigInteger;
import org.hipparchus.fraction.BigFraction;

/**
 * The smallest step that a scale's display shows, exact and above zero: 0.01 g, 0.05 g, 1/8 oz.
 *
 * <p>Rounding is done in exact fractions of the shortest decimal that reads back as the given double, so it holds for
 * any size, and its results are the doubles nearest to a multiple of the step.
 *
 * @param exactGrams the step in g
 * @param written the text it was read from
 */
public record WeighingStep(BigFraction exactGrams, String written) implements Amount {

    /** How near to a half, in steps, still counts as a half: 1.005 g at 0.01 g is 1.01 g. */
    public static final double HALF_WITHIN = 1e-9;

    private static final BigFraction WITHIN = new BigFraction(1, 1_000_000_000);
    private static final BigFraction HALF = new BigFraction(1, 2);
    private static final double SURE_BELOW = 1 << 20;
    private static final int SHORT_BITS = 32;
    private static final int MOST_DECIMALS = 4;

    public WeighingStep {
        if (exactGrams.signum() <= 0) {
            throw new BadAmountException(
                    "A scale's step of " + Refusal.quoted(written) + " is not above zero; write it like 0.01 g.");
        }
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "0.01 g"}
     * @throws BadAmountException if the text is no mass above zero
     */
    public static WeighingStep parse(String text) {
        return new WeighingStep(AmountParser.parseExact(text, Kind.MASS), text);
    }

    /** Returns the step in g. */
    public double grams() {
        return isShort()
                ? exactGrams.getNumeratorAsLong() / (double) exactGrams.getDenominatorAsLong()
                : Numbers.nearest(exactGrams);
    }

    /**
     * Rounds to the nearest multiple of the step, halves up.
     *
     * @param grams a mass in g, finite
     * @return the multiple of the step, in g
     */
    public double round(double grams) {
        return floor(grams, true);
    }

    /** Returns the largest multiple of the step that is not above {@code grams}, or within 1e-9 of a step above it. */
    public double roundDown(double grams) {
        return floor(grams, false);
    }

    /** Returns the smallest multiple of the step that is not below {@code grams}, or within 1e-9 of a step below it. */
    public double roundUp(double grams) {
        return 0 - floor(-grams, false);
    }

    /** Returns how many decimals in g show a multiple of the step in full, at most 4. */
    public int decimals() {
        int decimals = 0;
        BigFraction scaled = exactGrams;
        while (decimals < MOST_DECIMALS && !scaled.getDenominator().equals(BigInteger.ONE)) {
            scaled = scaled.multiply(10);
            decimals++;
        }
        return decimals;
    }

    /** Returns the step times the floor of {@code grams} in steps, plus a half where halves go up. */
    private double floor(double grams, boolean halvesUp) {
        // In doubles where their last bits can't matter, which is nearly always; in exact fractions elsewhere.
        double steps = grams / grams() + (halvesUp ? 0.5 : 0);
        double nearest = Math.rint(steps);
        double off = Math.abs(steps - nearest);
        if (isShort() && Math.abs(steps) < SURE_BELOW && (off < HALF_WITHIN / 2 || off > HALF_WITHIN * 2)) {
            double whole = off < HALF_WITHIN ? nearest : Math.floor(steps);
            return whole * exactGrams.getNumeratorAsLong() / exactGrams.getDenominatorAsLong();
        }
        BigFraction exact = Numbers.exact(grams).divide(exactGrams).add(halvesUp ? HALF.add(WITHIN) : WITHIN);
        BigInteger[] quotient = exact.getNumerator().divideAndRemainder(exact.getDenominator());
        BigInteger floor = quotient[1].signum() < 0 ? quotient[0].subtract(BigInteger.ONE) : quotient[0];
        return Numbers.nearest(exactGrams.multiply(floor));
    }

    /** Whether products with a count of steps below {@link #SURE_BELOW} are exact in doubles. */
    private boolean isShort() {
        return exactGrams.getNumerator().bitLength() < SHORT_BITS
                && exactGrams.getDenominator().bitLength() < SHORT_BITS;
    }
}
