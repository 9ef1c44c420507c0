package pigmentbook.tint;

import java.util.Arrays;

/**
 * The normal equations of some readings in some rows, the other rows held.
 *
 * <p>A reading touches only its own rows, and within a row the slopes by ln K and ln S of a band are those of the mix
 * times loading × K or S: so one small square of products is made for each reading and spread over its rows.
 */
final class Normal {

    private static final int U = Priors.UNKNOWNS;
    private static final int B = Bands.COUNT;

    /** A reading's ΔE00 counts in units of this. */
    static final double SCATTER = 0.5;

    /** Where Huber's loss turns from a square into a line, in units of the scatter. */
    private static final double BEND = 2;

    /** The slope of the loss by each active unknown at the place last asked for. */
    final double[] gradient;

    private final Samples samples;
    private final int[] readings;
    private final int[] active;
    private final int[] position;
    private final boolean withCommon;
    private final double[][] square;
    private final double[][] work;

    private final Optics optics = new Optics();
    private final Mixed mixed = new Mixed();
    private final double[][] slopes = new double[3][U + Common.COUNT];
    private final double[][] products = new double[U + Common.COUNT][U + Common.COUNT];
    private final double[] error = new double[3];
    private double[] exp = {};

    Normal(Samples samples, int[] readings, int[] active, boolean withCommon) {
        this.samples = samples;
        this.readings = readings;
        this.active = active;
        this.withCommon = withCommon;
        position = new int[samples.rows];
        Arrays.fill(position, -1);
        for (int i = 0; i < active.length; i++) {
            position[active[i]] = i;
        }
        int n = active.length * U + (withCommon ? Common.COUNT : 0);
        gradient = new double[n];
        square = new double[n][];
        work = new double[n][];
        for (int i = 0; i < n; i++) {
            square[i] = new double[i + 1];
            work[i] = new double[i + 1];
        }
    }

    /** Returns the step that the equations give, or an empty one where they can't be solved. */
    double[] step(double lambda, double[] slope) {
        for (int i = 0; i < work.length; i++) {
            System.arraycopy(square[i], 0, work[i], 0, i + 1);
            work[i][i] *= 1 + lambda;
        }
        if (!Dense.factor(work)) {
            return new double[0];
        }
        double[] step = new double[slope.length];
        for (int i = 0; i < step.length; i++) {
            step[i] = -slope[i];
        }
        Dense.solveFactored(work, step);
        return step;
    }

    /** Returns by how much the loss would fall if it were the square that the equations take it for. */
    double promised(double lambda, double[] slope, double[] step) {
        double promised = 0;
        for (int i = 0; i < step.length; i++) {
            promised += step[i] * (lambda * square[i][i] * step[i] - slope[i]) / 2;
        }
        return promised;
    }

    /** Returns K and S of every row, the common figures last. */
    static double[] exponentials(double[] theta) {
        double[] exp = new double[theta.length];
        for (int i = 0; i < exp.length - Common.COUNT; i++) {
            exp[i] = Math.exp(theta[i]);
        }
        exp[exp.length - 2] = Math.expm1(theta[exp.length - 2]);
        exp[exp.length - 1] = 1 / (1 + Math.exp(-theta[exp.length - 1]));
        return exp;
    }

    /** Returns the loss. */
    double loss(double[] theta) {
        exp = exponentials(theta);
        Common common = Common.of(exp);
        double loss = prior(theta, new double[0]);
        for (int i : readings) {
            mixed.of(exp, samples.row[i], samples.loading[i]);
            optics.look(mixed.k, mixed.s, samples.depthMm[i], samples.backing[i], common);
            loss += samples.weight[i] * huber(errorOf(i) / SCATTER);
        }
        return loss;
    }

    /** Returns the loss and sets up the equations. */
    double with(double[] theta) {
        exp = exponentials(theta);
        Arrays.fill(gradient, 0);
        for (double[] row : square) {
            Arrays.fill(row, 0);
        }
        double loss = prior(theta, gradient);
        addPriorSquares(square);
        for (int i : readings) {
            slopesOf(i);
            double d = errorOf(i);
            loss += samples.weight[i] * huber(d / SCATTER);
            double huber = d <= BEND * SCATTER ? 1 : BEND * SCATTER / d;
            add(i, samples.weight[i] * huber / (SCATTER * SCATTER), square);
            addGradient(i, samples.weight[i] * huber / (SCATTER * SCATTER));
        }
        return loss;
    }

