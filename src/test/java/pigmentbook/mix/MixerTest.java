package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.book.Range;
import pigmentbook.book.Recipe;
import pigmentbook.mold.Insert;
import pigmentbook.quantity.Coverage;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Volume;

/** What a mix is. Expected values are worked out by hand beside each claim unless a source is named. */
class MixerTest {

    private static final double EXACT = 1e-9;
    private static final Item AMBER = Item.of("amber");

    private static Studio coating() {
        Studio studio = new Studio();
        studio.layer = new Range<>(null, Length.parse("1/4 in"));
        studio.mold("panel", Studio.box("16 in", "10 in", "3/4 in"), "1/2 in", List.of());
        return studio;
    }

    /** Common practice, no source: a coating resin is poured no deeper than 1/4 in at once. */
    @Test
    void halfAnInchByAQuarterAtOnceIsTwoLayersTheSecondAfterTheFirstHasSet() {
        Mix mix = coating().inMold("panel");
        assertThat(mix.layers()).hasSize(2);
        assertThat(mix.layers().get(0).toMm()).isCloseTo(6.35, within(EXACT));
        assertThat(mix.layers().get(0).startHours()).isZero();
        assertThat(mix.layers().get(1).startHours()).isEqualTo(6);
    }

    /** Common practice, no source. */
    @Test
    void threeEighthsByAQuarterAtOnceIsTwoEqualLayers() {
        Mix mix = coating().mix(new MixRequest.ForMold("panel", Length.parse("3/8 in")));
        assertThat(mix.layers()).hasSize(2);
        assertThat(mix.layers().get(0).toMm()).isCloseTo(3.0 / 16 * 25.4, within(EXACT));
    }

    /** Common practice, no source: a 40-minute working time, surface passes every 5 to 10 minutes inside it. */
    @Test
    void surfacePassesComeEveryFiveMinutesInsideTheFortyMinutesOfWorkingTime() {
        Mix mix = coating().inMold("panel");
        assertThat(mix.workingTimeMin()).isEqualTo(40);
        assertThat(mix.timeline().surfacePassesMin()).isNotEmpty().allMatch(minute -> minute < 40);
        for (int i = 1; i < mix.timeline().surfacePassesMin().size(); i++) {
            double apart = mix.timeline().surfacePassesMin().get(i)
                    - mix.timeline().surfacePassesMin().get(i - 1);
            assertThat(apart).isBetween(5.0, 10.0);
        }
    }

    /** Common practice, no source: pot life halves for each 10 °C warmer; a cool room is never counted as more time. */
    @Test
    void workingTimeHalvesTenDegreesWarmerAndNeverGrows() {
        Studio studio = coating();
        MixRequest.Size size = new MixRequest.ForResin(Mass.parse("100 g"));
        assertThat(studio.mix(Studio.options().room("31 C").of(size)).workingTimeMin())
                .isCloseTo(20, within(EXACT));
        assertThat(studio.mix(Studio.options().room("5 C").of(size)).workingTimeMin())
                .isEqualTo(40);
    }

    @Test
    void aPercentOfPartAIsLessPigmentThanOfTheMixedResin() {
        Studio studio = new Studio();
        studio.percentOf = Recipe.PercentOf.PART_A;
        studio.pigment("amber", Pigment.Kind.PASTE, "2 %", null);
        // 100:50: 2 % of part A is 1.333 % of A + B.
        assertThat(studio.resin("150 g").totals().pigmentGrams().get(AMBER)).isCloseTo(2, within(EXACT));
    }

