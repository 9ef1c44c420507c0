package pigmentbook.quantity;

import org.hipparchus.fraction.BigFraction;

/**
 * The smallest step that a scale's display shows, exact and above zero: 0.01 g, 0.05 g, 1/8 oz.
 *
 * @param exactGrams the step in g
 * @param written the text it was read from
 */
public record WeighingStep(BigFraction exactGrams, String written) implements Amount {

    /** How near to a half, in steps, still counts as a half: 1.005 g at 0.01 g is 1.01 g. */
    public static final double HALF_WITHIN = 1e-9;

    public WeighingStep {
        if (exactGrams.signum() <= 0) {
            throw new BadAmountException(
                    "A scale's step of \"" + written + "\" is not above zero; write it like 0.01 g.");
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
        return exactGrams.doubleValue();
    }

    /**
     * Rounds to the nearest multiple of the step, halves up.
     *
     * @param grams a mass in g, finite
     * @return the multiple of the step, in g
     */
    public double round(double grams) {
        return times(StrictMath.floor(grams / grams() + 0.5 + HALF_WITHIN));
    }

    /** Returns the largest multiple of the step that is not above {@code grams}. */
    public double roundDown(double grams) {
        return times(StrictMath.floor(grams / grams() + HALF_WITHIN));
    }

    /** Returns the smallest multiple of the step that is not below {@code grams}. */
    public double roundUp(double grams) {
        return times(StrictMath.ceil(grams / grams() - HALF_WITHIN));
    }

    /** Returns how many decimals in g show a multiple of the step in full, at most 4. */
    public int decimals() {
        int decimals = 0;
        BigFraction scaled = exactGrams;
        while (decimals < 4 && !scaled.getDenominator().equals(java.math.BigInteger.ONE)) {
            scaled = scaled.multiply(10);
            decimals++;
        }
        return decimals;
    }

    private double times(double steps) {
        return exactGrams.multiply(Numbers.exact(steps)).doubleValue();
    }
}