    /**
     * Returns Σ JᵀJ of the readings, their ΔE00 not divided by anything.
     *
     * @param distances takes the ΔE00 of each reading
     */
    double[][] information(double[] theta, double[] distances) {
        exp = exponentials(theta);
        double[][] sum = new double[square.length][];
        for (int i = 0; i < sum.length; i++) {
            sum[i] = new double[i + 1];
        }
        for (int i : readings) {
            slopesOf(i);
            distances[i] = errorOf(i);
            add(i, samples.weight[i], sum);
        }
        return sum;
    }

    /** Adds the squares of the priors to a lower half. */
    void addPriorSquares(double[][] to) {
        for (int i = 0; i < active.length; i++) {
            double[][] own = priors(active[i]).square;
            for (int u = 0; u < U; u++) {
                for (int v = 0; v <= u; v++) {
                    to[i * U + u][i * U + v] += own[u][v];
                }
            }
        }
        if (withCommon) {
            int n = to.length;
            to[n - 1][n - 1] += 1 / (Priors.FACE_WIDTH * Priors.FACE_WIDTH);
            to[n - 2][n - 2] += 1 / (samples.detourWidth * samples.detourWidth);
        }
    }

    /** Returns the trace of (L Lᵀ)⁻¹ times the priors' squares: how many unknowns the priors alone hold. */
    double priorShare(double[][] factor) {
        double[][] inverse = Dense.inverseOfFactor(factor);
        double trace = 0;
        for (int i = 0; i < active.length; i++) {
            double[][] own = priors(active[i]).square;
            for (int k = i * U; k < inverse.length; k++) {
                double[] line = inverse[k];
                int most = Math.min(U, k - i * U + 1);
                for (int u = 0; u < most; u++) {
                    for (int v = 0; v < most; v++) {
                        trace += own[u][v] * line[i * U + u] * line[i * U + v];
                    }
                }
            }
        }
        if (withCommon) {
            int n = inverse.length;
            double face = inverse[n - 1][n - 1];
            trace += face * face / (Priors.FACE_WIDTH * Priors.FACE_WIDTH);
            for (int k = n - 2; k < n; k++) {
                trace += inverse[k][n - 2] * inverse[k][n - 2] / (samples.detourWidth * samples.detourWidth);
            }
        }
        return trace;
    }

    /** Returns the priors' part of the loss. */
    double prior(double[] theta) {
        return prior(theta, new double[0]);
    }

    private double prior(double[] theta, double[] slope) {
        double loss = 0;
        for (int i = 0; i < active.length; i++) {
            loss += priors(active[i]).loss(theta, active[i] * U, slope, i * U);
        }
        if (withCommon) {
            double off = (theta[theta.length - 1] - Priors.FACE) / Priors.FACE_WIDTH;
            double detour = theta[theta.length - 2] / samples.detourWidth;
            loss += (off * off + detour * detour) / 2;
            if (slope.length > 0) {
                slope[slope.length - 1] += off / Priors.FACE_WIDTH;
                slope[slope.length - 2] += detour / samples.detourWidth;
            }
        }
        return loss;
    }

    private Priors priors(int row) {
        return row < samples.resins ? Priors.RESIN : Priors.PIGMENT;
    }

    private static double huber(double x) {
        return x <= BEND ? x * x / 2 : BEND * (x - BEND / 2);
    }

    private double errorOf(int i) {
        double[] m = samples.metric[i];
        double l = optics.lab[0] - samples.lab[i][0];
        double a = optics.lab[1] - samples.lab[i][1];
        double b = optics.lab[2] - samples.lab[i][2];
        double sum = 0;
        for (int r = 0; r < 3; r++) {
            error[r] = m[3 * r] * l + m[3 * r + 1] * a + m[3 * r + 2] * b;
            sum += error[r] * error[r];
        }
        return Math.sqrt(sum);
    }

