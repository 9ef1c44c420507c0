package pigmentbook.colour;

/**
 * The colour difference CIEDE2000, ΔE00, with all weights 1.
 *
 * <p>Hues are compared in degrees: two that lie exactly opposite are on a branch cut, and in degrees the choice is the
 * published one.
 *
 * @see <a href="https://doi.org/10.1002/col.20070">Sharma, Wu, Dalal, The CIEDE2000 color-difference formula, Color
 *     Research and Application 30 (2005), 21–30</a>
 */
public final class Ciede2000 {

    private static final double POW_25_7 = 6103515625.0;

    private Ciede2000() {}

    /** Returns the difference between two colours: 0 for the same, about 1 can barely be seen. */
    public static double between(Lab first, Lab second) {
        double chroma = (StrictMath.hypot(first.a(), first.b()) + StrictMath.hypot(second.a(), second.b())) / 2;
        double g = 0.5 * (1 - StrictMath.sqrt(pow7(chroma) / (pow7(chroma) + POW_25_7)));
        double a1 = first.a() * (1 + g);
        double a2 = second.a() * (1 + g);
        double c1 = StrictMath.hypot(a1, first.b());
        double c2 = StrictMath.hypot(a2, second.b());
        double h1 = hue(a1, first.b());
        double h2 = hue(a2, second.b());

        double dh = 0;
        double meanHue = h1 + h2;
        if (c1 * c2 != 0) {
            double apart = h2 - h1;
            dh = Math.abs(apart) <= 180 ? apart : apart > 180 ? apart - 360 : apart + 360;
            meanHue =
                    Math.abs(apart) <= 180 ? (h1 + h2) / 2 : h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
        }
        double meanL = (first.l() + second.l()) / 2;
        double meanC = (c1 + c2) / 2;
        double lightness = (second.l() - first.l()) / lightnessWeight(meanL);
        double chromaStep = (c2 - c1) / (1 + 0.045 * meanC);
        double hueStep = 2
                * StrictMath.sqrt(c1 * c2)
                * StrictMath.sin(StrictMath.toRadians(dh / 2))
                / (1 + 0.015 * meanC * hueTerm(meanHue));
        double rotation = rotation(meanC, meanHue);
        return StrictMath.sqrt(
                lightness * lightness + chromaStep * chromaStep + hueStep * hueStep + rotation * chromaStep * hueStep);
    }

    /**
     * Returns the metric of small differences at a colour, a matrix M of three rows in one list: the length of M times
     * a small difference (ΔL, Δa, Δb) is its ΔE00.
     */
    public static double[] metric(Lab at) {
        double chroma = StrictMath.hypot(at.a(), at.b());
        double stretch = 1 + 0.5 * (1 - StrictMath.sqrt(pow7(chroma) / (pow7(chroma) + POW_25_7)));
        double a = stretch * at.a();
        double c = StrictMath.hypot(a, at.b());
        double hue = hue(a, at.b());
        double cos = c == 0 ? 1 : a / c;
        double sin = c == 0 ? 0 : at.b() / c;
        double chromaWeight = 1 + 0.045 * c;
        double hueWeight = 1 + 0.015 * c * hueTerm(hue);
        double twist = rotation(c, hue) / 2;
        double rest = StrictMath.sqrt(1 - twist * twist);
        return new double[] {
            1 / lightnessWeight(at.l()),
            0,
            0,
            0,
            stretch * cos / chromaWeight - twist * stretch * sin / hueWeight,
            sin / chromaWeight + twist * cos / hueWeight,
            0,
            -rest * stretch * sin / hueWeight,
            rest * cos / hueWeight
        };
    }

    /** Returns S_L, by which a difference of lightness is divided. */
    static double lightnessWeight(double l) {
        double l50 = (l - 50) * (l - 50);
        return 1 + 0.015 * l50 / StrictMath.sqrt(20 + l50);
    }

    /** Returns T, which S_H follows round the hues. */
    static double hueTerm(double hue) {
        return 1 - 0.17 * cos(hue - 30) + 0.24 * cos(2 * hue) + 0.32 * cos(3 * hue + 6) - 0.20 * cos(4 * hue - 63);
    }

    private static double rotation(double chroma, double hue) {
        double bump = (hue - 275) / 25;
        return -2
                * StrictMath.sqrt(pow7(chroma) / (pow7(chroma) + POW_25_7))
                * StrictMath.sin(StrictMath.toRadians(60 * StrictMath.exp(-bump * bump)));
    }

    private static double hue(double a, double b) {
        if (a == 0 && b == 0) {
            return 0;
        }
        double degrees = StrictMath.toDegrees(StrictMath.atan2(b, a));
        return degrees < 0 ? degrees + 360 : degrees;
    }

    private static double cos(double degrees) {
        return StrictMath.cos(StrictMath.toRadians(degrees));
    }

    private static double pow7(double value) {
        double square = value * value;
        return square * square * square * value;
    }
}
