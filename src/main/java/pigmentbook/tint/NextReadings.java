package pigmentbook.tint;

import pigmentbook.colour.Xyz;

/**
 * Which chip to pour and read next: the one that would tell most, ln det(I + V/s²) with V the look's variances from the
 * unknowns and s the scatter of a reading (Lindley 1956).
 *
 * @see <a href="https://doi.org/10.1214/aoms/1177728069">Lindley, On a measure of the information provided by an
 *     experiment, Annals of Mathematical Statistics 27 (1956), 986–1005</a>
 */
final class NextReadings {

    private static final double[] OF_TOP = {1.0 / 40, 1.0 / 10, 1.0 / 3, 1};
    private static final double[] DEPTHS_MM = {3, 10};
    private static final String[] BACKINGS = {"white", "black"};
    private static final double LEAST_SCATTER = 0.25;

    private final Tints tints;
    private final int resin;
    private final double variance;
    private final double[][] backings = new double[BACKINGS.length][];

    /**
     * What was found for a pigment.
     *
     * @param next the chip
     * @param spreadDe00 the mean spread over all the chips asked about, as it is now
     */
    record Best(NextReading next, double spreadDe00) {}

    NextReadings(Tints tints, Samples samples, Spread spread) {
        this.tints = tints;
        resin = samples.usualResin();
        double scatter = Math.max(LEAST_SCATTER, spread.scatter.inDe00());
        variance = scatter * scatter;
        for (int b = 0; b < BACKINGS.length; b++) {
            backings[b] = Bands.reflectance(Xyz.of(tints.labOf(new pigmentbook.book.Backing(BACKINGS[b], null))));
        }
    }

    Best of(int row, double topPercent) {
        NextReading best = new NextReading(topPercent, DEPTHS_MM[0], BACKINGS[0]);
        double most = -1;
        double sum = 0;
        for (double part : OF_TOP) {
            Tints.Mix mix = new Tints.Mix(new int[] {resin, row}, new double[] {1, part * topPercent});
            for (double depth : DEPTHS_MM) {
                for (int b = 0; b < BACKINGS.length; b++) {
                    double gain = gain(mix, depth, backings[b]);
                    sum += tints.look(mix, depth, backings[b]).spreadDe00();
                    if (gain > most) {
                        most = gain;
                        best = new NextReading(part * topPercent, depth, BACKINGS[b]);
                    }
                }
            }
        }
        return new Best(best, sum / (OF_TOP.length * DEPTHS_MM.length * BACKINGS.length));
    }

    /** The logarithm's argument; it grows as the logarithm does. */
    private double gain(Tints.Mix mix, double depth, double[] backing) {
        double[] v = new double[9];
        tints.addUnknowns(v, mix, depth, backing);
        for (int i = 0; i < 9; i++) {
            v[i] = v[i] / variance + (i % 4 == 0 ? 1 : 0);
        }
        return v[0] * (v[4] * v[8] - v[5] * v[7])
                - v[1] * (v[3] * v[8] - v[5] * v[6])
                + v[2] * (v[3] * v[7] - v[4] * v[6]);
    }
}
