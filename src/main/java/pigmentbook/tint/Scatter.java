package pigmentbook.tint;

import java.util.Arrays;

/**
 * How readings scatter about the fit. Some ways of reading scatter evenly in ΔE00, some evenly in L*, a*, b*, which is
 * much more ΔE00 among greys than among strong colours; the readings themselves tell how likely each is.
 *
 * @param inDe00 standard deviation of each part of ΔE00, all taken together
 * @param inLab standard deviation of each of L*, a*, b*, all taken together
 * @param even how likely the scatter is even in L*, a*, b*: 0 to 1
 */
record Scatter(double inDe00, double inLab, double even) {

    /** Keeps the logarithm of exact readings finite; in ΔE00. */
    private static final double LEAST = 1e-3;

    /**
     * Before anything is read the scatter is taken for the usual one; that counts as so many numbers read. Own choice.
     */
    private static final double BEFOREHAND = 1;

    /**
     * Measures the scatter. A wild reading counts as one at twice the median and 1; what the unknowns used up is taken
     * off the count.
     *
     * @param distances ΔE00 of each reading
     * @param used how many unknowns the readings settled
     */
    static Scatter of(Samples samples, double[] exp, double[] distances, double used) {
        int n = distances.length;
        if (n == 0) {
            return new Scatter(Normal.SCATTER, Normal.SCATTER, 0);
        }
        double[] sorted = distances.clone();
        Arrays.sort(sorted);
        double most = 2 * sorted[n / 2] + 1;
        double[] squares = new double[n];
        samples.forEachLook(exp, (look, i) -> {
            for (int c = 0; c < 3; c++) {
                double off = look.lab[c] - samples.lab[i][c];
                squares[i] += off * off;
            }
        });
        double inDe00 = 0;
        double inLab = 0;
        double logMetric = 0;
        double count = 0;
        for (int i = 0; i < n; i++) {
            double tamed = distances[i] > most ? most / distances[i] : 1;
            inDe00 += samples.weight[i] * tamed * tamed * distances[i] * distances[i];
            inLab += samples.weight[i] * tamed * tamed * squares[i];
            logMetric += samples.weight[i] * Math.log(determinant(samples.metric[i]));
            count += samples.weight[i];
        }
        double free = Math.max(3 * count - used, 0.75 * count) + BEFOREHAND;
        double before = BEFOREHAND * Normal.SCATTER * Normal.SCATTER;
        double evenByDe00 = logMetric - 1.5 * count * Math.log(inDe00 + LEAST * LEAST);
        double evenByLab = -1.5 * count * Math.log(inLab + LEAST * LEAST);
        return new Scatter(
                Math.sqrt((inDe00 + before) / free),
                Math.sqrt((inLab + before) / free),
                1 / (1 + Math.exp(evenByDe00 - evenByLab)));
    }

    /** Returns the variances and covariances of the parts of ΔE00 at a colour with this metric. */
    double[] at(double[] metric) {
        double[] at = new double[9];
        for (int r = 0; r < 3; r++) {
            for (int q = 0; q < 3; q++) {
                double product = 0;
                for (int c = 0; c < 3; c++) {
                    product += metric[3 * r + c] * metric[3 * q + c];
                }
                at[3 * r + q] = even * inLab * inLab * product + (r == q ? (1 - even) * inDe00 * inDe00 : 0);
            }
        }
        return at;
    }

    private static double determinant(double[] m) {
        return Math.abs(m[0] * (m[4] * m[8] - m[5] * m[7])
                - m[1] * (m[3] * m[8] - m[5] * m[6])
                + m[2] * (m[3] * m[7] - m[4] * m[6]));
    }
}
