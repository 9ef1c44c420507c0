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

    /** The 0.9 point of the normal distribution. */
    private static final double NINE_OF_TEN = 1.2815515655;

    /** The least scatter of readings, in parts of ΔE00: that of a colour rounded to one decimal, 0.1/√12. */
    static final double LEAST_SCATTER = 0.03;

    /**
     * How far ln(1 + detour) may be from none where no mix was read: light in paint goes up to twice as far, and what
     * else all mixes of a book do alike looks like it. Own choice, no source.
     */
    private static final double DETOUR = 1;

    /**
     * The same where the theory explains the readings closely, in units of their scatter: it can't be far off then. Own
     * choice, no source.
     */
    private static final double DETOUR_OF_SCATTER = 2.2;

    /** The least that the priors' variances are multiplied by. Own choice, no source. */
    private static final double TAMEST = 0.4;

    /** Beforehand pigments are taken to keep their strength in company; counts as so many readings. Own choice. */
    private static final double AGREEING = 2;

    private static final double HELD = 1e9;
    private static final double LEAST_LEFT = 0.1;

    /** How the readings scatter about the fit. */
    final Scatter scatter;

    /** ΔE00 of each reading. */
    final double[] distances;

    /** How the unknowns could differ together. */
    final Uncertain unknowns;

    /** By how much pigments change each other's strength, as mixes tell: see {@link Company#addTo}. */
    final double inCompany;

    private Spread(Scatter scatter, double[] distances, Uncertain unknowns, double inCompany) {
        this.scatter = scatter;
        this.distances = distances;
        this.unknowns = unknowns;
        this.inCompany = inCompany;
    }

    static Spread of(Samples samples, double[] theta) {
        int[] readings = IntStream.range(0, samples.size()).toArray();
        int[] rows = IntStream.range(0, samples.rows).toArray();
        Normal normal = new Normal(samples, readings, rows, true);
        double[] distances = new double[samples.size()];
        double[][] information = normal.information(theta, distances);
        double[][] factor = sum(normal, information, 1 / (Normal.SCATTER * Normal.SCATTER));
        double used = Dense.factor(factor) ? factor.length - normal.priorShare(factor) : 0;
        double[] exp = Normal.exponentials(theta);
        Scatter scatter = Scatter.of(samples, exp, distances, used);
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
        Uncertain unknowns = new Uncertain(covariance(curvature, untold * untold), exp);
        return new Spread(scatter, distances, unknowns, inCompany(normal, samples, distances, s, unknowns));
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

    /** From each mix as it would lie off had it not been read itself, by its leverage, beside what it then should. */
    private static double inCompany(Normal normal, Samples samples, double[] distances, double s, Uncertain unknowns) {
        int[] mixes = IntStream.range(0, samples.size())
                .filter(i -> samples.row[i].length > 2)
                .toArray();
        double[] unread = new double[mixes.length];
        double[] expected = new double[mixes.length];
        double byCompany = 0;
        for (int m = 0; m < mixes.length; m++) {
            int i = mixes[m];
            double[][] slopes = normal.slopesOf(i);
            Uncertain.Leaning leaning = unknowns.leaning(samples.row[i], samples.loading[i], slopes);
            double[] variances = unknowns.between(leaning, leaning);
            double leverage = samples.weight[i] * trace(variances) / (3 * s * s);
            double left = Math.max(LEAST_LEFT, 1 - leverage);
            unread[m] = distances[i] / left;
            expected[m] = 3 * s * s / left;
            double[] company = new double[9];
            Company.addTo(company, 1, unknowns.exp, samples.row[i], samples.loading[i], slopes);
            byCompany += samples.weight[i] * trace(company);
        }
        if (mixes.length == 0) {
            return 0;
        }
        double[] sorted = unread.clone();
        Arrays.sort(sorted);
        double most = 3 * sorted[sorted.length / 2] + 1;
        double beyond = 0;
        for (int m = 0; m < mixes.length; m++) {
            double distance = Math.min(most, unread[m]);
            beyond += samples.weight[mixes[m]] * (distance * distance - expected[m]);
        }
        return Math.max(0, beyond / byCompany) * samples.mixes / (AGREEING + samples.mixes);
    }

    private static double trace(double[] variances) {
        return variances[0] + variances[4] + variances[8];
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
