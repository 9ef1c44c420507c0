package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Pigment;
import pigmentbook.book.Range;
import pigmentbook.colour.Lab;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Duration;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;

/** Every caution: an input that produces it, its text, and an input just short of it that does not. */
class CautionsTest {

    private static final MixRequest.Size RESIN = new MixRequest.ForResin(Mass.parse("1500 g"));
    private static final MixRequest.Size PANEL = new MixRequest.ForMold("panel", null);

    private static Studio withPanel() {
        return new Studio().mold("panel", Studio.box("100 mm", "100 mm", "20 mm"), null, List.of());
    }

    private static List<String> texts(Mix mix, String code) {
        return mix.cautions().stream()
                .filter(each -> each.code().equals(code))
                .map(each -> each.severity() + ": " + each.text() + " [" + each.basis() + "]")
                .toList();
    }

    @Test
    void layersThickerThanTheResinTakesOrThinner() {
        Studio studio = withPanel();
        studio.layer = new Range<>(Length.parse("5 mm"), Length.parse("10 mm"));
        assertThat(texts(
                        studio.mix(
                                Studio.options().depths("11 mm", "4 mm", "5 mm").of(PANEL)),
                        "layer-too-thick"))
                .containsExactly(
                        "STOP: Layer 1 is 11 mm deep; the resin takes at most 10 mm at once, or it overheats. [data sheet]");
        assertThat(texts(
                        studio.mix(
                                Studio.options().depths("11 mm", "4 mm", "5 mm").of(PANEL)),
                        "layer-too-thin"))
                .containsExactly(
                        "WARN: Layer 2 is 4 mm deep; below 5 mm the resin cures slowly or stays soft. [data sheet]");
        Mix right = studio.mix(PANEL);
        assertThat(texts(right, "layer-too-thick")).isEmpty();
        assertThat(texts(right, "layer-too-thin")).isEmpty();
    }

    @Test
    void aCupAboveTheResinsLargestBatchAfterRounding() {
        Studio studio = new Studio().scales("5 g", null, "0.01 g", null);
        studio.batchMost = Mass.parse("1498 g");
        studio.ratio = Studio.byWeight("1:1", null, null);
        assertThat(texts(studio.resin("1498 g"), "batch-too-big"))
                .containsExactly(
                        "WARN: A cup of layer 1 holds 1500 g of mixed resin; the resin's largest batch is 1498 g,"
                                + " or it overheats in the cup. [data sheet]");
        assertThat(texts(studio.resin("1490 g"), "batch-too-big")).isEmpty();
    }

    @Test
    void moreCupsThanTheWorkingTimeHolds() {
        Studio studio = new Studio();
        studio.batchMost = Mass.parse("300 g");
        assertThat(texts(studio.mix(RESIN), "working-time-short"))
                .containsExactly(
                        "WARN: 5 cups take 50 minutes with one person, but the working time is about 40 minutes at"
                                + " 21 °C; use smaller layers, a second person or a cooler room."
                                + " [data sheet; 10 minutes a cup is common practice]");
        studio.batchMost = Mass.parse("375 g");
        assertThat(texts(studio.mix(RESIN), "working-time-short")).isEmpty();
    }

    @Test
    void noWorkingTimeAndACoolRoom() {
        Studio studio = new Studio();
        assertThat(texts(studio.mix(Studio.options().room("18 C").of(RESIN)), "working-time-not-longer"))
                .containsExactly(
                        "NOTE: The room is cooler than the 21 °C that the working time is stated for; do not count"
                                + " on more time. [common practice]");
        studio.workingTime = null;
        assertThat(texts(studio.mix(RESIN), "no-working-time"))
                .containsExactly(
                        "NOTE: The resin states no working time; read it on the data sheet before part B goes in. [data sheet]");
    }

    @Test
    void noTimeStatedForTheNextLayer() {
        Studio studio = withPanel();
        studio.recoat = Range.open();
        assertThat(texts(studio.mix(Studio.options().layers(2).of(PANEL)), "no-recoat-time"))
                .containsExactly(
                        "WARN: The resin states no time after which the next layer may follow; wait until the last"
                                + " one is as tacky as masking tape. [common practice]");
        studio.recoat = new Range<>(Duration.parse("6 h"), null);
        assertThat(texts(studio.mix(Studio.options().layers(2).of(PANEL)), "no-recoat-time"))
                .isEmpty();
    }

