package pigmentbook.tint;

import java.util.ArrayList;
import java.util.List;
import pigmentbook.book.Backing;
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
    private final Uncertain unknowns;
    private final int resin;
    private final double variance;
    private final double[][] backings = new double[BACKINGS.length][];

    /**
     * What was found for a pigment.
     *
     * @param next the chip
     * @param spreadDe00 the mean spread over all the chips asked about, as it is now
     * @param thenDe00 the same once that chip is read
     */
    record Best(NextReading next, double spreadDe00, double thenDe00) {}

    /** A chip that may be poured. */
    private record Chip(NextReading asked, Tints.Foreseen look) {}

    NextReadings(Tints tints, Spread spread) {
        this.tints = tints;
        unknowns = spread.unknowns;
        resin = tints.samples().usualResin();
        double scatter = Math.max(LEAST_SCATTER, spread.scatter.inDe00());
        variance = scatter * scatter;
        for (int b = 0; b < BACKINGS.length; b++) {
            backings[b] = Bands.reflectance(Xyz.of(tints.labOf(new Backing(BACKINGS[b], null))));
        }
    }

    Best of(int row, double topPercent) {
        List<Chip> chips = chips(row, topPercent);
        Chip best = chips.get(0);
        double[] read = withReading(best);
        for (Chip each : chips) {
            double[] other = withReading(each);
            if (determinant(other) > determinant(read)) {
                best = each;
                read = other;
            }
        }
        double now = 0;
        double then = 0;
        for (Chip each : chips) {
            now += Spread.bound(each.look.variances);
            then += Spread.bound(after(each, best, read));
        }
        return new Best(best.asked, now / chips.size(), then / chips.size());
    }

    private List<Chip> chips(int row, double topPercent) {
        List<Chip> chips = new ArrayList<>();
        for (double part : OF_TOP) {
            Tints.Mix mix = new Tints.Mix(new int[] {resin, row}, new double[] {1, part * topPercent});
            for (double depth : DEPTHS_MM) {
                for (int b = 0; b < BACKINGS.length; b++) {
                    chips.add(new Chip(
                            new NextReading(part * topPercent, depth, BACKINGS[b]),
                            tints.foresee(mix, depth, backings[b])));
                }
            }
        }
        return chips;
    }

    /** Returns V/s² + I of a chip. */
    private double[] withReading(Chip chip) {
        double[] v = unknowns.between(chip.look.leaning, chip.look.leaning);
        for (int i = 0; i < 9; i++) {
            v[i] = v[i] / variance + (i % 4 == 0 ? 1 : 0);
        }
        return v;
    }

    /**
     * Returns a chip's variances once another one is read: what the two vary together is told then.
     *
     * @param v V/s² + I of the other one
     */
    private double[] after(Chip chip, Chip read, double[] v) {
        double[] together = unknowns.between(chip.look.leaning, read.look.leaning);
        double[] after = chip.look.variances.clone();
        for (int r = 0; r < 3; r++) {
            double[] told = Dense.solve(
                    new double[][] {{v[0], v[1], v[2]}, {v[3], v[4], v[5]}, {v[6], v[7], v[8]}},
                    new double[] {together[3 * r], together[3 * r + 1], together[3 * r + 2]});
            for (int q = 0; q < 3; q++) {
                for (int c = 0; c < 3; c++) {
                    after[3 * r + q] -= told[c] * together[3 * q + c] / variance;
                }
            }
        }
        return after;
    }

    /** It grows as its logarithm does. */
    private static double determinant(double[] v) {
        return v[0] * (v[4] * v[8] - v[5] * v[7])
                - v[1] * (v[3] * v[8] - v[5] * v[6])
                + v[2] * (v[3] * v[7] - v[4] * v[6]);
    }
}
