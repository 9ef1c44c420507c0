package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;

/** What to beware of in a mix, the gravest first, the standing cautions last. */
final class Cautions {

    /** A ratio this far off is worth a word where the data sheet states no window: common practice, no source. */
    private static final double RATIO_WINDOW = 0.02;

    /**
     * Two rules for one area that differ by more mean that widths were measured too rarely: common practice, no source.
     */
    private static final double STATION_RULES = 0.03;

    private static final double SLACK_MM = 1e-6;

    private final List<Caution> found = new ArrayList<>();
    private final Mix mix;
    private final Resin resin;

    private Cautions(Mix mix) {
        this.mix = mix;
        this.resin = mix.resin();
    }

    static List<Caution> of(
            Book book,
            Mix mix,
            List<Mix.Offer> offers,
            Map<Item, Pigment> pigments,
            Map<Item, Lots.Choice> lots,
            MixRequest request) {
        Cautions cautions = new Cautions(mix);
        cautions.ratio();
        cautions.layers();
        cautions.cups();
        cautions.scales();
        cautions.smallAmounts(offers);
        cautions.loadings(pigments);
        cautions.missingDensities(pigments);
        new LotCautions(mix, cautions.found).of(lots);
        cautions.room(
                request.humidity() != null
                        ? request.humidity()
                        : book.settings().roomHumidity());
        cautions.look();
        cautions.mold();
        cautions.flame(pigments);
        cautions.found.sort((a, b) -> a.severity().compareTo(b.severity()));
        cautions.found.addAll(StandingCautions.ALL);
        return List.copyOf(cautions.found);
    }

    private void add(String code, Caution.Severity severity, String text, String basis) {
        found.add(new Caution(code, severity, text, basis));
    }

    private void ratio() {
        Worst worst = new Worst();
        for (Mix.Layer layer : mix.layers()) {
            Mix.Achieved achieved = layer.cups().get(0).achieved();
            worst.take(layer, achieved);
        }
        MixRatio ratio = resin.ratio();
        if (ratio == null || worst.layer == null || worst.achieved == null) {
            return;
        }
        double error = worst.achieved.ratioError();
        double inBasis = ratio.ratio().quotient() * (1 + error);
        String what = "Rounded to the scale, part A to part B in layer " + worst.layer.number() + " is "
                + Shown.percent(Math.abs(error)) + (error < 0 ? " under" : " over");
        MixRatio.Window window = ratio.window();
        if (window != null) {
            if (inBasis < window.least().doubleValue() * (1 - 1e-12)
                    || inBasis > window.most().doubleValue() * (1 + 1e-12)) {
                add(
                        "ratio-outside-window",
                        Caution.Severity.STOP,
                        what + ", outside the accepted "
                                + Numbers.plain(window.least().doubleValue()) + " to "
                                + Numbers.plain(window.most().doubleValue())
                                + "; use a finer scale or a bigger batch.",
                        Caution.DATA_SHEET);
            }
        } else if (Math.abs(error) > RATIO_WINDOW) {
            add(
                    "ratio-off",
                    Caution.Severity.WARN,
                    what + ", more than 2 %; use a finer scale or a bigger batch.",
                    Caution.COMMON_PRACTICE);
        }
        twoStatements(ratio);
    }

    private static final class Worst {
        private Mix.@Nullable Layer layer;
        private Mix.@Nullable Achieved achieved;

        private void take(Mix.Layer next, Mix.Achieved of) {
            if (achieved == null || Math.abs(of.ratioError()) > Math.abs(achieved.ratioError())) {
                layer = next;
                achieved = of;
            }
        }
    }

    private void twoStatements(MixRatio ratio) {
        MixRatio also = resin.ratioAlso();
        Double densityA = mix.inputs().densityA();
        Double densityB = mix.inputs().densityB();
        if (also == null || (also.by() != ratio.by() && (densityA == null || densityB == null))) {
            return;
        }
        Proportions.Parts parts = Proportions.Parts.of(resin, also, densityA, densityB);
        double inBasis = ratio.ratio().quotient()
                * (parts.a() / parts.b())
                / (mix.shares().partA() / mix.shares().partB());
        double least = ratio.window() == null
                ? ratio.ratio().quotient() * (1 - RATIO_WINDOW)
                : ratio.window().least().doubleValue();
        double most = ratio.window() == null
                ? ratio.ratio().quotient() * (1 + RATIO_WINDOW)
                : ratio.window().most().doubleValue();
        if (inBasis < least || inBasis > most) {
            add(
                    "ratios-disagree",
                    Caution.Severity.WARN,
                    "The data sheet's two ratios disagree: " + also.written() + " comes to "
                            + Shown.significant(inBasis) + " : 1 " + ratio.by().words() + ", not "
                            + ratio.ratio().written() + "; the mix uses " + ratio.written() + ".",
                    Caution.DATA_SHEET);
        }
    }

