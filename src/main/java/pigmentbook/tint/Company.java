package pigmentbook.tint;

/**
 * What pigments do to each other. A pigment that clumps or comes apart in another's company absorbs and scatters less
 * or more than it does alone (common practice, no source), by a factor that nobody knows before such a mix was read.
 */
final class Company {

    private static final int U = Priors.UNKNOWNS;
    private static final int B = Bands.COUNT;

    private Company() {}

    /**
     * Adds what it does to a look, should the logarithms of each pigment's absorption and scattering vary by the share
     * of the others.
     *
     * @param to takes 3 × 3 variances and covariances of the parts of ΔE00
     * @param variance of those logarithms where nearly all is of other pigments
     * @param slopes three rows of slopes by the mix's K and S, in parts of ΔE00
     */
    static void addTo(double[] to, double variance, double[] exp, int[] rows, double[] loadings, double[][] slopes) {
        double[] shares = shares(exp, rows, loadings);
        double[] by = new double[3];
        for (int p = 1; p < rows.length; p++) {
            double factor = variance * (1 - shares[p]) * (1 - shares[p]);
            for (int from = 0; from < U; from += B) {
                for (int r = 0; r < 3; r++) {
                    by[r] = 0;
                    for (int u = from; u < from + B; u++) {
                        by[r] += loadings[p] * exp[rows[p] * U + u] * slopes[r][u];
                    }
                }
                for (int i = 0; i < 9; i++) {
                    to[i] += factor * by[i / 3] * by[i % 3];
                }
            }
        }
    }

    /** Returns each row's share of what dims the light; 0 for the resin. */
    static double[] shares(double[] exp, int[] rows, double[] loadings) {
        double[] shares = new double[rows.length];
        double sum = 1e-12;
        for (int p = 1; p < rows.length; p++) {
            shares[p] = Residuals.thickness(exp, rows[p], loadings[p], 1);
            sum += shares[p];
        }
        for (int p = 1; p < rows.length; p++) {
            shares[p] /= sum;
        }
        return shares;
    }
}
