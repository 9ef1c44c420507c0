package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Backing;
import pigmentbook.colour.Ciede2000;

/**
 * The stated bound where the theory is not what makes the colours: chips of {@link Unruly}, and mixes of
 * {@link Simulated} whose pigments draw each other out. Nine of ten fresh readings should lie within it; 85 to 98 % is
 * asked. Where less is reached, {@link UnrulyRegressionTest} says so.
 */
class UnrulyTest {

    private static final int STUDIOS = 8;
    private static final int MIXES = 40;
    private static final double SCATTER = 0.3;

    record Found(double median, double within) {}

    /** Ladders of twelve chips a pigment and some mixes by chance; then mixes nobody read. */
    static Found found(int first, int mixes, BiFunction<Simulated, Integer, Simulated> make) {
        double in = 0;
        List<Double> misses = new ArrayList<>();
        for (int studio = first; studio < first + STUDIOS; studio++) {
            Simulated simulated = make.apply(new Simulated(studio, 12), studio);
            List<Simulated.Chip> chips = new ArrayList<>(simulated.ladders(new double[] {0.1, 0.4, 1.5}, 3, 10));
            for (int i = 0; i < mixes; i++) {
                chips.add(simulated.mix(3));
            }
            Tints tints = Tints.fit(simulated.book(simulated.readings(chips, SCATTER)), Optional.empty());
            for (int i = 0; i < MIXES; i++) {
                Simulated.Chip mix = simulated.mix(3);
                Look look = tints.look(
                        mix.loadings(), "clear", mix.depthMm(), new Backing(null, simulated.backingLab[mix.backing()]));
                misses.add(simulated.miss(mix, look.lab()));
                in += Ciede2000.between(simulated.read(mix, SCATTER).lab(), look.lab()) <= look.spreadDe00() ? 1 : 0;
            }
        }
        double[] sorted = misses.stream().mapToDouble(each -> each).sorted().toArray();
        return new Found(sorted[sorted.length / 2], in / (STUDIOS * MIXES));
    }

    private static Simulated rays(Simulated studio, int seed, double together, double alone) {
        Unruly unruly = new Unruly(studio, seed, together, alone);
        studio.truth = unruly::look;
        studio.weighing = 0.02;
        return studio;
    }

    static Simulated drawingOut(Simulated studio) {
        studio.strange = 1;
        studio.only = 1;
        return studio;
    }

    /**
     * White that hardly absorbs, deep, gives back nearly all that enters; black and deep gives back nothing (energy is
     * kept).
     */
    @Test
    void raysKeepTheirEnergy() {
        Simulated studio = new Simulated(1, 4);
        Arrays.fill(studio.resinK, 1e-9);
        Arrays.fill(studio.k[2], 1e-3);
        Arrays.fill(studio.s[2], 5);
        Unruly unruly = new Unruly(studio, 1, 0, 0);
        double white = unruly.look(new Simulated.Chip(new int[] {2}, new double[] {5}, 200, 1))
                .l();
        assertThat(white).isBetween(97.0, 100.0);
        Arrays.fill(studio.k[0], 50);
        double black = unruly.look(new Simulated.Chip(new int[] {0}, new double[] {5}, 200, 0))
                .l();
        assertThat(black).isLessThan(3);
    }

    /** Pigments alone look nearly the same whether the theory or rays made them; that they may be rays is room left. */
    @Test
    void theBoundHoldsForRaysThoughNoMixWasRead() {
        Found found = found(300, 0, (studio, seed) -> rays(studio, seed, 0, 0));
        assertThat(found.median).isGreaterThan(1); // the theory does fail
        assertThat(found.within).isBetween(0.85, 0.98);
    }

    @Test
    void theBoundHoldsForClumpingPaintOnceMixesWereRead() {
        Found found = found(320, 36, (studio, seed) -> rays(studio, seed, 0.15, 0.3));
        assertThat(found.within).isBetween(0.85, 0.98);
    }

    /** Mixes tell how far scattered light goes, which no pigment alone does: they come out nearer for it. */
    @Test
    void mixesThatWereReadBringOthersNearer() {
        double without = found(340, 0, (studio, seed) -> rays(studio, seed, 0, 0)).median;
        double with = found(340, 36, (studio, seed) -> rays(studio, seed, 0, 0)).median;
        assertThat(with).isLessThan(without / 2);
    }

    /** The theory holds for every pigment alone and fails in mixes only: some mixes read are enough to say so. */
    @Test
    void theBoundGrowsWhereMixesAloneFail() {
        Found found = found(360, 24, (studio, seed) -> drawingOut(studio));
        assertThat(found.within).isBetween(0.85, 0.98);
    }
}
