package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.quantity.Numbers;

/** How the figures of a mix come about: worked out only when somebody asks. */
public final class Workings {

    private final Mix mix;
    private final List<Mix.Working> steps = new ArrayList<>();

    private Workings(Mix mix) {
        this.mix = mix;
    }

    /** Returns how the figures come about, in order. */
    public static List<Mix.Working> of(Mix mix) {
        Workings workings = new Workings(mix);
        workings.shares();
        workings.amount();
        for (Mix.Layer layer : mix.layers()) {
            workings.layer(layer);
        }
        workings.times();
        return List.copyOf(workings.steps);
    }

    private void add(String figure, double value, String unit, String formula, String from) {
        steps.add(new Mix.Working(figure, value, unit, formula, from));
    }

    private void shares() {
        MixRatio ratio = mix.resin().ratio();
        Double densityA = mix.inputs().densityA();
        Double densityB = mix.inputs().densityB();
        if (ratio != null && ratio.by() == MixRatio.By.WEIGHT) {
            add("part A’s share", mix.shares().partA(), "", "a / (a + b)", ratio.written());
        } else if (ratio != null) {
            add(
                    "part A’s share",
                    mix.shares().partA(),
                    "",
                    "a × density of A / (a × density of A + b × density of B)",
                    ratio.written() + "; " + density(densityA) + " and " + density(densityB));
        }
        Double mixed = mix.mixedDensity();
        if (mixed != null) {
            boolean stated = mix.resin().density() != null;
            add(
                    "density of the resin",
                    mixed,
                    "g/mL",
                    stated ? "as stated" : "1 / (share of A / density of A + share of B / density of B)",
                    stated ? "data sheet" : density(densityA) + " and " + density(densityB));
        }
        for (Mix.PigmentShare pigment : mix.shares().pigments()) {
            add(
                    pigment.name() + " for each gram of resin",
                    pigment.perGramOfResin(),
                    "g",
                    "percent of " + mix.revision().percentOf().words()
                            + " as a fraction of mixed resin / strength of the lot",
                    Shown.percent(pigment.fractionOfResin()) + "; " + Shown.percent(pigment.strength()));
        }
    }

    private static String density(@Nullable Double density) {
        return density == null ? "no density" : Numbers.plain(density) + " g/mL";
    }

    private void amount() {
        Double room = mix.roomMl();
        Double target = mix.targetMl();
        Mix.Inputs inputs = mix.inputs();
        if (room != null && target != null) {
            add(
                    "room",
                    room,
                    "mL",
                    mix.mold() == null ? "as asked" : "(shape up to the fill − inserts) × molds",
                    mix.mold() == null
                            ? ""
                            : mix.mold().name() + ", " + mix.mold().count());
            add(
                    "to pour",
                    target,
                    "mL",
                    "(room / (1 − shrinkage) + soak) × (1 + allowance)",
                    Shown.percent(inputs.shrinkage()) + "; " + Shown.significant(inputs.soakMl()) + " mL; "
                            + Shown.percent(inputs.allowance()));
        }
        add(
                "mixed resin",
                mix.totals().mixedResinGrams(),
                "g",
                target == null
                        ? "from the mass that leads"
                        : "to pour / (1 / density of the resin + pigments’ own volume), and the residue of each cup",
                target == null ? "" : Shown.grams(inputs.residueGrams()) + " a cup");
        add(
                "part A",
                mix.totals().partAGrams(),
                "g",
                "share of A × mixed resin − part A that pigments carry",
                Shown.grams(carriedGrams()) + " carried");
        add("part B", mix.totals().partBGrams(), "g", "share of B × mixed resin", "");
        mix.totals()
                .pigmentGrams()
                .forEach((item, grams) -> add(nameOf(item), grams, "g", "for each gram of resin × mixed resin", ""));
        add("total", mix.totals().totalGrams(), "g", "part A + part B + pigments", "");
        Mix.Cost cost = mix.totals().cost();
        if (cost != null) {
            add("cost", cost.amount(), cost.currency(), "grams × price / received quantity, over all lots", "");
        }
    }

    private double carriedGrams() {
        double carried = 0;
        for (Mix.PigmentShare pigment : mix.shares().pigments()) {
            carried += pigment.carriedPartA() * pigment.perGramOfResin();
        }
        return carried * mix.totals().mixedResinGrams();
    }

    private String nameOf(Item item) {
        for (Mix.PigmentShare pigment : mix.shares().pigments()) {
            if (pigment.item().equals(item)) {
                return pigment.name();
            }
        }
        return item.id();
    }

    private void layer(Mix.Layer layer) {
        String name = "layer " + layer.number();
        if (layer.roomMl() != null && layer.fromMm() != null && layer.toMm() != null) {
            add(
                    name + " room",
                    layer.roomMl(),
                    "mL",
                    "shape less inserts between two heights × molds",
                    Shown.mm(layer.fromMm()) + " to " + Shown.mm(layer.toMm()));
        }
        Mix.Cup cup = layer.cups().get(0);
        add(
                name + " cups",
                layer.cups().size(),
                "",
                "fewest equal cups within the cup’s size and the resin’s largest batch",
                (mix.inputs().cupMostGrams() == null
                                ? "no cup size"
                                : Shown.grams(mix.inputs().cupMostGrams())) + "; "
                        + (mix.resin().batchMost() == null
                                ? "no largest batch"
                                : mix.resin().batchMost().written()));
        add(name + " a cup", cup.totalGrams(), "g", "layer / cups + residue", "");
        for (Mix.Weighing weighing : cup.items()) {
            add(
                    name + ", " + weighing.name(),
                    weighing.weighGrams(),
                    "g",
                    rounding(weighing.item()),
                    "exact " + Numbers.plain(weighing.exactGrams()) + " g; steps of "
                            + weighing.scale().step().written());
        }
    }

    private static String rounding(Item item) {
        if (item.equals(Item.PART_A)) {
            return "exact, rounded to the resin scale";
        }
        return item.equals(Item.PART_B)
                ? "(part A as weighed + carried) × share of B / share of A, rounded to the resin scale"
                : "for each gram of resin × resin as weighed, rounded to the fine scale";
    }

    private void times() {
        Double working = mix.workingTimeMin();
        if (working != null && mix.resin().workingTime() != null) {
            add(
                    "working time",
                    working,
                    "min",
                    "stated × 2^((stated temperature − room) / 10), never longer than stated; a rule of thumb"
                            + " (1.5 to 2.5 a 10 °C by product)",
                    mix.resin().workingTime().written() + " at "
                            + (mix.resin().workingTimeAt() == null
                                    ? "no stated temperature"
                                    : mix.resin().workingTimeAt().written())
                            + "; room " + Shown.celsius(mix.roomCelsius()));
        }
    }
}
