package pigmentbook.tint;

import pigmentbook.colour.Xyz;

/**
 * The eight latent bands: equal parts of 400 to 700 nm, with what each adds to X, Y and Z.
 *
 * <p>The weights are the CIE 1931 2° observer times D65 at 10 nm, the tails in the end bands, each row scaled to the
 * white point.
 *
 * @see <a href="https://cie.co.at/publications/colorimetry-3rd-edition">CIE 15:2004, tables T.1 and T.4</a>
 */
final class Bands {

    /** How many bands there are. */
    static final int COUNT = 8;

    /** What each band adds to X, Y and Z: three rows. */
    static final double[][] WEIGHTS = {
        scaled(Xyz.WHITE_X, 0.048997, 0.116845, 0.015006, 0.073431, 0.251741, 0.311086, 0.117003, 0.016346),
        scaled(1, 0.002016, 0.022499, 0.108572, 0.314307, 0.324662, 0.175655, 0.046322, 0.005966),
        scaled(Xyz.WHITE_Z, 0.238890, 0.652807, 0.177477, 0.018538, 0.001167, 0.000180, 0, 0)
    };

    /** How much a first difference counts beside a second one in what "smoothest" means. */
    private static final double FIRST_DIFFERENCES = 0.01;

    private static final double LEAST = 0.002;
    private static final double MOST = 0.995;

    /** The smoothest reflectance for X, Y and Z of 1 each. */
    private static final double[][] SMOOTHEST = smoothest();

    private Bands() {}

    private static double[] scaled(double white, double... row) {
        double sum = 0;
        for (double each : row) {
            sum += each;
        }
        double[] scaled = new double[row.length];
        for (int b = 0; b < row.length; b++) {
            scaled[b] = row[b] * white / sum;
        }
        return scaled;
    }

    /**
     * Returns the smoothest reflectance of the bands that has just this colour, cut to 0.002 to 0.995.
     *
     * <p>Least Σ(second differences)² + 0.01 Σ(first differences)² with the X, Y and Z given.
     */
    static double[] reflectance(Xyz xyz) {
        double[] reflectance = new double[COUNT];
        for (int b = 0; b < COUNT; b++) {
            double r = SMOOTHEST[0][b] * xyz.x() + SMOOTHEST[1][b] * xyz.y() + SMOOTHEST[2][b] * xyz.z();
            reflectance[b] = Math.max(LEAST, Math.min(MOST, r));
        }
        return reflectance;
    }

    /** Solves the conditions of the constrained least squares, once for each of X, Y and Z. */
    private static double[][] smoothest() {
        int n = COUNT + 3;
        double[][] matrix = new double[n][n];
        for (int i = 0; i + 1 < COUNT; i++) {
            addSquare(matrix, FIRST_DIFFERENCES, i, -1, 1);
            if (i + 2 < COUNT) {
                addSquare(matrix, 1, i, 1, -2, 1);
            }
        }
        for (int c = 0; c < 3; c++) {
            for (int b = 0; b < COUNT; b++) {
                matrix[b][COUNT + c] = WEIGHTS[c][b];
                matrix[COUNT + c][b] = WEIGHTS[c][b];
            }
        }
        double[][] solved = new double[3][];
        for (int c = 0; c < 3; c++) {
            double[] right = new double[n];
            right[COUNT + c] = 1;
            solved[c] = Dense.solve(matrix, right);
        }
        return solved;
    }

    private static void addSquare(double[][] matrix, double weight, int from, double... row) {
        for (int i = 0; i < row.length; i++) {
            for (int j = 0; j < row.length; j++) {
                matrix[from + i][from + j] += weight * row[i] * row[j];
            }
        }
    }
}
