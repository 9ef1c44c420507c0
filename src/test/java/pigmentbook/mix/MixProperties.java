package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Volume;

/** Laws that hold for every mix. */
class MixProperties {

    private static Studio studio(double part, double percent, double carried) {
        Studio studio = new Studio();
        studio.ratio = Studio.byVolume("100:" + Numbers.plain(part), null, null);
        studio.pigment(
                "amber",
                Pigment.Kind.PASTE,
                Numbers.plain(percent) + " %",
                "1.25 g/mL",
                Studio.inPartA(Numbers.plain(carried) + " %"),
                null);
        studio.pigment("pearl", Pigment.Kind.MICA, "0.35 %", "2.9 g/mL");
        return studio;
    }

    private static double relative(double expected) {
        return Math.abs(expected) * 1e-12 + 1e-300;
    }

    @Property
    void thePartsAddUpToTheWholeInEveryCupLayerAndTotal(
            @ForAll @DoubleRange(min = 10, max = 100) double part,
            @ForAll @DoubleRange(max = 10) double percent,
            @ForAll @DoubleRange(max = 100) double carried,
            @ForAll @DoubleRange(min = 0.1, max = 100_000) double ml,
            @ForAll @IntRange(min = 1, max = 7) int layers) {
        Mix mix = studio(part, percent, carried)
                .mix(Studio.options()
                        .layers(layers)
                        .cup("1 kg", "4 g")
                        .of(new MixRequest.ForVolume(Volume.ofMilliliters(ml))));
        double all = 0;
        double target = 0;
        for (Mix.Layer layer : mix.layers()) {
            target += layer.targetMl();
            for (Mix.Cup cup : layer.cups()) {
                double items = cup.items().stream()
                        .mapToDouble(Mix.Weighing::exactGrams)
                        .sum();
                assertThat(cup.totalGrams()).isCloseTo(items, within(relative(items)));
                assertThat(cup.totalGrams()).isLessThanOrEqualTo(1000 * (1 + 1e-9));
                all += items;
            }
        }
        assertThat(mix.totals().totalGrams()).isCloseTo(all, within(all * 1e-10));
        assertThat(mix.targetMl()).isCloseTo(target, within(target * 1e-10));
        double byItem = mix.totals().partAGrams()
                + mix.totals().partBGrams()
                + mix.totals().pigmentGrams().values().stream()
                        .mapToDouble(Double::doubleValue)
                        .sum();
        assertThat(byItem).isCloseTo(all, within(all * 1e-10));
    }

    @Property
    void twiceTheVolumeIsTwiceTheGrams(
            @ForAll @DoubleRange(max = 10) double percent,
            @ForAll @DoubleRange(max = 100) double carried,
            @ForAll @DoubleRange(min = 0.1, max = 10_000) double ml) {
        Studio studio = studio(50, percent, carried);
        Mix once = studio.mix(new MixRequest.ForVolume(Volume.ofMilliliters(ml)));
        Mix twice = studio.mix(new MixRequest.ForVolume(Volume.ofMilliliters(2 * ml)));
        for (Item item : List.of(Item.PART_A, Item.PART_B, Item.of("amber"))) {
            double expected = 2 * Studio.of(once, item).exactGrams();
            assertThat(Studio.of(twice, item).exactGrams()).isCloseTo(expected, within(relative(expected)));
        }
    }

    @Property
    void whateverFigureLeadsTheSameMixComesOut(
            @ForAll @DoubleRange(min = 0.01, max = 10) double percent,
            @ForAll @DoubleRange(max = 100) double carried,
            @ForAll @DoubleRange(min = 1, max = 10_000) double grams) {
        Studio studio = studio(50, percent, carried);
        Mix byResin = studio.mix(new MixRequest.ForResin(Mass.ofGrams(grams)));
        for (MixRequest.Size size : List.of(
                new MixRequest.ForTotal(Mass.ofGrams(byResin.totals().totalGrams())),
                new MixRequest.ForItem(
                        Item.PART_A, Mass.ofGrams(byResin.totals().partAGrams())),
                new MixRequest.ForItem(
                        Item.PART_B, Mass.ofGrams(byResin.totals().partBGrams())),
                new MixRequest.ForItem(
                        Item.of("amber"),
                        Mass.ofGrams(byResin.totals().pigmentGrams().get(Item.of("amber")))))) {
            assertThat(studio.mix(size).totals().mixedResinGrams()).isCloseTo(grams, within(grams * 1e-12));
        }
    }

    @Property
    void aPercentOfPartAAndItsEquivalentOfMixedResinAreTheSameMix(
            @ForAll @DoubleRange(min = 10, max = 100) double part, @ForAll @DoubleRange(max = 10) double percent) {
        Studio ofA = studio(part, percent, 0);
        ofA.percentOf = Recipe.PercentOf.PART_A;
        Mix mix = ofA.resin("1 kg");
        Studio ofBoth = studio(part, 0, 0);
        ofBoth.loadings.clear();
        double wA = mix.shares().partA();
        ofBoth.loadings.add(new Recipe.PigmentLoading("amber", Percent.of(percent * wA)));
        ofBoth.loadings.add(new Recipe.PigmentLoading("pearl", Percent.of(0.35 * wA)));
        double expected = mix.totals().totalGrams();
        assertThat(ofBoth.resin("1 kg").totals().totalGrams()).isCloseTo(expected, within(expected * 1e-12));
    }

    @Property
    void theWeightsAreMultiplesOfTheStepInsideTheirRange(
            @ForAll @DoubleRange(min = 10, max = 100) double part,
            @ForAll @DoubleRange(max = 10) double percent,
            @ForAll @DoubleRange(min = 0.1, max = 100_000) double grams) {
        Mix mix = studio(part, percent, 60).mix(new MixRequest.ForResin(Mass.ofGrams(grams)));
        for (Mix.Weighing weighing : mix.layers().get(0).cups().get(0).items()) {
            double steps = weighing.weighGrams() / weighing.scale().step().grams();
            assertThat(steps).isCloseTo(Math.rint(steps), within(1e-6));
            assertThat(weighing.lowGrams()).isLessThanOrEqualTo(weighing.weighGrams());
            assertThat(weighing.highGrams()).isGreaterThanOrEqualTo(weighing.weighGrams());
        }
    }

    @Property
    void whatIsMixedFillsTheRoom(
            @ForAll @DoubleRange(max = 10) double percent, @ForAll @DoubleRange(min = 1, max = 10_000) double ml) {
        Studio studio = studio(50, percent, 60);
        Mix mix = studio.mix(new MixRequest.ForVolume(Volume.ofMilliliters(ml)));
        double amber = mix.totals().pigmentGrams().get(Item.of("amber"));
        double pearl = mix.totals().pigmentGrams().get(Item.of("pearl"));
        // Plain part A at 1.10, part B at 1.00, the paste at 1.25 with all it carries, the pearl at 2.9.
        double filled =
                mix.totals().partAGrams() / 1.10 + mix.totals().partBGrams() / 1.00 + amber / 1.25 + pearl / 2.9;
        assertThat(filled).isCloseTo(ml, within(ml * 1e-12));
    }
}
