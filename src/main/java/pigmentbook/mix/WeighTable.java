package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;
import pigmentbook.quantity.WeighingStep;

/**
 * The weights of one cup, rounded to the scales so that neither the ratio nor the percents drift: part A to its step,
 * part B from the weighed part A, the pigments from the resin as weighed.
 */
final class WeighTable {

    /** Part A and part B within 1 %, so that the ratio stays within 2 %: common practice, no source. */
    static final double PART_TOLERANCE = 0.01;

    /** Strong colours within 2 %: common practice, no source. */
    static final double PIGMENT_TOLERANCE = 0.02;

    /** Pearls within 5 %: common practice, no source. */
    static final double PEARL_TOLERANCE = 0.05;

    private final Proportions proportions;
    private final Mix.Scales scales;
    private final Tolerance partA;
    private final Tolerance partB;
    private final Map<Item, Pigment> pigments;

    private record Tolerance(double low, double high) {}

    WeighTable(Resin resin, Proportions proportions, Mix.Scales scales, Map<Item, Pigment> pigments) {
        this.proportions = proportions;
        this.scales = scales;
        this.pigments = pigments;
        double below = PART_TOLERANCE;
        double above = PART_TOLERANCE;
        MixRatio ratio = resin.ratio();
        if (ratio != null && ratio.window() != null) {
            double nominal = ratio.ratio().quotient();
            below = within(1 - ratio.window().least().doubleValue() / nominal);
            above = within(ratio.window().most().doubleValue() / nominal - 1);
        }
        // Little A or much B lowers the ratio, much A or little B raises it: each may use half of that side.
        partA = new Tolerance(below, above);
        partB = new Tolerance(above, below);
    }

    private static double within(double side) {
        return Math.max(0, Math.min(PART_TOLERANCE, side / 2));
    }

    /**
     * Weighs one cup out.
     *
     * @param number the cup's number
     * @param resinGrams mixed resin in the cup
     * @param lots each item's lots for the whole mix
     */
    Mix.Cup cup(int number, double resinGrams, Map<Item, Lots.Choice> lots) {
        WeighingStep coarse = scales.resin().step();
        WeighingStep fine = scales.fine().step();
        double exactA = proportions.plainPartA() * resinGrams;
        double exactB = proportions.partB() * resinGrams;
        double carried = proportions.carriedPartA() * resinGrams;
        double weighA = coarse.round(exactA);
        double weighB = coarse.round((weighA + carried) * proportions.partB() / proportions.partA());
        double asWeighed = weighA + carried + weighB;

        List<Mix.Weighing> items = new ArrayList<>(proportions.pigments().size() + 2);
        double inCup = scales.cupTareGrams() + weighA;
        items.add(weighing(Item.PART_A, "Part A", exactA, weighA, partA, inCup, scales.resin(), lots));
        double total = exactA + exactB;
        for (Mix.PigmentShare pigment : proportions.pigments()) {
            double exact = pigment.perGramOfResin() * resinGrams;
            double weigh = fine.round(pigment.perGramOfResin() * asWeighed);
            total += exact;
            inCup += weigh;
            items.add(weighing(
                    pigment.item(),
                    pigment.name(),
                    exact,
                    weigh,
                    tolerance(pigment.item()),
                    weigh,
                    scales.fine(),
                    lots));
        }
        // Steps of 0.01 g don't add up exactly in binary; far below any scale they do.
        inCup = Math.rint((inCup + weighB) * 1e9) / 1e9;
        items.add(weighing(Item.PART_B, "Part B", exactB, weighB, partB, inCup, scales.resin(), lots));
        double ratio = weighB == 0 ? Double.POSITIVE_INFINITY : (weighA + carried) / weighB;
        double meant = proportions.partA() / proportions.partB();
        return new Mix.Cup(number, total, items, new Mix.Achieved(ratio, ratio / meant - 1));
    }

    private Tolerance tolerance(Item item) {
        Pigment pigment = pigments.get(item);
        boolean pearl = pigment != null && (pigment.kind() == Pigment.Kind.MICA || pigment.kind() == Pigment.Kind.GLOW);
        double fraction = pearl ? PEARL_TOLERANCE : PIGMENT_TOLERANCE;
        return new Tolerance(fraction, fraction);
    }

    private static Mix.Weighing weighing(
            Item item,
            String name,
            double exact,
            double weigh,
            Tolerance tolerance,
            double display,
            Settings.Scale scale,
            Map<Item, Lots.Choice> lots) {
        WeighingStep step = scale.step();
        double below = Math.max(weigh * tolerance.low(), step.grams());
        double above = Math.max(weigh * tolerance.high(), step.grams());
        return new Mix.Weighing(
                item,
                name,
                exact,
                weigh,
                Math.max(0, step.roundUp(weigh - below)),
                step.roundDown(weigh + above),
                tolerance.low(),
                tolerance.high(),
                display,
                scale,
                exact == 0 ? 0 : weigh / exact - 1,
                inThisCup(lots.get(item), exact));
    }

    /** Several lots are put together first, so each cup takes of each in the same proportion. */
    private static List<Mix.LotGrams> inThisCup(Lots.@org.jspecify.annotations.Nullable Choice choice, double exact) {
        if (choice == null || choice.lots().isEmpty()) {
            return List.of();
        }
        List<Mix.LotGrams> grams = new ArrayList<>(choice.lots().size());
        for (Lots.Taken taken : choice.lots()) {
            double share = taken.grams() == choice.needGrams() ? 1 : taken.grams() / choice.needGrams();
            grams.add(new Mix.LotGrams(taken.lot().id(), exact * share));
        }
        return grams;
    }
}
