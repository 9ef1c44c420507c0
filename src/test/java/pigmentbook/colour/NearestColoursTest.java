package pigmentbook.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The index answers as looking at every colour does; the reference is the whole list, sorted. */
class NearestColoursTest {

    private static Lab any(Random random, double spread) {
        return new Lab(100 * random.nextDouble(), spread * random.nextGaussian(), spread * random.nextGaussian());
    }

    private static List<NearestColours.Found> all(List<Lab> colours, Lab target) {
        return IntStream.range(0, colours.size())
                .mapToObj(i -> new NearestColours.Found(i, Ciede2000.between(target, colours.get(i))))
                .sorted(Comparator.comparingDouble(NearestColours.Found::dE00)
                        .thenComparingInt(NearestColours.Found::index))
                .toList();
    }

    /** Spreads of chroma from greys to colours beyond any paint, where the rotation of blues is largest. */
    @ParameterizedTest
    @ValueSource(doubles = {2, 15, 30, 60})
    void theIndexFindsWhatLookingAtAllFinds(double spread) {
        Random random = new Random(7);
        List<Lab> colours = new ArrayList<>();
        for (int i = 0; i < 3000; i++) {
            colours.add(any(random, Math.min(spread, 49)));
        }
        NearestColours index = new NearestColours(colours);
        for (int i = 0; i < 40; i++) {
            Lab target = any(random, spread / 1.3);
            assertThat(index.nearest(target, 7)).isEqualTo(all(colours, target).subList(0, 7));
        }
    }

    @Test
    void equallyNearColoursComeInTheOrderOfTheList() {
        Lab far = new Lab(20, 0, 0);
        Lab near = new Lab(50, 10, 20);
        // Two that mirror each other about the target's lightness plane of 50 are equally far.
        Lab above = new Lab(60, 0, 0);
        Lab below = new Lab(40, 0, 0);
        NearestColours index = new NearestColours(List.of(far, near, above, near, below, near, above));
        assertThat(index.nearest(near, 3))
                .extracting(NearestColours.Found::index)
                .containsExactly(1, 3, 5);
        assertThat(index.nearest(new Lab(50, 0, 0), 3))
                .extracting(NearestColours.Found::index)
                .containsExactly(2, 4, 6);
    }

    @Test
    void fewerThanAskedForIsAllThereIs() {
        assertThat(new NearestColours(List.of()).nearest(new Lab(50, 0, 0), 5)).isEmpty();
        assertThat(new NearestColours(List.of(new Lab(50, 0, 0))).nearest(new Lab(50, 0, 0), 5))
                .containsExactly(new NearestColours.Found(0, 0));
    }

    /** The metric is the formula's own limit for small steps (Sharma, Wu, Dalal 2005 gives the formula). */
    @Test
    void theMetricIsTheDifferenceOfSmallSteps() {
        Random random = new Random(3);
        for (int i = 0; i < 500; i++) {
            Lab at = new Lab(1 + 98 * random.nextDouble(), 40 * random.nextGaussian(), 40 * random.nextGaussian());
            double[] step = {random.nextGaussian() * 1e-4, random.nextGaussian() * 1e-4, random.nextGaussian() * 1e-4};
            double[] m = Ciede2000.metric(at);
            double sum = 0;
            for (int row = 0; row < 3; row++) {
                double e = m[3 * row] * step[0] + m[3 * row + 1] * step[1] + m[3 * row + 2] * step[2];
                sum += e * e;
            }
            double exact = Ciede2000.between(at, new Lab(at.l() + step[0], at.a() + step[1], at.b() + step[2]));
            assertThat(Math.sqrt(sum)).isCloseTo(exact, within(2e-3 * exact));
        }
    }
}