    @Test
    void aScaleThatDoesNotCarryTheCupOrThePigment() {
        Studio studio = new Studio().scales("1 g", "1.5 kg", "0.01 g", "20 g");
        studio.pigment("amber", Pigment.Kind.PASTE, "2 %", null);
        assertThat(texts(studio.mix(RESIN), "scale-too-small"))
                .containsExactly(
                        "STOP: A cup of layer 1 comes to 1530 g; the resin scale carries 1.5 kg. Use smaller cups."
                                + " [common practice]");
        assertThat(texts(studio.mix(RESIN), "fine-scale-too-small"))
                .containsExactly(
                        "WARN: 30 g of amber in layer 1 is more than the fine scale's 20 g; weigh it in portions."
                                + " [common practice]");
        assertThat(texts(studio.resin("900 g"), "scale-too-small")).isEmpty();
        assertThat(texts(studio.resin("900 g"), "fine-scale-too-small")).isEmpty();
    }

    /** 41 steps for 2 %, 82 for 1 %: the relation of USP 41 at another tolerance, in {@code weighing.csv}. */
    @Test
    void anAmountBelow41StepsForAPigmentOr82ForAPartCannotBeWeighedWell() {
        Studio studio = new Studio();
        studio.pigment("soot", Pigment.Kind.POWDER, "0.1 %", null);
        assertThat(texts(studio.resin("300 g"), "too-little-to-weigh"))
                .containsExactly(
                        "WARN: 0.3 g of soot in a cup of layer 1 is less than the 0.41 g its scale weighs to 2 %:"
                                + " make a concentrate in part A, mix 1.37 times as much, or use a scale with steps of 0.00732 g."
                                + " [USP 41's relation at 2 %]");
        assertThat(texts(studio.resin("411 g"), "too-little-to-weigh")).isEmpty();
        assertThat(texts(new Studio().resin("150 g"), "too-little-to-weigh"))
                .containsExactly(
                        "WARN: 50 g of part B in a cup of layer 1 is less than the 82 g its scale weighs to 1 %;"
                                + " use a finer scale or a bigger batch. [USP 41's relation at 1 %]");
    }

    @Test
    void aConcentrateOnTheShelfIsOffered() {
        Studio studio = new Studio();
        studio.pigment("soot", Pigment.Kind.POWDER, "0.1 %", null);
        studio.onShelf(
                "soot-in-a",
                Pigment.Kind.CONCENTRATE,
                null,
                Studio.inPartA("90 %"),
                null,
                new Pigment.Contains("soot", Percent.parse("10 %")));
        assertThat(texts(studio.resin("300 g"), "too-little-to-weigh"))
                .containsExactly(
                        "WARN: 0.3 g of soot in a cup of layer 1 is less than the 0.41 g its scale weighs to 2 %:"
                                + " take 3 g of soot-in-a instead (and 2.7 g less part A), mix 1.37 times as much, or use a scale"
                                + " with steps of 0.00732 g. [USP 41's relation at 2 %]");
    }

    @Test
    void aPigmentAboveItsTopLoadingAndAllAboveTheResins() {
        Studio studio = new Studio();
        studio.topLoading = Percent.parse("6 %");
        studio.pigment("amber", Pigment.Kind.PASTE, "5 %", null, null, "4 %");
        studio.pigment("ink", Pigment.Kind.INK, "2 %", null);
        assertThat(texts(studio.mix(RESIN), "above-top-loading"))
                .containsExactly(
                        "WARN: 5 % of amber is above its top loading of 4 % of mixed resin; the piece may stay soft"
                                + " or weak. [data sheet]");
        assertThat(texts(studio.mix(RESIN), "above-resin-loading"))
                .containsExactly(
                        "WARN: The pigments make 7 % of mixed resin together, 2 % of it liquid that does not cure;"
                                + " the resin takes 6 %. [data sheet]");
        assertThat(texts(studio.mix(RESIN), "no-flame"))
                .containsExactly("WARN: No flame and no hot air near ink: the solvent in ink can catch fire. [AIHA and"
                        + " laboratory safety notes on heat guns]");
        studio.topLoading = Percent.parse("7 %");
        assertThat(texts(studio.mix(RESIN), "above-resin-loading")).isEmpty();
    }

    @Test
    void morePigmentThanResin() {
        Studio studio = new Studio();
        studio.pigment("chalk", Pigment.Kind.POWDER, "101 %", null);
        assertThat(texts(studio.mix(RESIN), "more-pigment-than-resin"))
                .containsExactly(
                        "WARN: There is more chalk than resin (101 % of mixed resin); check the percent. [common practice]");
    }

    @Test
    void aRatioOutsideItsWindowAfterRounding() {
        Studio studio = new Studio();
        studio.ratio = Studio.byWeight("100:43", "2.3", "2.33");
        assertThat(texts(studio.resin("30 g"), "ratio-outside-window"))
                .containsExactly("STOP: Rounded to the scale, part A to part B in layer 1 is 0.333 % over, outside the"
                        + " accepted 2.3 to 2.33; use a finer scale or a bigger batch. [data sheet]");
    }

