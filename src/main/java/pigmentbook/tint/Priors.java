package pigmentbook.tint;

/**
 * What is taken for likely before anything was read, as squared rows added to the loss: curves are smooth, scattering
 * changes slowly with the wavelength, a resin is nearly clear.
 *
 * <p>Widths found with simulated spectra; the fit is flat within about a fifth of them.
 */
final class Priors {

    private static final int B = Bands.COUNT;

    /** 16 unknowns a row: ln K of each band, then ln S of each band. */
    static final int UNKNOWNS = 2 * B;

    /** The face's k2 enters as ln(k2/(1 − k2)); expected 0.6, width 0.5. */
    static final double FACE = Math.log(1.5);

    static final double FACE_WIDTH = 0.5;

    private static final double DETOUR_WIDTH = 0.6;

    /** So many readings of mixes give half of the width; without one the detour is held. */
    private static final double MIXES = 6;

    private static final double HELD = 1e-3;

    /**
     * The detour of scattered light enters as ln(1 + detour); expected 0, as the theory has it. Only mixes tell of it:
     * a pigment alone takes it up in its own K and S, and what is left over there pulls the wrong way.
     *
     * @param mixes how many readings are of more than one pigment
     */
    static double detourWidth(double mixes) {
        return Math.max(HELD, DETOUR_WIDTH * mixes / (mixes + MIXES));
    }

    /** What is expected of a pigment and of a resin. */
    static final Priors PIGMENT = new Priors(-2.5, -2, 2);

    static final Priors RESIN = new Priors(Math.log(0.002), Math.log(0.0007), 0.5);

    /** Σ rowᵀ row. */
    final double[][] square = new double[UNKNOWNS][UNKNOWNS];

    /** Σ rowᵀ wanted. */
    private final double[] toward = new double[UNKNOWNS];

    private double constant;

    private Priors(double k, double s, double sWidth) {
        double g = 6.0 / B;
        double bend = 0.7 / Math.pow(g, 1.5);
        double slope = 1 / (0.35 * Math.sqrt(g));
        double each = 1 / (3 * Math.sqrt(B / 6.0));
        for (int b = 0; b < B; b++) {
            double[] row = new double[UNKNOWNS];
            row[b] = each;
            add(row, k * each);
            if (b + 2 < B) {
                row = new double[UNKNOWNS];
                row[b] = bend;
                row[b + 1] = -2 * bend;
                row[b + 2] = bend;
                add(row, 0);
            }
            if (b + 1 < B) {
                row = new double[UNKNOWNS];
                row[B + b] = -slope;
                row[B + b + 1] = slope;
                add(row, 0);
            }
        }
        double[] mean = new double[UNKNOWNS];
        java.util.Arrays.fill(mean, B, UNKNOWNS, 1 / (B * sWidth));
        add(mean, s / sWidth);
    }

    private void add(double[] row, double wanted) {
        for (int i = 0; i < UNKNOWNS; i++) {
            for (int j = 0; j < UNKNOWNS; j++) {
                square[i][j] += row[i] * row[j];
            }
            toward[i] += row[i] * wanted;
        }
        constant += wanted * wanted;
    }

    /** Returns half the sum of squares of the rows; adds its slope to {@code gradient} unless that is empty. */
    double loss(double[] theta, int from, double[] gradient, int to) {
        double sum = constant;
        for (int i = 0; i < UNKNOWNS; i++) {
            double product = 0;
            for (int j = 0; j < UNKNOWNS; j++) {
                product += square[i][j] * theta[from + j];
            }
            sum += theta[from + i] * (product - 2 * toward[i]);
            if (gradient.length > 0) {
                gradient[to + i] += product - toward[i];
            }
        }
        return sum / 2;
    }
}
