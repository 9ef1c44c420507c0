package pigmentbook.tint;

/**
 * The glossy face over a layer: part of the light never enters, part of what comes back is thrown back in.
 *
 * @see <a href="https://doi.org/10.1364/JOSA.32.000727">Saunderson, Calculation of the color of pigmented plastics,
 *     Journal of the Optical Society of America 32 (1942), 727–736</a>
 */
final class Gloss {

    /** What is mirrored outside: Fresnel's (n − 1)²/(n + 1)² for epoxy's index of 1.55. */
    static final double K1 = (1.55 - 1) / (1.55 + 1) * ((1.55 - 1) / (1.55 + 1));

    private Gloss() {}

    /**
     * Returns the reflectance seen outside, gloss left out.
     *
     * @param r reflectance inside the face, 0 to 1
     * @param k1 what is mirrored outside, 0 to 1
     * @param k2 what is thrown back in from below the face, 0 to 1
     */
    static double seen(double r, double k1, double k2) {
        return (1 - k1) * (1 - k2) * r / (1 - k2 * r);
    }

    /** Returns the slope of {@link #seen} by r. */
    static double slope(double r, double k1, double k2) {
        double d = 1 - k2 * r;
        return (1 - k1) * (1 - k2) / (d * d);
    }

    /** Returns the slope of {@link #seen} by k2. */
    static double slopeByK2(double r, double k1, double k2) {
        double d = 1 - k2 * r;
        return (1 - k1) * r * (r - 1) / (d * d);
    }
}