    private void layers() {
        Length least = resin.layer().least();
        Length most = resin.layer().most();
        for (Mix.Layer layer : mix.layers()) {
            if (layer.fromMm() == null || layer.toMm() == null) {
                continue;
            }
            double depth = layer.toMm() - layer.fromMm();
            if (most != null && depth > most.mm() + SLACK_MM) {
                add(
                        "layer-too-thick",
                        Caution.Severity.STOP,
                        "Layer " + layer.number() + " is " + Shown.mm(depth) + " deep; the resin takes at most "
                                + most.written() + " at once, or it overheats.",
                        Caution.DATA_SHEET);
            }
            if (least != null && depth < least.mm() - SLACK_MM) {
                add(
                        "layer-too-thin",
                        Caution.Severity.WARN,
                        "Layer " + layer.number() + " is " + Shown.mm(depth) + " deep; below " + least.written()
                                + " the resin cures slowly or stays soft.",
                        Caution.DATA_SHEET);
            }
        }
        if (mix.layers().size() > 1 && resin.recoat().least() == null) {
            add(
                    "no-recoat-time",
                    Caution.Severity.WARN,
                    "The resin states no time after which the next layer may follow; wait until the last one is as tacky"
                            + " as masking tape.",
                    Caution.COMMON_PRACTICE);
        }
    }

    private void cups() {
        Mass most = resin.batchMost();
        int cups = 0;
        for (Mix.Layer layer : mix.layers()) {
            cups = Math.max(cups, layer.cups().size());
            double resinAsWeighed = resinAsWeighed(layer.cups().get(0));
            if (most != null && resinAsWeighed > most.grams() * (1 + 1e-12)) {
                add(
                        "batch-too-big",
                        Caution.Severity.WARN,
                        "A cup of layer " + layer.number() + " holds " + Shown.grams(resinAsWeighed)
                                + " of mixed resin; the resin's largest batch is " + most.written()
                                + ", or it overheats in the cup.",
                        Caution.DATA_SHEET);
            }
        }
        Double working = mix.workingTimeMin();
        if (working == null) {
            add(
                    "no-working-time",
                    Caution.Severity.NOTE,
                    "The resin states no working time; read it on the data sheet before part B goes in.",
                    Caution.DATA_SHEET);
        } else if (cups * Times.CUP_MIN > working) {
            add(
                    "working-time-short",
                    Caution.Severity.WARN,
                    cups + (cups == 1 ? " cup takes " : " cups take ") + Shown.significant(cups * Times.CUP_MIN)
                            + " minutes with one person, but the working time is about " + Shown.significant(working)
                            + " minutes at " + Shown.celsius(mix.roomCelsius())
                            + "; use smaller layers, a second person or a cooler room.",
                    "data sheet; 10 minutes a cup is common practice");
        }
        Temperature at = resin.workingTimeAt();
        if (working != null && at != null && mix.roomCelsius() < at.celsius()) {
            add(
                    "working-time-not-longer",
                    Caution.Severity.NOTE,
                    "The room is cooler than the " + Shown.celsius(at.celsius())
                            + " that the working time is stated for; do not count on more time.",
                    Caution.COMMON_PRACTICE);
        }
    }

    private double resinAsWeighed(Mix.Cup cup) {
        double grams = 0;
        for (Mix.Weighing weighing : cup.items()) {
            if (!weighing.item().isPigment()) {
                grams += weighing.weighGrams();
            } else {
                for (Mix.PigmentShare pigment : mix.shares().pigments()) {
                    if (pigment.item().equals(weighing.item())) {
                        grams += pigment.carriedPartA() * weighing.exactGrams();
                    }
                }
            }
        }
        return grams;
    }

