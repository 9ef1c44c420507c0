package pigmentbook.tint;

import java.util.Arrays;

/**
 * How sure the fit is: how the readings scatter about it, and how the unknowns could differ.
 *
 * <p>Laplace's approximation: the inverse of the loss's curvature at the best unknowns. A bound for nine of ten comes
 * from the sum of squares of three correlated normal errors, as a scaled χ² (Satterthwaite 1946) and its cube root's
 * normal approximation (Wilson and Hilferty 1931).
 *
 * @see <a href="https://doi.org/10.2307/3002019">Satterthwaite, An approximate distribution of estimates of variance
 *     components, Biometrics Bulletin 2 (1946), 110–114</a>
 * @see <a href="https://doi.org/10.1073/pnas.17.12.684">Wilson, Hilferty, The distribution of chi-square, Proceedings
 *     of the National Academy of Sciences 17 (1931), 684–688</a>
 */
final class Spread {

    private static final int U = Priors.UNKNOWNS;

    /** The 0.9 point of the normal distribution. */
    private static final double NINE_OF_TEN = 1.2815515655;

    private static final double LEAST_SCATTER = 0.06;

    /** How the readings scatter about the fit. */
    final Scatter scatter;

    /** ΔE00 of each reading. */
    final double[] distances;

    /** How the unknowns could differ together. */
    final double[][] covariance;

    private Spread(Scatter scatter, double[] distances, double[][] covariance) {
        this.scatter = scatter;
        this.distances = distances;
        this.covariance = covariance;
    }

    static Spread of(Samples samples, double[] theta) {
        int[] readings = new int[samples.size()];
        Arrays.setAll(readings, i -> i);
        int[] rows = new int[samples.rows];
        Arrays.setAll(rows, i -> i);
        Normal normal = new Normal(samples, readings, rows, true);
        double[] distances = new double[samples.size()];
        double[][] information = normal.information(theta, distances);
        double[][] factor = sum(normal, information, 1 / (Normal.SCATTER * Normal.SCATTER));
        double used = Dense.factor(factor) ? factor.length - normal.priorShare(factor) : 0;
        Scatter scatter = Scatter.of(samples, Normal.exponentials(theta), distances, used);
        double s = Math.max(LEAST_SCATTER, scatter.inDe00());
        double[][] curvature = sum(normal, information, 1 / (s * s));
        if (!Dense.factor(curvature)) {
            throw new IllegalStateException("the priors make every curvature positive");
        }
        return new Spread(scatter, distances, Dense.inverse(curvature));
    }

    private static double[][] sum(Normal normal, double[][] information, double factor) {
        double[][] sum = new double[information.length][];
        for (int i = 0; i < sum.length; i++) {
            sum[i] = information[i].clone();
            for (int j = 0; j <= i; j++) {
                sum[i][j] *= factor;
            }
        }
        normal.addPriorSquares(sum);
        return sum;
    }

    /**
     * Adds what the unknowns' own uncertainty does to a look.
     *
     * @param rows the mix's rows
     * @param slopes three rows of slopes by the mix's K, S, and the face's unknown, in parts of ΔE00
     * @param exp K and S of every row
     * @param to takes 3 × 3 variances and covariances
     */
    void addTo(double[] to, int[] rows, double[] loadings, double[][] slopes, double[] exp) {
        int n = rows.length * U + 1;
        int[] at = new int[n];
        double[][] own = new double[3][n];
        for (int p = 0; p < rows.length; p++) {
            for (int u = 0; u < U; u++) {
                int unknown = rows[p] * U + u;
                at[p * U + u] = unknown;
                double factor = loadings[p] * exp[unknown];
                for (int r = 0; r < 3; r++) {
                    own[r][p * U + u] = factor * slopes[r][u];
                }
            }
        }
        at[n - 1] = covariance.length - 1;
        for (int r = 0; r < 3; r++) {
            own[r][n - 1] = slopes[r][U];
        }
        for (int i = 0; i < n; i++) {
            double[] line = covariance[at[i]];
            double s0 = 0;
            double s1 = 0;
            double s2 = 0;
            for (int j = 0; j < n; j++) {
                double c = line[at[j]];
                s0 += c * own[0][j];
                s1 += c * own[1][j];
                s2 += c * own[2][j];
            }
            for (int r = 0; r < 3; r++) {
                to[3 * r] += own[r][i] * s0;
                to[3 * r + 1] += own[r][i] * s1;
                to[3 * r + 2] += own[r][i] * s2;
            }
        }
    }

    /** Returns the ΔE00 that nine of ten stay within, given variances and covariances of its three parts. */
    static double bound(double[] v) {
        double sum = v[0] + v[4] + v[8];
        double squares = 0;
        for (double each : v) {
            squares += each * each;
        }
        double a = squares / sum;
        double f = sum * sum / squares;
        double h = 2 / (9 * f);
        double root = 1 - h + NINE_OF_TEN * Math.sqrt(h);
        return Math.sqrt(a * f * root * root * root);
    }
}
