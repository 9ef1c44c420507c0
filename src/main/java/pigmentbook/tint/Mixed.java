package pigmentbook.tint;

import java.util.Arrays;

/** What a mix absorbs and scatters in each band, in 1/mm: the resin's own, and each pigment's by its loading. */
final class Mixed {

    private static final int B = Bands.COUNT;

    final double[] k = new double[B];
    final double[] s = new double[B];

    /**
     * Adds rows up.
     *
     * @param exp K and S of every row, 16 a row
     * @param rows the rows in the mix
     * @param loadings how much of each: 1 for a resin, percent for a pigment
     */
    void of(double[] exp, int[] rows, double[] loadings) {
        Arrays.fill(k, 0);
        Arrays.fill(s, 0);
        for (int p = 0; p < rows.length; p++) {
            int from = rows[p] * Priors.UNKNOWNS;
            double loading = loadings[p];
            for (int b = 0; b < B; b++) {
                k[b] += loading * exp[from + b];
                s[b] += loading * exp[from + B + b];
            }
        }
    }
}
