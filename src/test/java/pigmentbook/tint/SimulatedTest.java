package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** The observer typed from memory is the CIE's: the white point of D65, and the weights of the bands. */
class SimulatedTest {

    /** D65 at 10 nm is 0.9502, 1.0881 or so, at 1 nm 0.9505, 1.0891 (CIE 15:2004, table T.3: 0.9504, 1.0888). */
    @Test
    void theWhitePointComesOutOfTheObserver() {
        assertThat(Arrays.stream(Observer.RAW[0]).sum()).isCloseTo(0.9504, within(0.001));
        assertThat(Arrays.stream(Observer.RAW[2]).sum()).isCloseTo(1.0888, within(0.001));
    }

    /**
     * Cells of 10 nm, one that an edge cuts shared, the tails in the end bands; within the rounding of a table cut at
     * 780 nm.
     */
    @Test
    void theBandsAreTheObserversOwn() {
        double[] edges = {400, 437.5, 475, 512.5, 550, 587.5, 625, 662.5, 700};
        double[] white = {0.9504559270516717, 1, 1.089057750759878};
        for (int c = 0; c < 3; c++) {
            double all = Arrays.stream(Observer.RAW[c]).sum();
            for (int b = 0; b < Bands.COUNT; b++) {
                double sum = 0;
                for (int i = 0; i < Observer.COUNT; i++) {
                    double from = b == 0 ? 0 : edges[b];
                    double to = b == Bands.COUNT - 1 ? 1000 : edges[b + 1];
                    double cell = Math.min(to, Observer.nm(i) + 5) - Math.max(from, Observer.nm(i) - 5);
                    sum += Math.max(0, cell) / 10 * Observer.RAW[c][i];
                }
                assertThat(Bands.WEIGHTS[c][b]).isCloseTo(sum * white[c] / all, within(1e-4));
            }
        }
    }
}
