package pigmentbook.book;

import org.hipparchus.fraction.BigFraction;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Ratio;

/**
 * A resin's ratio of part A to part B, and by what it is meant.
 *
 * @param by by weight or by volume
 * @param ratio A to B
 * @param window the accepted range of A/B in the same basis, or null; it need not be symmetric
 */
public record MixRatio(By by, Ratio ratio, @Nullable Window window) {

    /** What a ratio compares. */
    public enum By {
        WEIGHT,
        VOLUME;

        /** Returns it in words. */
        public String words() {
            return this == WEIGHT ? "by weight" : "by volume";
        }
    }

    /** Returns the ratio with its basis: {@code 100:45 by weight}. */
    public String written() {
        return ratio.written() + " " + by.words();
    }

    /**
     * The accepted range of A/B.
     *
     * @param least the least accepted A/B
     * @param most the most accepted A/B
     */
    public record Window(BigFraction least, BigFraction most) {
        public Window {
            if (least.signum() <= 0 || least.compareTo(most) > 0) {
                throw new IllegalArgumentException(
                        "The ratio window's least must be above zero and not above its most.");
            }
        }
    }

    /**
     * The two parts' shares of the mixed resin by weight, together 1.
     *
     * @param a part A's share
     * @param b part B's share
     */
    public record Shares(double a, double b) {}

    /**
     * Returns the parts' shares by weight: a/(a+b) by weight, a·ρA/(a·ρA + b·ρB) by volume.
     *
     * @param gramsPerMlA density of part A in g/mL, or null
     * @param gramsPerMlB density of part B in g/mL, or null
     * @return the shares, or null where the ratio is by volume and a density is missing
     */
    public @Nullable Shares byWeight(@Nullable Double gramsPerMlA, @Nullable Double gramsPerMlB) {
        double a = ratio.a().doubleValue();
        double b = ratio.b().doubleValue();
        if (by == By.VOLUME) {
            if (gramsPerMlA == null || gramsPerMlB == null) {
                return null;
            }
            a *= gramsPerMlA;
            b *= gramsPerMlB;
        }
        return new Shares(a / (a + b), b / (a + b));
    }
}