    /** Concentrate arithmetic of the trade, worked by hand: 500 g of 100:50 at 1 % with a fifth pigment in part A. */
    @Test
    void aConcentrateInPartAIsDeductedFromThePlainPartA() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.CONCENTRATE, "5 %", null, Studio.inPartA("80 %"), null);
        Mix mix = studio.resin("500 g");
        assertThat(mix.totals().pigmentGrams().get(AMBER)).isCloseTo(25, within(EXACT));
        assertThat(mix.totals().partAGrams()).isCloseTo(313.333333333, within(1e-6));
        assertThat(mix.totals().partBGrams()).isCloseTo(166.666666667, within(1e-6));
        assertThat(mix.totals().totalGrams()).isCloseTo(505, within(EXACT));
    }

    @Test
    void theRoomGrowsByShrinkageSoakAndAllowance() {
        Studio studio = new Studio();
        studio.ratio = Studio.byWeight("1:1", null, null);
        studio.densityB = studio.densityA; // 1.10 g/mL in all
        studio.shrinkage = Percent.parse("4 %");
        studio.soak = Coverage.parse("110 g/m2");
        studio.mold("panel", Studio.box("100 mm", "100 mm", "20 mm"), "10 mm", List.of(), 2, "0.02 m2");
        Mix mix = studio.mix(Studio.options().allowance("5 %").of(new MixRequest.ForMold("panel", null)));
        // 2 × 100 mL; /0.96; + 0.02 m² × 2 × 110 g/m² / 1.1 g/mL = 4 mL; × 1.05.
        double target = (200 / 0.96 + 4) * 1.05;
        assertThat(mix.roomMl()).isCloseTo(200, within(EXACT));
        assertThat(mix.targetMl()).isCloseTo(target, within(EXACT));
        assertThat(mix.totals().mixedResinGrams()).isCloseTo(target * 1.1, within(1e-9));
    }

    @Test
    void anInsertTakesResinsPlaceInTheLayersItStandsIn() {
        Studio studio = new Studio();
        studio.layer = new Range<>(null, Length.parse("10 mm"));
        Insert strip = new Insert("ash strip", Studio.box("50 mm", "100 mm", "10 mm"), Length.parse("0 mm"), 1);
        studio.mold("panel", Studio.box("100 mm", "100 mm", "20 mm"), null, List.of(strip));
        Mix mix = studio.inMold("panel");
        assertThat(mix.layers().get(0).roomMl()).isCloseTo(50, within(EXACT));
        assertThat(mix.layers().get(1).roomMl()).isCloseTo(100, within(EXACT));
    }

    @Test
    void cupsAreTheFewestEqualOnesThatHoldTheLayerAndWhatStaysInThem() {
        Studio studio = new Studio();
        studio.ratio = Studio.byWeight("1:1", null, null);
        studio.densityA = studio.densityB; // 1 g/mL
        MixRequest.Size litre = new MixRequest.ForVolume(Volume.parse("1000 mL"));
        Mix two = studio.mix(Studio.options().cup("504 g", "4 g").of(litre));
        assertThat(two.layers().get(0).cups()).hasSize(2);
        assertThat(two.layers().get(0).cups().get(0).totalGrams()).isCloseTo(504, within(EXACT));
        assertThat(two.totals().totalGrams()).isCloseTo(1008, within(EXACT));
        Mix three = studio.mix(Studio.options().cup("503.9 g", "4 g").of(litre));
        assertThat(three.layers().get(0).cups()).hasSize(3);
    }

    @Test
    void theResinsLargestBatchBoundsTheCupToo() {
        Studio studio = new Studio();
        studio.batchMost = Mass.parse("100 g");
        assertThat(studio.resin("300 g").layers().get(0).cups()).hasSize(3);
        assertThat(studio.resin("300.001 g").layers().get(0).cups()).hasSize(4);
    }

    @Test
    void partBFollowsTheWeighedPartASoThatRoundingDoesNotTiltTheRatio() {
        Studio studio = new Studio();
        studio.ratio = Studio.byWeight("100:45", null, null);
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        Mix mix = studio.resin("101.9 g");
        // A 70.28 → 70; B = 70 × 0.45 = 31.5 → 32 (halves up); amber = 1 % of 102 = 1.02.
        assertThat(Studio.of(mix, Item.PART_A).weighGrams()).isEqualTo(70);
        assertThat(Studio.of(mix, Item.PART_B).weighGrams()).isEqualTo(32);
        assertThat(Studio.of(mix, AMBER).weighGrams()).isEqualTo(1.02);
    }

    @Test
    void theDisplayShowsTheCupAndAllSoFarForThePartsAndThePigmentAlone() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        Mix mix = studio.resin("150 g");
        assertThat(Studio.of(mix, Item.PART_A).displayGrams()).isEqualTo(100);
        assertThat(Studio.of(mix, AMBER).displayGrams()).isEqualTo(1.5);
        assertThat(Studio.of(mix, Item.PART_B).displayGrams()).isEqualTo(151.5);
    }

    /** 100 + 0.03 + 0.24 + 50 g, which binary sums give as 150.26999999999998. */
    @Test
    void whatTheDisplayShowsIsFreeOfBinaryNoise() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "0.02 %", null);
        studio.pigment("rust", Pigment.Kind.PASTE, "0.16 %", null);
        assertThat(Studio.of(studio.resin("150 g"), Item.PART_B).displayGrams()).isEqualTo(150.27);
    }

    /** Common practice, no source: parts within 1 %, pastes 2 %, pearls 5 %, never finer than the scale. */
    @Test
    void theRangeBesideATargetIsNeverFinerThanTheScale() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        studio.pigment("pearl", Pigment.Kind.MICA, "1 %", null);
        studio.pigment("soot", Pigment.Kind.POWDER, "0.01 %", null);
        Mix mix = studio.resin("1500 g");
        Mix.Weighing a = Studio.of(mix, Item.PART_A);
        assertThat(List.of(a.lowGrams(), a.highGrams())).containsExactly(990.0, 1010.0);
        Mix.Weighing amber = Studio.of(mix, AMBER);
        assertThat(List.of(amber.lowGrams(), amber.highGrams())).containsExactly(14.70, 15.30);
        Mix.Weighing pearl = Studio.of(mix, Item.of("pearl"));
        assertThat(List.of(pearl.lowGrams(), pearl.highGrams())).containsExactly(14.25, 15.75);
        Mix.Weighing soot = Studio.of(mix, Item.of("soot"));
        assertThat(List.of(soot.lowGrams(), soot.weighGrams(), soot.highGrams()))
                .containsExactly(0.14, 0.15, 0.16);
    }

    @Test
    void aNarrowRatioWindowNarrowsTheRangesOfTheParts() {
        Studio studio = new Studio();
        studio.ratio = Studio.byWeight("2:1", "1.98", "2.08");
        Mix mix = studio.resin("3000 g");
        // 1 % below: half of it each, so A may be 0.5 % low and B 0.5 % high; 4 % above: the 1 % of practice holds.
        Mix.Weighing a = Studio.of(mix, Item.PART_A);
        Mix.Weighing b = Studio.of(mix, Item.PART_B);
        assertThat(List.of(a.lowGrams(), a.highGrams())).containsExactly(1990.0, 2020.0);
        assertThat(List.of(b.lowGrams(), b.highGrams())).containsExactly(990.0, 1005.0);
        assertThat(a.lowGrams() / b.highGrams()).isGreaterThanOrEqualTo(1.98);
    }

    @Test
    void theLotThatExpiresFirstAndHasEnoughIsTaken() {
        Studio studio = new Studio()
                .lot("A-3", "A", "500 g", null)
                .lot("A-2", "A", "500 g", "2027-03-01")
                .lot("A-1", "A", "50 g", "2027-01-01")
                .lot("A-0", "A", "500 g", "2026-11-24")
                .lot("B-1", "B", "500 g", "2026-11-25");
        Mix mix = studio.resin("150 g");
        assertThat(Studio.of(mix, Item.PART_A).lots()).containsExactly(new Mix.LotGrams("A-2", 100));
        assertThat(Studio.of(mix, Item.PART_B).lots()).containsExactly(new Mix.LotGrams("B-1", 50));
    }

    @Test
    void whereNoLotHasEnoughSeveralAreTakenFirstToExpireFirst() {
        Studio studio = new Studio()
                .lot("A-1", "A", "70 g", "2027-01-01")
                .lot("A-2", "A", "80 g", "2027-03-01")
                .lot("B-1", "B", "500 g", null);
        Mix mix = studio.resin("150 g");
        assertThat(Studio.of(mix, Item.PART_A).lots())
                .containsExactly(new Mix.LotGrams("A-1", 70), new Mix.LotGrams("A-2", 30));
    }

    @Test
    void aStrongerLotIsWeighedLighter() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        studio.lot("AP-1", "amber", "100 g", null, null, "125 %", null, null);
        assertThat(studio.resin("100 g").totals().pigmentGrams().get(AMBER)).isCloseTo(0.8, within(EXACT));
    }

    @Test
    void theShelfMakesAsMuchAsTheItemThatRunsOutFirst() {
        Studio studio = new Studio()
                .lot("A-1", "A", "1 kg", null)
                .lot("B-1", "B", "200 g", null)
                .lot("B-0", "B", "1 kg", "2026-01-01");
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        studio.lot("AP-1", "amber", "5 g", null).lot("AP-2", "amber", "4 g", null);
        Mix mix = studio.mix(new MixRequest.ForShelf());
        assertThat(mix.totals().mixedResinGrams()).isCloseTo(600, within(EXACT));
        assertThat(mix.limitedBy()).isEqualTo(Item.PART_B);
        assertThat(mix.alsoLimitedBy()).isEqualTo(AMBER);
    }

    @Test
    void anyOneMassDrivesTheRest() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        for (MixRequest.Size size : List.of(
                new MixRequest.ForResin(Mass.parse("150 g")),
                new MixRequest.ForTotal(Mass.parse("151.5 g")),
                new MixRequest.ForItem(Item.PART_A, Mass.parse("100 g")),
                new MixRequest.ForItem(Item.PART_B, Mass.parse("50 g")),
                new MixRequest.ForItem(AMBER, Mass.parse("1.5 g")))) {
            assertThat(studio.mix(size).totals().totalGrams())
                    .as(size.toString())
                    .isCloseTo(151.5, within(EXACT));
        }
    }

    @Test
    void costIsGramsByPriceOverWhatCameAndNothingWhereAPriceIsMissing() {
        Studio studio = new Studio()
                .lot("A-1", "A", "1 kg", null, "20.00", null, null, null)
                .lot("B-1", "B", "500 g", null, "15.00", null, null, null);
        Mix.Cost cost = studio.resin("150 g").totals().cost();
        assertThat(cost).isNotNull();
        assertThat(cost.amount()).isCloseTo(100 * 0.02 + 50 * 0.03, within(EXACT));
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        assertThat(studio.resin("150 g").totals().cost()).isNull();
    }

    @Test
    void aPigmentTooLightForItsScaleIsOfferedAsConcentrate() {
        Studio studio = new Studio();
        studio.pigment("soot", Pigment.Kind.POWDER, "0.1 %", null);
        studio.onShelf(
                "soot-in-a",
                Pigment.Kind.CONCENTRATE,
                null,
                Studio.inPartA("90 %"),
                null,
                new Pigment.Contains("soot", Percent.parse("10 %")));
        Mix.Offer offer = studio.resin("150 g").offers().get(0);
        assertThat(offer.grams()).isCloseTo(0.15, within(EXACT));
        assertThat(offer.leastGrams()).isCloseTo(0.41, within(EXACT));
        assertThat(offer.concentrate()).isNotNull();
        assertThat(offer.concentrate().grams()).isCloseTo(1.5, within(EXACT));
        assertThat(offer.concentrate().plainPartASaved()).isCloseTo(1.35, within(EXACT));
    }

    @Test
    void clearResinIsARecipeWithoutPigments() {
        Mix mix = new Studio().resin("150 g");
        assertThat(mix.totals().totalGrams()).isCloseTo(150, within(EXACT));
        assertThat(mix.layers().get(0).cups().get(0).items()).hasSize(2);
    }

    @Test
    void everyFigureShowsItsWorking() {
        Studio studio = coating();
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        List<Mix.Working> working = Workings.of(studio.inMold("panel"));
        assertThat(working)
                .extracting(Mix.Working::figure)
                .contains(
                        "part A’s share",
                        "density of the resin",
                        "room",
                        "to pour",
                        "mixed resin",
                        "layer 2, amber",
                        "working time");
        assertThat(working).allSatisfy(step -> assertThat(step.formula()).isNotEmpty());
    }
}
