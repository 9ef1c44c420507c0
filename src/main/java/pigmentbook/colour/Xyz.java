package pigmentbook.colour;

/**
 * CIE XYZ, 2° observer, scaled so that white has Y = 1, from and to CIELAB. The one white point of the program stands
 * here.
 *
 * @param x X, 0 to 0.9504… for what reflects no more light than falls on it
 * @param y Y, 0 to 1
 * @param z Z, 0 to 1.0890…
 * @see <a href="https://cie.co.at/publications/colorimetry-3rd-edition">CIE 15:2004, 8.2.1</a>
 */
public record Xyz(double x, double y, double z) {

    /** X of the white point, for Y = 1, from the chromaticity x 0.3127, y 0.3290. */
    public static final double WHITE_X = 0.9504559270516717;

    /** Z of the white point, for Y = 1. */
    public static final double WHITE_Z = 1.089057750759878;

    /** The ratio (6/29)³ below which CIELAB is a straight line. */
    private static final double EPSILON = 216.0 / 24389;

    private static final double KAPPA = 24389.0 / 27;

    /** Returns the X, Y and Z of a colour. */
    public static Xyz of(Lab lab) {
        double fy = (lab.l() + 16) / 116;
        return new Xyz(
                WHITE_X * ratio(fy + lab.a() / 500),
                lab.l() > KAPPA * EPSILON ? fy * fy * fy : lab.l() / KAPPA,
                WHITE_Z * ratio(fy - lab.b() / 200));
    }

    /**
     * Returns the colour in CIELAB, a lightness that is off its scale by rounding put back on it.
     *
     * @throws IllegalArgumentException if there is no such colour
     */
    public Lab lab() {
        double fy = root(y);
        double l = 116 * fy - 16;
        return new Lab(
                l > 100 && l < 100 + 1e-6 ? 100 : l < 0 && l > -1e-6 ? 0 : l,
                500 * (root(x / WHITE_X) - fy),
                200 * (fy - root(z / WHITE_Z)));
    }

    /** Returns CIELAB's f of a value as a ratio to white's: its cube root, a straight line near 0. */
    public static double root(double ratio) {
        return ratio > EPSILON ? Math.cbrt(ratio) : (KAPPA * ratio + 16) / 116;
    }

    /**
     * Returns the slope of {@link #root}.
     *
     * @param root the root at the place asked for
     */
    public static double slopeAtRoot(double root) {
        return root > 6.0 / 29 ? 1 / (3 * root * root) : KAPPA / 116;
    }

    private static double ratio(double f) {
        double cube = f * f * f;
        return cube > EPSILON ? cube : (116 * f - 16) / KAPPA;
    }
}
