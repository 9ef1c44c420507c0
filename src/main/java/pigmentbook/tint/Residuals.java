package pigmentbook.tint;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What the theory leaves of the readings, carried over to looks near them and dying away from them, as in kriging; and
 * how much of it is the theory's own failing, which neighbours share, and how much mere scatter, which they don't.
 *
 * <p>Two readings are near if each pigment dims the light about as much in both, through about the same depth and over
 * about the same backing. The share of the theory is averaged over a few values by how likely each makes the readings,
 * given the ones before them (Vecchia 1988).
 *
 * @see <a href="https://doi.org/10.1111/j.2517-6161.1988.tb01729.x">Vecchia, Estimation and model identification for
 *     continuous spatial processes, Journal of the Royal Statistical Society B 50 (1988), 297–312</a>
 */
final class Residuals {

    private static final int B = Bands.COUNT;

    /** The optical thickness below which amounts count in proportion, above which by their logarithm. */
    private static final double FAINT = 0.1;

    /** Depths count half as much as amounts; a backing's reflectance in units of the next. Own choice, no source. */
    private static final double DEPTH_SHARE = 0.5;

    private static final double BACKING_UNIT = 0.5;

    /** Neighbours of a likeness below this say nothing. */
    private static final double LEAST_LIKENESS = 0.05;

    private static final double FARTHEST = Math.sqrt(-2 * Math.log(LEAST_LIKENESS));

    /** Own choice, no source. */
    private static final int NEIGHBOURS = 16;

    private static final double[] SHARES = {0, 0.1, 0.25, 0.5, 0.75, 0.9, 0.97};

    private static final double JITTER = 1e-4;

    private final Samples samples;
    private final double[][] amounts;
    private final double[][] residual;
    private final double[] noise;
    private final int[][] ofRow;

    /** How much of the readings' variance about the theory is the theory's own, 0 to 1. */
    final double share;

    /** What is carried over to one look. */
    static final class Carried {
        /** To be added to L*, a*, b*. */
        final double[] lab = new double[3];

        /** How much of the theory's failing the neighbours tell, 0 to 1. */
        double told;
    }

    /**
     * Makes the residuals of a fit.
     *
     * @param scatter the readings' scatter about it, in parts of ΔE00, above 0
     */
    Residuals(Samples samples, double[] exp, double[] distances, double scatter) {
        this.samples = samples;
        int n = samples.size();
        amounts = new double[n][];
        residual = new double[n][3];
        noise = new double[n];
        List<List<Integer>> of = new ArrayList<>();
        for (int row = 0; row < samples.rows; row++) {
            of.add(new ArrayList<>());
        }
        samples.forEachLook(exp, (look, i) -> {
            for (int c = 0; c < 3; c++) {
                residual[i][c] = samples.lab[i][c] - look.lab[c];
            }
        });
        for (int i = 0; i < n; i++) {
            amounts[i] = amounts(exp, samples.row[i], samples.loading[i], samples.depthMm[i]);
            // A wild reading is no news of the theory.
            double wild = Math.max(1, distances[i] / (3.5 * Math.max(scatter, 0.15)));
            noise[i] = wild * wild / samples.weight[i];
            for (int row : samples.row[i]) {
                of.get(row).add(i);
            }
        }
        ofRow = new int[samples.rows][];
        for (int row = 0; row < samples.rows; row++) {
            ofRow[row] = of.get(row).stream().mapToInt(i -> i).toArray();
        }
        share = likelyShare();
    }

    /** How much each row of a mix dims the light, the resin's place taken by the depth. */
    private static double[] amounts(double[] exp, int[] rows, double[] loadings, double depthMm) {
        double[] amounts = new double[rows.length];
        amounts[0] = DEPTH_SHARE * Math.log(depthMm);
        for (int p = 1; p < rows.length; p++) {
            amounts[p] = Math.log1p(thickness(exp, rows[p], loadings[p], depthMm) / FAINT);
        }
        return amounts;
    }

    /** Returns the optical thickness of a pigment in a mix: loading × depth × mean of K + S. */
    static double thickness(double[] exp, int row, double loading, double depthMm) {
        double sum = 0;
        for (int u = 0; u < Priors.UNKNOWNS; u++) {
            sum += exp[row * Priors.UNKNOWNS + u];
        }
        return loading * depthMm * sum / B;
    }

