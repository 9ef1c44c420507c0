package pigmentbook.tint;

import java.util.Arrays;

/**
 * The unknowns that explain the readings best: Levenberg–Marquardt on Huber's loss of the ΔE00 with priors.
 *
 * <p>In three stages, since all at once from nowhere is often caught in a wrong valley: each clear resin alone, each
 * pigment alone from four starts, then all together. Given an earlier fit only the last stage is run.
 *
 * @see <a href="https://doi.org/10.1214/aoms/1177703732">Huber, Robust estimation of a location parameter, Annals of
 *     Mathematical Statistics 35 (1964), 73–101</a>
 */
final class Fit {

    private static final int U = Priors.UNKNOWNS;
    private static final int B = Bands.COUNT;

    /** Flat starts of K and S for a pigment alone, 1/(percent mm): a dye, a paste, a white, a strong powder. */
    private static final double[][] STARTS = {{0.5, 0.01}, {0.5, 0.3}, {0.03, 1.0}, {4, 0.1}};

    private static final int RESIN_STEPS = 20;
    private static final int PIGMENT_STEPS = 25;
    private static final int STEPS = 60;
    private static final int TRIES = 12;
    private static final double ENOUGH = 1e-5;
    private static final double LONGEST = 2;

    private final Samples samples;
    private final double[] theta;

    private Fit(Samples samples, double[] theta) {
        this.samples = samples;
        this.theta = theta;
    }

    /** Returns the fitted unknowns: 16 a row, then the face's. */
    static double[] of(Samples samples) {
        double[] theta = new double[samples.rows * U + Common.COUNT];
        Fit fit = new Fit(samples, theta);
        theta[theta.length - 1] = Priors.FACE;
        for (int row = 0; row < samples.rows; row++) {
            boolean resin = row < samples.resins;
            fit.flat(row, resin ? 0.002 : 0.5, resin ? 0.0007 : 0.1);
        }
        for (int row = 0; row < samples.resins; row++) {
            int[] clear = samples.of(row, -1);
            if (clear.length > 0) {
                fit.run(clear, new int[] {row}, false, RESIN_STEPS);
            }
        }
        for (int row = samples.resins; row < samples.rows; row++) {
            int[] singles = samples.of(0, row);
            if (singles.length > 0) {
                fit.alone(singles, row);
            }
        }
        return fit.together();
    }

    /** Returns the unknowns fitted on from earlier ones. */
    static double[] from(Samples samples, double[] start) {
        return new Fit(samples, start.clone()).together();
    }

    private double[] together() {
        int[] readings = new int[samples.size()];
        Arrays.setAll(readings, i -> i);
        int[] rows = new int[samples.rows];
        Arrays.setAll(rows, i -> i);
        run(readings, rows, true, STEPS);
        return theta;
    }

    /** Sets a row to the same absorption and scattering in every band. */
    private void flat(int row, double k, double s) {
        Arrays.fill(theta, row * U, row * U + B, Math.log(k));
        Arrays.fill(theta, row * U + B, (row + 1) * U, Math.log(s));
    }

    private void alone(int[] singles, int row) {
        double best = Double.POSITIVE_INFINITY;
        double[] bestRow = new double[U];
        for (double[] start : STARTS) {
            flat(row, start[0], start[1]);
            double loss = run(singles, new int[] {row}, false, PIGMENT_STEPS);
            if (loss < best) {
                best = loss;
                System.arraycopy(theta, row * U, bestRow, 0, U);
            }
        }
        System.arraycopy(bestRow, 0, theta, row * U, U);
    }

    /** Improves some rows, the others held, and returns the loss reached. */
    private double run(int[] readings, int[] active, boolean withCommon, int steps) {
        Normal normal = new Normal(samples, readings, active, withCommon);
        double lambda = 0.01;
        double loss = normal.with(theta);
        for (int step = 0; step < steps; step++) {
            double[] gradient = normal.gradient.clone();
            double[] before = theta.clone();
            double fallen = -1;
            for (int tries = 0; tries < TRIES && fallen < 0; tries++) {
                double[] move = normal.step(lambda, gradient);
                if (move.length > 0) {
                    move(before, active, withCommon, move);
                    double now = normal.loss(theta);
                    if (now < loss) {
                        fallen = loss - now;
                        lambda = Math.max(1e-9, lambda * change(fallen / normal.promised(lambda, gradient, move)));
                        continue;
                    }
                }
                lambda *= 4;
            }
            if (fallen < 0) {
                System.arraycopy(before, 0, theta, 0, theta.length);
                return loss;
            }
            loss -= fallen;
            if (fallen < ENOUGH * (1 + loss) || step == steps - 1) {
                return loss;
            }
            loss = normal.with(theta);
        }
        return loss;
    }

    /**
     * How the damping changes after a step that did a part of what the equations promised: down to a fifth where it did
     * all, up to twice where it did little, so that few steps fail (Nielsen 1999).
     */
    private static double change(double part) {
        double off = 2 * part - 1;
        return Math.max(0.2, 1 - off * off * off);
    }

    private void move(double[] before, int[] active, boolean withCommon, double[] by) {
        for (int i = 0; i < active.length; i++) {
            for (int u = 0; u < U; u++) {
                theta[active[i] * U + u] = before[active[i] * U + u] + clipped(by[i * U + u]);
            }
        }
        if (withCommon) {
            for (int g = 1; g <= Common.COUNT; g++) {
                theta[theta.length - g] = before[theta.length - g] + clipped(by[by.length - g]);
            }
        }
    }

    private static double clipped(double step) {
        return Math.max(-LONGEST, Math.min(LONGEST, step));
    }
}
