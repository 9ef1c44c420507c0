package pigmentbook.tint;

import java.util.Arrays;
import java.util.stream.IntStream;

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
 * @see <a href="https://doi.org/10.1162/neco.1992.4.3.415">MacKay, Bayesian interpolation, Neural Computation 4 (1992),
 *     415–447</a>
 */
final class Spread {

    private static final int U = Priors.UNKNOWNS;

    /** The 0.9 point of the normal distribution. */
    private static final double NINE_OF_TEN = 1.2815515655;

    static final double LEAST_SCATTER = 0.06;

    /** How far ln(1 + detour) may be from none where no mix was read: light in paint goes up to twice as far. */
    private static final double DETOUR = 0.6;

    /** The same where the theory explains the readings closely, in units of their scatter: it can't be far off then. */
    private static final double DETOUR_OF_SCATTER = 1.5;

    /** The least that the priors' variances are multiplied by. */
    private static final double TAMEST = 0.4;

    private static final double HELD = 1e9;
    private static final double LEAST_LEFT = 0.1;

    /** Beforehand mixes are taken to be as the theory has them; that counts as so many readings. */
    private static final double AGREEING = 2;

    /** How the readings scatter about the fit. */
    final Scatter scatter;

    /** ΔE00 of each reading. */
    final double[] distances;

    /** How the unknowns could differ together. */
    final double[][] covariance;

    /** By how much mixes that were read lie farther off than they should: a variance of each part of ΔE00. */
    final double inMixes;

    private Spread(
            Scatter scatter,
            double[] distances,
            double[][] covariance,
            Normal normal,
            double[] theta,
            Samples samples) {
        this.scatter = scatter;
        this.distances = distances;
        this.covariance = covariance;
        inMixes = inMixes(normal, theta, samples);
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
        double untold = Math.min(DETOUR, DETOUR_OF_SCATTER * s) / (1 + samples.mixes);
        // Curves that turned out tamer than expected speak for narrower priors (MacKay 1992).
        double width = Math.max(TAMEST, Math.min(1, 2 * normal.prior(theta) / Math.max(1, used)));
        double[][] curvature = sum(normal, information, width / (s * s));
        for (double[] line : curvature) {
            for (int j = 0; j < line.length; j++) {
                line[j] /= width;
            }
        }
        double[][] covariance = covariance(curvature, untold * untold);
        return new Spread(scatter, distances, covariance, normal, theta, samples);
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
     * Inverts a curvature. Should the detour of scattered light be another, all other unknowns would follow it, for the
     * readings must still come out; the readings are taken to tell no more of it than what mixes there are.
     *
     * @param untold the detour's variance beside what the curvature has
     */
    private static double[][] covariance(double[][] curvature, double untold) {
        int n = curvature.length;
        int detour = n - Common.COUNT;
        double[] along = new double[n];
        for (int i = 0; i < n; i++) {
            along[i] = i < detour ? curvature[detour][i] : i > detour ? curvature[i][detour] : 0;
        }
        double told = curvature[detour][detour];
        // So stiff that it does not move: the others' covariance with the detour held.
        curvature[detour][detour] += HELD;
        if (!Dense.factor(curvature)) {
            throw new IllegalStateException("the priors make every curvature positive");
        }
        double[][] covariance = Dense.inverse(curvature);
        double[] follows = new double[n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                follows[i] -= covariance[i][j] * along[j];
            }
            told += i == detour ? 0 : follows[i] * along[i];
        }
        follows[detour] = 1;
        double variance = untold + 1 / told;
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                covariance[i][j] += variance * follows[i] * follows[j];
            }
        }
        return covariance;
    }

    /** Each mix as it would lie off had it not been read itself, from its leverage, beside what it then should. */
    private double inMixes(Normal normal, double[] theta, Samples samples) {
        int[] mixes = IntStream.range(0, samples.size())
                .filter(i -> samples.row[i].length > 2)
                .toArray();
        if (mixes.length == 0) {
            return 0;
        }
        double[] exp = Normal.exponentials(theta);
        double s = Math.max(LEAST_SCATTER, scatter.inDe00());
        double[] left = new double[mixes.length];
        double[] unread = new double[mixes.length];
        for (int m = 0; m < mixes.length; m++) {
            int i = mixes[m];
            double[] variances = new double[9];
            addTo(variances, samples.row[i], samples.loading[i], normal.slopesOf(theta, i), exp);
            double leverage = samples.weight[i] * (variances[0] + variances[4] + variances[8]) / (3 * s * s);
            left[m] = Math.max(LEAST_LEFT, 1 - leverage);
            unread[m] = distances[i] / left[m];
        }
        double[] sorted = unread.clone();
        Arrays.sort(sorted);
        double most = 3 * sorted[sorted.length / 2] + 1;
        double sum = 0;
        double count = AGREEING;
        for (int m = 0; m < mixes.length; m++) {
            double weight = samples.weight[mixes[m]];
            double distance = Math.min(most, unread[m]);
            sum += weight * (distance * distance / 3 - s * s / left[m]);
            count += weight;
        }
        return Math.max(0, sum / count);
    }

    /**
     * Adds what the unknowns' own uncertainty does to a look.
     *
     * @param rows the mix's rows
     * @param slopes three rows of slopes by the mix's K, S, and the common unknowns, in parts of ΔE00
     * @param exp K and S of every row
     * @param to takes 3 × 3 variances and covariances
     */
    void addTo(double[] to, int[] rows, double[] loadings, double[][] slopes, double[] exp) {
        int n = rows.length * U + Common.COUNT;
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
        for (int g = 0; g < Common.COUNT; g++) {
            at[n - Common.COUNT + g] = covariance.length - Common.COUNT + g;
            for (int r = 0; r < 3; r++) {
                own[r][n - Common.COUNT + g] = slopes[r][U + g];
            }
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