    @Test
    void aRatioMoreThanTwoPercentOffWhereNoWindowIsStated() {
        Studio studio = new Studio();
        studio.ratio = Studio.byWeight("100:30", null, null);
        // A 11.54 → 12; B 3.6 → 4: 3 to 1 where 3.33 is meant.
        assertThat(texts(studio.resin("15 g"), "ratio-off"))
                .containsExactly(
                        "WARN: Rounded to the scale, part A to part B in layer 1 is 10 % under, more than 2 %; use a"
                                + " finer scale or a bigger batch. [common practice]");
        assertThat(texts(studio.resin("1300 g"), "ratio-off")).isEmpty();
    }

    @Test
    void twoStatedRatiosThatDisagree() {
        Studio studio = new Studio();
        studio.ratio = Studio.byVolume("2:1", "1.94", "2.06");
        studio.ratioAlso = Studio.byWeight("100:40", null, null);
        // By volume 100:40 by weight is 2.5 × 1.00 / 1.10 = 2.27 : 1.
        assertThat(texts(studio.mix(RESIN), "ratios-disagree"))
                .containsExactly(
                        "WARN: The data sheet's two ratios disagree: 100:40 by weight comes to 2.27 : 1 by volume,"
                                + " not 2:1; the mix uses 2:1 by volume. [data sheet]");
        studio.ratioAlso = Studio.byWeight("100:45", null, null);
        assertThat(texts(studio.mix(RESIN), "ratios-disagree")).isEmpty();
    }