    private double likelyShare() {
        int n = samples.size();
        double[] squares = new double[SHARES.length];
        double[] logs = new double[SHARES.length];
        for (int i = 0; i < n; i++) {
            int[] near = near(amounts[i], samples.row[i], samples.backing[i], i);
            for (int h = 0; h < SHARES.length; h++) {
                double own = 1 - SHARES[h];
                Carried carried = carried(near, amounts[i], samples.row[i], samples.backing[i], SHARES[h]);
                double variance = SHARES[h] * (1 - carried.told) + own * noise[i] + JITTER;
                double[] m = samples.metric[i];
                double sum = 0;
                for (int r = 0; r < 3; r++) {
                    double e = 0;
                    for (int c = 0; c < 3; c++) {
                        e += m[3 * r + c] * (residual[i][c] - carried.lab[c]);
                    }
                    sum += e * e;
                }
                squares[h] += sum / variance;
                logs[h] += 3 * Math.log(variance);
            }
        }
        double[] log = new double[SHARES.length];
        for (int h = 0; h < SHARES.length; h++) {
            log[h] = n == 0 ? 0 : -0.5 * (logs[h] + 3 * n * Math.log(squares[h] / (3 * n) + 1e-12));
        }
        double best = Arrays.stream(log).max().orElse(0);
        double sum = 0;
        double mean = 0;
        for (int h = 0; h < SHARES.length; h++) {
            double likely = Math.exp(log[h] - best);
            sum += likely;
            mean += likely * SHARES[h];
        }
        return mean / sum;
    }

    /** Returns what the readings near a look tell of it. */
    Carried at(double[] exp, int[] rows, double[] loadings, double depthMm, double[] backing) {
        double[] own = amounts(exp, rows, loadings, depthMm);
        return carried(near(own, rows, backing, samples.size()), own, rows, backing, share);
    }

    private Carried carried(int[] near, double[] own, int[] rows, double[] backing, double share) {
        Carried carried = new Carried();
        int n = near.length;
        if (n == 0 || share == 0) {
            return carried;
        }
        double[][] like = new double[n][];
        double[] right = new double[n];
        for (int i = 0; i < n; i++) {
            like[i] = new double[i + 1];
            for (int j = 0; j < i; j++) {
                like[i][j] = likeness(
                        amounts[near[i]],
                        samples.row[near[i]],
                        samples.backing[near[i]],
                        amounts[near[j]],
                        samples.row[near[j]],
                        samples.backing[near[j]]);
            }
            like[i][i] = 1 + (1 - share) / share * noise[near[i]] + JITTER;
            right[i] = likeness(own, rows, backing, amounts[near[i]], samples.row[near[i]], samples.backing[near[i]]);
        }
        if (!Dense.factor(like)) {
            return carried;
        }
        double[] weights = right.clone();
        Dense.solveFactored(like, weights);
        for (int i = 0; i < n; i++) {
            carried.told += weights[i] * right[i];
            for (int c = 0; c < 3; c++) {
                carried.lab[c] += weights[i] * residual[near[i]][c];
            }
        }
        return carried;
    }

    /** Returns the readings most like a look, of those before one. */
    private int[] near(double[] own, int[] rows, double[] backing, int before) {
        int main = 0;
        for (int p = 1; p < rows.length; p++) {
            main = main == 0 || own[p] > own[main] ? p : main;
        }
        int[] near = new int[NEIGHBOURS];
        double[] likeness = new double[NEIGHBOURS];
        int found = 0;
        for (int i : ofRow[rows[main]]) {
            if (i >= before) {
                break;
            }
            double like = likenessTo(i, own, rows, backing, main);
            if (like > LEAST_LIKENESS && (found < NEIGHBOURS || like > likeness[found - 1])) {
                int at = Math.min(found, NEIGHBOURS - 1);
                while (at > 0 && likeness[at - 1] < like) {
                    near[at] = near[at - 1];
                    likeness[at] = likeness[at - 1];
                    at--;
                }
                near[at] = i;
                likeness[at] = like;
                found = Math.min(found + 1, NEIGHBOURS);
            }
        }
        return Arrays.copyOf(near, found);
    }

    private double likenessTo(int i, double[] own, int[] rows, double[] backing, int main) {
        int[] other = samples.row[i];
        for (int p = main == 0 ? other.length : 1; p < other.length; p++) {
            if (other[p] == rows[main] && Math.abs(amounts[i][p] - own[main]) > FARTHEST) {
                return 0;
            }
        }
        return likeness(own, rows, backing, amounts[i], other, samples.backing[i]);
    }

    private static double likeness(
            double[] own, int[] rows, double[] backing, double[] other, int[] otherRows, double[] otherBacking) {
        double sum = (own[0] - other[0]) * (own[0] - other[0]);
        if (backing != otherBacking) {
            double apart = 0;
            for (int b = 0; b < B; b++) {
                apart += (backing[b] - otherBacking[b]) * (backing[b] - otherBacking[b]);
            }
            sum += apart / (B * BACKING_UNIT * BACKING_UNIT);
        }
        int p = 1;
        int q = 1;
        while (p < rows.length || q < otherRows.length) {
            double apart;
            if (q == otherRows.length || (p < rows.length && rows[p] < otherRows[q])) {
                apart = own[p++];
            } else if (p == rows.length || rows[p] > otherRows[q]) {
                apart = other[q++];
            } else {
                apart = own[p++] - other[q++];
            }
            sum += apart * apart;
        }
        return Math.exp(-sum / 2);
    }
}