    /**
     * Returns the slopes of a reading, where the loss was last asked for, by its mix's K and S and by the common
     * unknowns: three rows of ΔE00's parts.
     */
    double[][] slopesOf(int i) {
        mixed.of(exp, samples.row[i], samples.loading[i]);
        optics.lookWithSlopes(mixed.k, mixed.s, samples.depthMm[i], samples.backing[i], Common.of(exp));
        weighted(samples.metric[i], optics, Common.of(exp), slopes);
        return slopes;
    }

    /** Turns the slopes of L*, a*, b* into those of ΔE00's three parts: by K, by S, by the common unknowns. */
    static void weighted(double[] m, Optics optics, Common common, double[][] slopes) {
        double k2 = common.k2();
        for (int r = 0; r < 3; r++) {
            double m0 = m[3 * r];
            double m1 = m[3 * r + 1];
            double m2 = m[3 * r + 2];
            for (int b = 0; b < B; b++) {
                slopes[r][b] = m0 * optics.byK[b] + m1 * optics.byK[B + b] + m2 * optics.byK[2 * B + b];
                slopes[r][B + b] = m0 * optics.byS[b] + m1 * optics.byS[B + b] + m2 * optics.byS[2 * B + b];
            }
            slopes[r][U] = (1 + common.detour())
                    * (m0 * optics.byDetour[0] + m1 * optics.byDetour[1] + m2 * optics.byDetour[2]);
            slopes[r][U + 1] = k2 * (1 - k2) * (m0 * optics.byK2[0] + m1 * optics.byK2[1] + m2 * optics.byK2[2]);
        }
    }

    private void addGradient(int i, double weight) {
        for (int p = 0; p < samples.row[i].length; p++) {
            int at = position[samples.row[i][p]];
            if (at >= 0) {
                int from = samples.row[i][p] * U;
                for (int u = 0; u < U; u++) {
                    double product = slopes[0][u] * error[0] + slopes[1][u] * error[1] + slopes[2][u] * error[2];
                    gradient[at * U + u] += weight * samples.loading[i][p] * exp[from + u] * product;
                }
            }
        }
        if (withCommon) {
            for (int g = 0; g < Common.COUNT; g++) {
                gradient[gradient.length - Common.COUNT + g] += weight
                        * (slopes[0][U + g] * error[0] + slopes[1][U + g] * error[1] + slopes[2][U + g] * error[2]);
            }
        }
    }

    private void add(int i, double weight, double[][] to) {
        double[] s0 = slopes[0];
        double[] s1 = slopes[1];
        double[] s2 = slopes[2];
        for (int u = 0; u < U + Common.COUNT; u++) {
            for (int v = 0; v <= u; v++) {
                double product = weight * (s0[u] * s0[v] + s1[u] * s1[v] + s2[u] * s2[v]);
                products[u][v] = product;
                products[v][u] = product;
            }
        }
        int[] row = samples.row[i];
        double[] loading = samples.loading[i];
        for (int p = 0; p < row.length; p++) {
            int at = position[row[p]];
            if (at < 0) {
                continue;
            }
            for (int q = 0; q < row.length; q++) {
                int other = position[row[q]];
                if (other >= 0 && other <= at) {
                    addBlock(to, at, row[p] * U, loading[p], other, row[q] * U, loading[q]);
                }
            }
            if (withCommon) {
                for (int g = 0; g < Common.COUNT; g++) {
                    double[] line = to[to.length - Common.COUNT + g];
                    for (int u = 0; u < U; u++) {
                        line[at * U + u] += loading[p] * exp[row[p] * U + u] * products[U + g][u];
                    }
                }
            }
        }
        if (withCommon) {
            for (int g = 0; g < Common.COUNT; g++) {
                for (int h = 0; h <= g; h++) {
                    to[to.length - Common.COUNT + g][to.length - Common.COUNT + h] += products[U + g][U + h];
                }
            }
        }
    }

    private void addBlock(
            double[][] to, int at, int from, double loading, int other, int otherFrom, double otherLoading) {
        double both = loading * otherLoading;
        for (int u = 0; u < U; u++) {
            double factor = both * exp[from + u];
            double[] line = to[at * U + u];
            double[] product = products[u];
            int most = at == other ? u + 1 : U;
            for (int v = 0; v < most; v++) {
                line[other * U + v] += factor * exp[otherFrom + v] * product[v];
            }
        }
    }
}
