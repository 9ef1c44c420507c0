package pigmentbook.sheet;

import static pigmentbook.sheet.Expr.cell;
import static pigmentbook.sheet.Expr.num;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.fraction.BigFraction;
import pigmentbook.book.Item;
import pigmentbook.mix.Mix;
import pigmentbook.quantity.WeighingStep;

/**
 * The arithmetic of one cup as formulas over the sheet's total: part A is rounded to its scale, part B follows the
 * weighed part A, the pigments follow the resin as weighed. They come to what the mix says.
 */
final class WeighFormulas {

    /** More decimals than this are beneath what a sheet's numbers hold. */
    private static final int MOST_DECIMALS = 12;

    private final Mix mix;
    private final int layer;
    private final Mix.Cup cup;

    WeighFormulas(Mix mix, int layer, Mix.Cup cup) {
        this.mix = mix;
        this.layer = layer;
        this.cup = cup;
    }

    /** The exact mass: the item's share of the total. */
    Expr target(Mix.Weighing weighing) {
        return cell(CellNames.TOTAL)
                .times(num(weighing.exactGrams() / mix.totals().totalGrams()));
    }

    /** The mass to weigh, a multiple of the scale's step, halves up. */
    Expr weigh(Mix.Weighing weighing) {
        return rounded(unrounded(weighing.item()), weighing.scale().step());
    }

    /** The least that will do. */
    Expr low(Mix.Weighing weighing) {
        WeighingStep step = weighing.scale().step();
        Expr weigh = named("weigh_g", weighing.item());
        Expr least = weigh.minus(slack(weigh, weighing.toleranceLow(), step));
        Expr steps = num(0).minus(floor(num(WeighingStep.HALF_WITHIN).minus(inSteps(least, step))));
        return max(num(0), exact(steps, step));
    }

    /** The most that will do. */
    Expr high(Mix.Weighing weighing) {
        WeighingStep step = weighing.scale().step();
        Expr weigh = named("weigh_g", weighing.item());
        Expr most = weigh.plus(slack(weigh, weighing.toleranceHigh(), step));
        return exact(floor(inSteps(most, step).plus(num(WeighingStep.HALF_WITHIN))), step);
    }

    /** What the display shows: for the parts the cup and all so far, for a pigment its own mass. */
    Expr display(Mix.Weighing weighing) {
        List<Expr> shown = new ArrayList<>();
        boolean alone = weighing.item().isPigment();
        if (!alone && mix.scales().cupTareGrams() > 0) {
            shown.add(num(mix.scales().cupTareGrams()));
        }
        for (Mix.Weighing each : cup.items()) {
            boolean counts = alone
                    ? each.item().equals(weighing.item())
                    : weighing.item().equals(Item.PART_B) || each.item().equals(Item.PART_A);
            if (counts) {
                shown.add(named("weigh_g", each.item()));
            }
        }
        return Expr.sum(shown);
    }

    private Expr unrounded(Item item) {
        if (item.equals(Item.PART_A)) {
            return named("target_g", Item.PART_A);
        }
        Expr inPartA = Expr.sum(partA());
        if (item.equals(Item.PART_B)) {
            return inPartA.times(num(mix.shares().partB() / mix.shares().partA()));
        }
        for (Mix.PigmentShare share : mix.shares().pigments()) {
            if (share.item().equals(item)) {
                return inPartA.plus(named("weigh_g", Item.PART_B)).times(num(share.perGramOfResin()));
            }
        }
        throw new IllegalArgumentException("no such item in the mix: " + item);
    }

    /** The part A in the cup: as weighed, and what the pigments carry. */
    private List<Expr> partA() {
        List<Expr> parts = new ArrayList<>();
        parts.add(named("weigh_g", Item.PART_A));
        for (Mix.PigmentShare share : mix.shares().pigments()) {
            if (share.carriedPartA() > 0) {
                parts.add(named("target_g", share.item()).times(num(share.carriedPartA())));
            }
        }
        return parts;
    }

    private Expr named(String what, Item item) {
        return cell(CellNames.of(what, layer, cup.number(), item));
    }

    private static Expr slack(Expr weigh, double tolerance, WeighingStep step) {
        return max(weigh.times(num(tolerance)), num(step.grams()));
    }

    private static Expr rounded(Expr grams, WeighingStep step) {
        return exact(floor(inSteps(grams, step).plus(num(0.5 + WeighingStep.HALF_WITHIN))), step);
    }

    private static Expr inSteps(Expr grams, WeighingStep step) {
        return grams.over(num(step.grams()));
    }

    /** So many steps in g; rounded where the step has few decimals, for 1116 × 0.01 is not 11.16 to a computer. */
    private static Expr exact(Expr steps, WeighingStep step) {
        return new Expr.Call(Expr.Known.ROUND, List.of(steps.times(num(step.grams())), num(decimals(step))));
    }

    private static int decimals(WeighingStep step) {
        BigFraction scaled = step.exactGrams();
        int decimals = 0;
        while (decimals < MOST_DECIMALS && !scaled.getDenominator().equals(java.math.BigInteger.ONE)) {
            scaled = scaled.multiply(10);
            decimals++;
        }
        return decimals;
    }

    private static Expr floor(Expr value) {
        return new Expr.Call(Expr.Known.INT, List.of(value));
    }

    private static Expr max(Expr a, Expr b) {
        return new Expr.Call(Expr.Known.MAX, List.of(a, b));
    }
}
