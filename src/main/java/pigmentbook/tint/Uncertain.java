package pigmentbook.tint;

/** How the unknowns could differ together. */
final class Uncertain {

    private static final int U = Priors.UNKNOWNS;

    /** K and S of every row, the common figures last. */
    final double[] exp;

    /** Of the unknowns, 16 a row, the common ones last. */
    private final double[][] covariance;

    Uncertain(double[][] covariance, double[] exp) {
        this.covariance = covariance;
        this.exp = exp;
    }

    /** Which unknowns a look leans on, and how much. */
    static final class Leaning {
        private final int[] at;
        private final double[][] by;

        private Leaning(int[] at, double[][] by) {
            this.at = at;
            this.by = by;
        }
    }

    /**
     * Returns how a look leans on the unknowns.
     *
     * @param rows the mix's rows
     * @param slopes three rows of slopes by the mix's K, S, and the common unknowns, in parts of ΔE00
     */
    Leaning leaning(int[] rows, double[] loadings, double[][] slopes) {
        int n = rows.length * U + Common.COUNT;
        int[] at = new int[n];
        double[][] by = new double[3][n];
        for (int p = 0; p < rows.length; p++) {
            for (int u = 0; u < U; u++) {
                int unknown = rows[p] * U + u;
                at[p * U + u] = unknown;
                double factor = loadings[p] * exp[unknown];
                for (int r = 0; r < 3; r++) {
                    by[r][p * U + u] = factor * slopes[r][u];
                }
            }
        }
        for (int g = 0; g < Common.COUNT; g++) {
            at[n - Common.COUNT + g] = covariance.length - Common.COUNT + g;
            for (int r = 0; r < 3; r++) {
                by[r][n - Common.COUNT + g] = slopes[r][U + g];
            }
        }
        return new Leaning(at, by);
    }

    /** Returns how the parts of two looks vary together, 3 × 3; of a look with itself, its own variances. */
    double[] between(Leaning one, Leaning other) {
        double[] between = new double[9];
        for (int i = 0; i < one.at.length; i++) {
            double[] line = covariance[one.at[i]];
            double s0 = 0;
            double s1 = 0;
            double s2 = 0;
            for (int j = 0; j < other.at.length; j++) {
                double c = line[other.at[j]];
                s0 += c * other.by[0][j];
                s1 += c * other.by[1][j];
                s2 += c * other.by[2][j];
            }
            for (int r = 0; r < 3; r++) {
                between[3 * r] += one.by[r][i] * s0;
                between[3 * r + 1] += one.by[r][i] * s1;
                between[3 * r + 2] += one.by[r][i] * s2;
            }
        }
        return between;
    }
}
