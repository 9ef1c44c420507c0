package pigmentbook.tint;

import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;

/**
 * Loadings of given pigments that come nearest to a colour, by the theory alone: Levenberg–Marquardt on the logarithms
 * of the loadings, within bounds. Holds its working; one for each thread of work.
 */
final class Aim {

    private static final int U = Priors.UNKNOWNS;
    private static final int B = Bands.COUNT;
    private static final int STEPS = 40;
    private static final double LONGEST = 1.5;
    private static final double NEAR_ENOUGH = 1e-6;
    private static final double ENOUGH = 1e-4;
    private static final int TRIES = 8;

    /** A sum scaled to its bound stays within it whatever the rounding. */
    private static final double LAST_BITS = 1e-12;

    private final double[] exp;
    private final Common common;
    private final int resin;
    private final double depthMm;
    private final double[] backing;
    private final double sumMost;
    private final double[] target = new double[3];
    private double[] metric = {};

    private final Optics optics = new Optics();
    private final double[] k = new double[B];
    private final double[] s = new double[B];
    private final double[] error = new double[3];

    /**
     * Takes aim.
     *
     * @param exp K and S of every row, the common figures last
     * @param resin the resin's row
     * @param sumMost the most of all pigments together, percent of mixed resin
     */
    Aim(double[] exp, int resin, double depthMm, double[] backing, double sumMost) {
        this.exp = exp;
        common = Common.of(exp);
        this.resin = resin;
        this.depthMm = depthMm;
        this.backing = backing;
        this.sumMost = sumMost;
    }

    /** Sets the colour to come near to; it may lie off what colours can be, where a correction is taken off it. */
    void at(double l, double a, double b, Lab metricAt) {
        target[0] = l;
        target[1] = a;
        target[2] = b;
        metric = Ciede2000.metric(metricAt);
    }

    /**
     * Improves loadings in place and returns how far they miss, in ΔE00 of small differences.
     *
     * @param rows the pigments' rows
     * @param percents their loadings, each above 0
     * @param least the least of each, above 0
     * @param most the most of each
     * @param pull how much a change of one logarithm counts beside ΔE00; 0 for not at all
     */
    double improve(int[] rows, double[] percents, double[] least, double[] most, double pull) {
        int n = rows.length;
        double[] start = percents.clone();
        double[] trial = new double[n];
        double[][] square = new double[n][n];
        double[][] damped = new double[n][n];
        double[] gradient = new double[n];
        double[] step = new double[n];
        clip(percents, least, most);
        double loss = miss(rows, percents) + pulled(percents, start, pull);
        double lambda = 0.01;
        for (int i = 0; i < STEPS && loss > NEAR_ENOUGH; i++) {
            equations(rows, percents, square, gradient);
            for (int p = 0; p < n && pull > 0; p++) {
                square[p][p] += pull * pull;
                gradient[p] += pull * pull * Math.log(percents[p] / start[p]);
            }
            double fallen = -1;
            for (int tries = 0; tries < TRIES && fallen < 0; tries++) {
                for (int p = 0; p < n; p++) {
                    System.arraycopy(square[p], 0, damped[p], 0, p + 1);
                    damped[p][p] += lambda * square[p][p] + 1e-9;
                    step[p] = -gradient[p];
                }
                if (Dense.factor(damped)) {
                    Dense.solveFactored(damped, step);
                    for (int p = 0; p < n; p++) {
                        trial[p] = percents[p] * Math.exp(Math.max(-LONGEST, Math.min(LONGEST, step[p])));
                    }
                    clip(trial, least, most);
                    double now = miss(rows, trial) + pulled(trial, start, pull);
                    if (now < loss) {
                        fallen = loss - now;
                        System.arraycopy(trial, 0, percents, 0, n);
                        lambda = Math.max(1e-9, lambda / 4);
                        continue;
                    }
                }
                lambda *= 5;
            }
            if (fallen < 0) {
                break;
            }
            loss -= fallen;
            if (fallen < ENOUGH * loss) {
                break;
            }
        }
        return Math.sqrt(2 * Math.max(0, loss - pulled(percents, start, pull)));
    }

    private void clip(double[] percents, double[] least, double[] most) {
        double sum = 0;
        for (int p = 0; p < percents.length; p++) {
            percents[p] = Math.max(least[p], Math.min(most[p], percents[p]));
            sum += percents[p];
        }
        if (sum > sumMost) {
            double scale = sumMost / sum * (1 - LAST_BITS);
            for (int p = 0; p < percents.length; p++) {
                percents[p] = Math.max(least[p], percents[p] * scale);
            }
        }
    }

    private static double pulled(double[] percents, double[] start, double pull) {
        double sum = 0;
        for (int p = 0; p < percents.length && pull > 0; p++) {
            double off = pull * Math.log(percents[p] / start[p]);
            sum += off * off / 2;
        }
        return sum;
    }

    /** Returns half the square of the miss, with all slopes there. */
    private double miss(int[] rows, double[] percents) {
        slopes(rows, percents);
        double sum = 0;
        for (int r = 0; r < 3; r++) {
            error[r] = metric[3 * r] * (optics.lab[0] - target[0])
                    + metric[3 * r + 1] * (optics.lab[1] - target[1])
                    + metric[3 * r + 2] * (optics.lab[2] - target[2]);
            sum += error[r] * error[r];
        }
        return sum / 2;
    }

    private void slopes(int[] rows, double[] percents) {
        for (int b = 0; b < B; b++) {
            k[b] = exp[resin * U + b];
            s[b] = exp[resin * U + B + b];
        }
        for (int p = 0; p < rows.length; p++) {
            int from = rows[p] * U;
            for (int b = 0; b < B; b++) {
                k[b] += percents[p] * exp[from + b];
                s[b] += percents[p] * exp[from + B + b];
            }
        }
        optics.lookWithSlopes(k, s, depthMm, backing, common);
    }

    /** Sets the equations up at the place last asked for. */
    private void equations(int[] rows, double[] percents, double[][] square, double[] gradient) {
        miss(rows, percents);
        int n = rows.length;
        double[][] slopes = new double[n][3];
        for (int p = 0; p < n; p++) {
            int from = rows[p] * U;
            double l = 0;
            double a = 0;
            double bb = 0;
            for (int b = 0; b < B; b++) {
                double ownK = exp[from + b];
                double ownS = exp[from + B + b];
                l += optics.byK[b] * ownK + optics.byS[b] * ownS;
                a += optics.byK[B + b] * ownK + optics.byS[B + b] * ownS;
                bb += optics.byK[2 * B + b] * ownK + optics.byS[2 * B + b] * ownS;
            }
            for (int r = 0; r < 3; r++) {
                slopes[p][r] = percents[p] * (metric[3 * r] * l + metric[3 * r + 1] * a + metric[3 * r + 2] * bb);
            }
        }
        for (int p = 0; p < n; p++) {
            for (int q = 0; q <= p; q++) {
                square[p][q] = slopes[p][0] * slopes[q][0] + slopes[p][1] * slopes[q][1] + slopes[p][2] * slopes[q][2];
            }
            gradient[p] = slopes[p][0] * error[0] + slopes[p][1] * error[1] + slopes[p][2] * error[2];
        }
    }
}
