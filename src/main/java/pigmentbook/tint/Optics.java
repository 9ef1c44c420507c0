package pigmentbook.tint;

import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/**
 * From what a mix absorbs and scatters in each band to its colour, and how the colour turns with each figure.
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

    private final double[] layer = new double[3];
    private final double[] seenByK = new double[B];
    private final double[] seenByS = new double[B];
    private final double[] root = new double[3];
    private final double[] sum = new double[3];
    private final double[] sumByK2 = new double[3];

    /**
     * Works the colour out into {@link #lab}.
     *
     * @param k absorption of the mix in each band, 1/mm
     * @param s scattering of the mix in each band, 1/mm
     * @param depthMm depth, mm
     * @param backing reflectance of the backing in each band
     * @param k2 what the face throws back in, 0 to 1
     */
    void look(double[] k, double[] s, double depthMm, double[] backing, double k2) {
        sum[0] = 0;
        sum[1] = 0;
        sum[2] = 0;
        for (int b = 0; b < B; b++) {
            double seen = Gloss.seen(Layer.reflectance(k[b], s[b], depthMm, backing[b]), Gloss.K1, k2);
            for (int c = 0; c < 3; c++) {
                sum[c] += Bands.WEIGHTS[c][b] * seen;
            }
        }
        toLab();
    }

    /** Works out {@link #lab} and all slopes. */
    void lookWithSlopes(double[] k, double[] s, double depthMm, double[] backing, double k2) {
        for (int c = 0; c < 3; c++) {
            sum[c] = 0;
            sumByK2[c] = 0;
        }
        for (int b = 0; b < B; b++) {
            Layer.withSlopes(k[b], s[b], depthMm, backing[b], layer);
            double seen = Gloss.seen(layer[0], Gloss.K1, k2);
            double slope = Gloss.slope(layer[0], Gloss.K1, k2);
            double slopeByK2 = Gloss.slopeByK2(layer[0], Gloss.K1, k2);
            seenByK[b] = slope * layer[1];
            seenByS[b] = slope * layer[2];
            for (int c = 0; c < 3; c++) {
                sum[c] += Bands.WEIGHTS[c][b] * seen;
                sumByK2[c] += Bands.WEIGHTS[c][b] * slopeByK2;
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
        byK2[0] = 116 * y * sumByK2[1];
        byK2[1] = 500 * (x * sumByK2[0] - y * sumByK2[1]);
        byK2[2] = 200 * (y * sumByK2[1] - z * sumByK2[2]);
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