    private void scales() {
        Mass coarseMost = mix.scales().resin().most();
        Mass fineMost = mix.scales().fine().most();
        for (Mix.Layer layer : mix.layers()) {
            Mix.Cup cup = layer.cups().get(0);
            double shown = cup.items().get(cup.items().size() - 1).displayGrams();
            if (coarseMost != null && shown > coarseMost.grams()) {
                add(
                        "scale-too-small",
                        Caution.Severity.STOP,
                        "A cup of layer " + layer.number() + " comes to " + Shown.grams(shown)
                                + "; the resin scale carries " + coarseMost.written() + ". Use smaller cups.",
                        Caution.COMMON_PRACTICE);
            }
            for (Mix.Weighing weighing : cup.items()) {
                if (weighing.item().isPigment() && fineMost != null && weighing.weighGrams() > fineMost.grams()) {
                    add(
                            "fine-scale-too-small",
                            Caution.Severity.WARN,
                            Shown.grams(weighing.weighGrams()) + " of " + weighing.name() + " in layer "
                                    + layer.number() + " is more than the fine scale's " + fineMost.written()
                                    + "; weigh it in portions.",
                            Caution.COMMON_PRACTICE);
                }
            }
        }
    }

    private void smallAmounts(List<Mix.Offer> offers) {
        for (Mix.Offer offer : offers) {
            add(
                    TooLittle.CODE,
                    Caution.Severity.WARN,
                    TooLittle.ofPigment(offer, inCupOf(offer.layer())),
                    "USP 41's relation at 2 %");
        }
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Weighing weighing : layer.cups().get(0).items()) {
                if (TooLittle.isPart(weighing)) {
                    add(
                            TooLittle.CODE,
                            Caution.Severity.WARN,
                            TooLittle.ofPart(weighing, inCupOf(layer.number())),
                            "USP 41's relation at 1 %");
                }
            }
        }
    }

    private static String inCupOf(int layer) {
        return " in a cup of layer " + layer;
    }

    private void loadings(Map<Item, Pigment> pigments) {
        double together = 0;
        double liquid = 0;
        for (Mix.PigmentShare share : mix.shares().pigments()) {
            Pigment pigment = pigments.get(share.item());
            if (pigment == null) {
                continue;
            }
            double loading = share.fractionOfResin();
            together += loading;
            liquid += loading * liquidShare(pigment);
            Percent top = pigment.topLoading();
            if (top != null && loading > top.fraction() * (1 + 1e-12)) {
                add(
                        "above-top-loading",
                        Caution.Severity.WARN,
                        Shown.percent(loading) + " of " + pigment.name() + " is above its top loading of "
                                + top.written() + " of mixed resin; the piece may stay soft or weak.",
                        Caution.DATA_SHEET);
            }
            if (loading > 1) {
                add(
                        "more-pigment-than-resin",
                        Caution.Severity.WARN,
                        "There is more " + pigment.name() + " than resin (" + Shown.percent(loading)
                                + " of mixed resin); check the percent.",
                        Caution.COMMON_PRACTICE);
            }
        }
        Percent top = resin.topLoading();
        if (top != null && together > top.fraction() * (1 + 1e-12)) {
            add(
                    "above-resin-loading",
                    Caution.Severity.WARN,
                    "The pigments make " + Shown.percent(together) + " of mixed resin together, "
                            + Shown.percent(liquid) + " of it liquid that does not cure; the resin takes "
                            + top.written() + ".",
                    Caution.DATA_SHEET);
        }
    }

    /**
     * Returns how much of a pigment is a liquid that does not cure: its carrier, or all of a dye or ink without one.
     */
    private static double liquidShare(Pigment pigment) {
        Pigment.Carrier carrier = pigment.carrier();
        if (carrier != null) {
            return carrier.isPartA() ? 0 : carrier.share().fraction();
        }
        return pigment.kind() == Pigment.Kind.DYE || pigment.kind() == Pigment.Kind.INK ? 1 : 0;
    }

    private void missingDensities(Map<Item, Pigment> pigments) {
        if (mix.roomMl() == null) {
            return;
        }
        for (Mix.PigmentShare share : mix.shares().pigments()) {
            Pigment pigment = pigments.get(share.item());
            if (pigment != null && share.gramsPerMl() == null) {
                add(
                        "pigment-without-density",
                        Caution.Severity.NOTE,
                        pigment.name() + " states no density; it counts as dense as the resin.",
                        Caution.COMMON_PRACTICE);
            }
            if (share.carriedPartA() > 0 && mix.inputs().densityA() == null) {
                add(
                        "carrier-without-density",
                        Caution.Severity.NOTE,
                        "Part A states no density; the part A that " + share.name()
                                + " carries counts as dense as the mix.",
                        Caution.COMMON_PRACTICE);
            }
        }
    }

    private void room(@Nullable Percent humidity) {
        double celsius = mix.roomCelsius();
        Temperature least = resin.temperature().least();
        Temperature most = resin.temperature().most();
        if (least != null && celsius < least.celsius()) {
            add(
                    "room-too-cold",
                    Caution.Severity.WARN,
                    "The room is " + Shown.celsius(celsius) + "; below " + Shown.celsius(least.celsius())
                            + " the resin cures slowly and may turn cloudy.",
                    Caution.DATA_SHEET);
        }
        if (most != null && celsius > most.celsius()) {
            add(
                    "room-too-hot",
                    Caution.Severity.WARN,
                    "The room is " + Shown.celsius(celsius) + "; above " + Shown.celsius(most.celsius())
                            + " the resin may overheat before it is poured.",
                    Caution.DATA_SHEET);
        }
        Percent damp = resin.humidityMost();
        if (humidity != null && damp != null && humidity.percent() > damp.percent()) {
            add(
                    "room-too-damp",
                    Caution.Severity.WARN,
                    "The air is at " + humidity.written() + "; above " + damp.written()
                            + " the surface may blush and the next layer may not bond.",
                    Caution.DATA_SHEET);
        }
    }

    private void look() {
        Mix.Look look = mix.look();
        Mix.Layer top = mix.layers().get(mix.layers().size() - 1);
        if (look == null || look.depthMm() == null || top.toMm() == null || !isSeeThrough()) {
            return;
        }
        double depth = top.toMm();
        double factor = look.depthMm() / depth;
        if (Math.abs(factor - 1) < 0.1) {
            return;
        }
        double loading = 0;
        for (Recipe.PigmentLoading each : mix.revision().pigments()) {
            loading += each.percent().percent();
        }
        String backing = look.backing() == null ? "" : " over " + look.backing();
        add(
                "other-depth",
                Caution.Severity.WARN,
                "This colour was read " + Shown.mm(look.depthMm()) + " deep" + backing + " and will be "
                        + Shown.mm(depth)
                        + " deep: a see-through colour gets " + (factor < 1 ? "darker." : "paler."),
                Caution.COMMON_PRACTICE);
        add(
                Caution.KEEPING_THE_LOOK,
                Caution.Severity.NOTE,
                "Loading × " + Shown.significant(factor) + " (" + Shown.significant(loading * factor)
                        + " % in all) keeps the look over the same backing.",
                "loading × depth kept (Beer-Lambert)");
    }

    private boolean isSeeThrough() {
        return mix.recipe().tags().contains("see-through");
    }

    private void mold() {
        if (mix.mold() != null && mix.mold().cavity().shape() instanceof Shape.Stations stations) {
            double height = stations.depth().mm();
            double trapezoid = stations.volumeMm3To(height);
            double differ = trapezoid > 0 ? Math.abs(stations.simpsonMm3To(height) / trapezoid - 1) : 0;
            if (differ > STATION_RULES) {
                add(
                        "stations-too-far-apart",
                        Caution.Severity.WARN,
                        "Between the stations of this mold the trapezoids and Simpson's rule differ by "
                                + Shown.percent(differ) + "; measure the widths at smaller steps.",
                        Caution.COMMON_PRACTICE);
            }
        }
        if (mix.mold() != null && mix.mold().cavity().shape() instanceof Shape.Water) {
            add(
                    "dry-the-mold",
                    Caution.Severity.WARN,
                    "This mold was measured with water; dry it fully, for damp spoils the cure.",
                    Caution.COMMON_PRACTICE);
        }
    }

    private void flame(Map<Item, Pigment> pigments) {
        for (Pigment pigment : pigments.values()) {
            if (pigment.kind() == Pigment.Kind.INK) {
                add(
                        "no-flame",
                        Caution.Severity.WARN,
                        "No flame and no hot air near " + pigment.name() + ": the solvent in ink can catch fire.",
                        "AIHA and laboratory safety notes on heat guns");
            }
        }
    }
}