    @Test
    void densitiesThatNobodyStated() {
        Studio studio = new Studio();
        studio.densityA = null;
        studio.densityB = null;
        studio.density = Density.parse("1.07 g/mL");
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null, Studio.inPartA("60 %"), null);
        assertThat(texts(studio.volume("1 L"), "pigment-without-density"))
                .containsExactly("NOTE: amber states no density; it counts as dense as the resin. [common practice]");
        assertThat(texts(studio.volume("1 L"), "carrier-without-density"))
                .containsExactly(
                        "NOTE: Part A states no density; the part A that amber carries counts as dense as the mix."
                                + " [common practice]");
        assertThat(texts(studio.mix(RESIN), "pigment-without-density")).isEmpty();
    }

    @Test
    void lotsThatAreExpiredSplitShortNearlyEmptyOrMissing() {
        Studio studio = new Studio()
                .lot("A-0", "A", "2 kg", "2026-11-24")
                .lot("A-1", "A", "600 g", "2027-01-01")
                .lot("A-2", "A", "410 g", "2027-03-01");
        Mix mix = studio.mix(RESIN);
        assertThat(texts(mix, "lot-split"))
                .containsExactly("WARN: 2 lots of part A: 600 g of A-1, 400 g of A-2; put them together and stir before"
                        + " weighing, so that every cup matches. [common practice]");
        assertThat(texts(mix, "lot-nearly-empty"))
                .containsExactly(
                        "NOTE: After this mix the lot A-1 has 0 g left. [common practice]",
                        "NOTE: After this mix the lot A-2 has 10 g left. [common practice]");
        assertThat(texts(mix, "no-lot"))
                .containsExactly(
                        "WARN: The shelf has no lot of part B that is still good; write down which one is used."
                                + " [common practice]");
        assertThat(texts(studio.resin("1530 g"), "stock-short"))
                .containsExactly("WARN: The mix takes 1020 g of part A and the shelf has 1010 g: 10 g short."
                        + " [common practice]");
        assertThat(texts(studio.mix(Studio.options().lots("A-0").of(RESIN)), "lot-expired"))
                .containsExactly(
                        "WARN: The lot A-0 was good through 2026-11-24; try a little of it first. [common practice]");
        assertThat(texts(studio.mix(Studio.options().lots("A-1").of(RESIN)), "stock-short"))
                .containsExactly(
                        "WARN: The mix takes 1000 g of part A and the lot has 600 g: 400 g short. [common practice]");
    }

    @Test
    void aPaleColourWithAnOldHardener() {
        Studio studio = new Studio().lot("B-1", "B", "2 kg", null, null, null, null, "2026-05-01");
        assertThat(texts(studio.mix(RESIN), "old-hardener"))
                .containsExactly(
                        "WARN: The hardener B-1 has been open for 208 days; hardener darkens with age and a pale"
                                + " colour shows it. [common practice]");
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        assertThat(texts(studio.mix(RESIN), "old-hardener")).isEmpty();
        studio.lookAt(new Lab(80, 5, 10), "6 mm");
        assertThat(texts(studio.mix(RESIN), "old-hardener")).hasSize(1);
    }

    @Test
    void aRoomTooColdTooHotOrTooDamp() {
        Studio studio = new Studio();
        studio.temperature = new Range<>(Temperature.parse("18 C"), Temperature.parse("28 C"));
        studio.humidityMost = Percent.parse("75 %");
        assertThat(texts(studio.mix(Studio.options().room("17.9 C").of(RESIN)), "room-too-cold"))
                .containsExactly("WARN: The room is 17.9 °C; below 18 °C the resin cures slowly and may turn cloudy."
                        + " [data sheet]");
        assertThat(texts(studio.mix(Studio.options().room("28.5 C").of(RESIN)), "room-too-hot"))
                .containsExactly("WARN: The room is 28.5 °C; above 28 °C the resin may overheat before it is poured."
                        + " [data sheet]");
        assertThat(texts(studio.mix(Studio.options().humidity("76 %").of(RESIN)), "room-too-damp"))
                .containsExactly(
                        "WARN: The air is at 76 %; above 75 % the surface may blush and the next layer may not bond."
                                + " [data sheet]");
        assertThat(texts(
                        studio.mix(
                                Studio.options().humidity("75 %").room("18 C").of(RESIN)),
                        "room-too-cold"))
                .isEmpty();
    }

    /** Loading × depth keeps the look of a see-through tint over the same backing: Beer-Lambert. */
    @Test
    void aSeeThroughColourAtAnotherDepthThanItWasReadAt() {
        Studio studio = withPanel().lookAt(new Lab(50, 20, 40), "5 mm");
        studio.pigment("amber", Pigment.Kind.DYE, "1 %", null);
        assertThat(texts(studio.mix(PANEL), "other-depth")).isEmpty();
        studio.tags.add("see-through");
        assertThat(texts(studio.mix(PANEL), "other-depth"))
                .containsExactly("WARN: This colour was read 5 mm deep over white and will be 20 mm deep: a see-through"
                        + " colour gets darker. [common practice]");
        assertThat(texts(studio.mix(PANEL), "loading-for-depth"))
                .containsExactly("NOTE: Loading × 0.25 (0.25 % in all) keeps the look over the same backing."
                        + " [loading × depth kept (Beer-Lambert)]");
        assertThat(texts(studio.mix(new MixRequest.ForMold("panel", Length.parse("5 mm"))), "other-depth"))
                .isEmpty();
    }

    @Test
    void aMoldMeasuredWithWaterMustBeDry() {
        Studio studio = new Studio();
        studio.mold("bowl", new Shape.Water(Mass.parse("500 g"), Temperature.parse("20 C")), null, List.of());
        assertThat(texts(studio.mix(new MixRequest.ForMold("bowl", null)), "dry-the-mold"))
                .containsExactly("WARN: This mold was measured with water; dry it fully, for damp spoils the cure."
                        + " [common practice]");
    }

    @Test
    void stationsMeasuredTooRarely() {
        Studio studio = new Studio();
        List<Length> ragged = List.of(Length.parse("20 mm"), Length.parse("60 mm"), Length.parse("20 mm"));
        studio.mold(
                "edge",
                new Shape.Stations(Length.parse("150 mm"), ragged, List.of(), Length.parse("20 mm")),
                null,
                List.of());
        // Trapezoids 150 × 80; Simpson 150 × 280/3: 16.7 % more.
        assertThat(texts(studio.mix(new MixRequest.ForMold("edge", null)), "stations-too-far-apart"))
                .containsExactly(
                        "WARN: Between the stations of this mold the trapezoids and Simpson's rule differ by 16.7 %;"
                                + " measure the widths at smaller steps. [common practice]");
    }

    @Test
    void theStandingCautionsEndEveryMix() {
        List<Caution> cautions = new Studio().mix(RESIN).cautions();
        assertThat(cautions)
                .extracting(Caution::code)
                .endsWith(
                        "standing-skin",
                        "standing-eyes",
                        "standing-air",
                        "standing-heat",
                        "standing-hardener-and-sawdust",
                        "standing-dust",
                        "standing-powder",
                        "standing-food",
                        "standing-sheets-first");
        assertThat(cautions).allSatisfy(each -> {
            assertThat(each.text()).endsWith(".");
            assertThat(each.basis()).isNotBlank();
        });
    }

    @Test
    void theGravestComeFirst() {
        Studio studio = withPanel();
        studio.layer = new Range<>(Length.parse("5 mm"), Length.parse("10 mm"));
        assertThat(studio.mix(Studio.options().depths("4 mm", "16 mm").of(PANEL))
                        .cautions())
                .extracting(Caution::severity)
                .startsWith(Caution.Severity.STOP, Caution.Severity.WARN);
    }
}
