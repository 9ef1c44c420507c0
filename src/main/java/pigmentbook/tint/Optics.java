package pigmentbook.tint;

import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/**
 * From what a mix absorbs and scatters in each band to its colour, and how the colour turns with each figure.
 *
 * <p>Two flows take all light for diffuse. Through a clear layer it goes nearly straight, about half as far as through
 * one that scatters, so a dye seems to gain strength when a paste joins it. The detour is that: what absorbs counts 1 +
 * detour × S/(K + S) times.
 *
 * <p>Holds the last answer; one is made for each thread of work and used again and again.
 */
final class Optics {

    private static final int B = Bands.COUNT;
    private static final double[] WHITE = {Xyz.WHITE_X, 1, Xyz.WHITE_Z};

    /** L*, a*, b*. */
    final double[] lab = new double[3];

    /** Slopes of L*, a*, b* by the absorption of each band: three rows. */
    final double[] byK = new double[3 * B];

    /** Slopes of L*, a*, b* by the scattering of each band: three rows. */
    final double[] byS = new double[3 * B];

    /** Slopes of L*, a*, b* by what the face throws back in. */
    final double[] byK2 = new double[3];

    /** Slopes of L*, a*, b* by the detour of scattered light. */
    final double[] byDetour = new double[3];

    private final double[] layer = new double[3];
    private final double[] seenByK = new double[B];
    private final double[] seenByS = new double[B];
    private final double[] root = new double[3];
    private final double[] sum = new double[3];
    private final double[] sumByK2 = new double[3];
    private final double[] sumByDetour = new double[3];

    /**
     * Works the colour out into {@link #lab}.
     *
     * @param k absorption of the mix in each band, 1/mm
     * @param s scattering of the mix in each band, 1/mm
     * @param depthMm depth, mm
     * @param backing reflectance of the backing in each band
     * @param common what all mixes have in common
     */
    void look(double[] k, double[] s, double depthMm, double[] backing, Common common) {
        sum[0] = 0;
        sum[1] = 0;
        sum[2] = 0;
        for (int b = 0; b < B; b++) {
            double absorbs = k[b] * (1 + common.detour() * s[b] / (k[b] + s[b]));
            double seen = Gloss.seen(Layer.reflectance(absorbs, s[b], depthMm, backing[b]), Gloss.K1, common.k2());
            for (int c = 0; c < 3; c++) {
                sum[c] += Bands.WEIGHTS[c][b] * seen;
            }
        }
        toLab();
    }

    /** Works out {@link #lab} and all slopes. */
    void lookWithSlopes(double[] k, double[] s, double depthMm, double[] backing, Common common) {
        for (int c = 0; c < 3; c++) {
            sum[c] = 0;
            sumByK2[c] = 0;
            sumByDetour[c] = 0;
        }
        for (int b = 0; b < B; b++) {
            double scattered = s[b] / (k[b] + s[b]);
            double detour = common.detour();
            Layer.withSlopes(k[b] * (1 + detour * scattered), s[b], depthMm, backing[b], layer);
            double seen = Gloss.seen(layer[0], Gloss.K1, common.k2());
            double slope = Gloss.slope(layer[0], Gloss.K1, common.k2());
            double slopeByK2 = Gloss.slopeByK2(layer[0], Gloss.K1, common.k2());
            double slopeByDetour = slope * layer[1] * k[b] * scattered;
            seenByK[b] = slope * layer[1] * (1 + detour * scattered * scattered);
            seenByS[b] = slope * (layer[2] + layer[1] * detour * (1 - scattered) * (1 - scattered));
            for (int c = 0; c < 3; c++) {
                sum[c] += Bands.WEIGHTS[c][b] * seen;
                sumByK2[c] += Bands.WEIGHTS[c][b] * slopeByK2;
                sumByDetour[c] += Bands.WEIGHTS[c][b] * slopeByDetour;
            }
        }
        toLab();
        double x = Xyz.slopeAtRoot(root[0]) / WHITE[0];
        double y = Xyz.slopeAtRoot(root[1]) / WHITE[1];
        double z = Xyz.slopeAtRoot(root[2]) / WHITE[2];
        for (int b = 0; b < B; b++) {
            double wx = x * Bands.WEIGHTS[0][b];
            double wy = y * Bands.WEIGHTS[1][b];
            double wz = z * Bands.WEIGHTS[2][b];
            double l = 116 * wy;
            double a = 500 * (wx - wy);
            double bb = 200 * (wy - wz);
            byK[b] = l * seenByK[b];
            byK[B + b] = a * seenByK[b];
            byK[2 * B + b] = bb * seenByK[b];
            byS[b] = l * seenByS[b];
            byS[B + b] = a * seenByS[b];
            byS[2 * B + b] = bb * seenByS[b];
        }
        labSlopes(x, y, z, sumByK2, byK2);
        labSlopes(x, y, z, sumByDetour, byDetour);
    }

    private static void labSlopes(double x, double y, double z, double[] sum, double[] to) {
        to[0] = 116 * y * sum[1];
        to[1] = 500 * (x * sum[0] - y * sum[1]);
        to[2] = 200 * (y * sum[1] - z * sum[2]);
    }

    private void toLab() {
        for (int c = 0; c < 3; c++) {
            root[c] = Xyz.root(sum[c] / WHITE[c]);
        }
        lab[0] = 116 * root[1] - 16;
        lab[1] = 500 * (root[0] - root[1]);
        lab[2] = 200 * (root[1] - root[2]);
    }

    /** Returns the last colour. */
    Lab asLab() {
        return clipped(lab[0], lab[1], lab[2]);
    }

    /** Returns the colour, put back on its scales where a correction took it off them. */
    static Lab clipped(double l, double a, double b) {
        return new Lab(Math.max(0, Math.min(100, l)), clip(a), clip(b));
    }

    private static double clip(double value) {
        return Math.max(-200, Math.min(200, value));
    }
}
