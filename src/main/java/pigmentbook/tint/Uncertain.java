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

    /**
     * Adds what that does to a look.
     *
     * @param to takes 3 × 3 variances and covariances
     * @param rows the mix's rows
     * @param slopes three rows of slopes by the mix's K, S, and the common unknowns, in parts of ΔE00
     */
    void addTo(double[] to, int[] rows, double[] loadings, double[][] slopes) {
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
}
