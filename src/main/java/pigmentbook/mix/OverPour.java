package pigmentbook.mix;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pigment;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.WeighingStep;

/**
 * What to add to a cup that got too much of something: f = max(actual/target, 1) over the items, each new target is f ×
 * target, and what is added is the new target less what is in the cup. Nothing is ever to be taken out.
 *
 * @param factor f, 1 where nothing is over
 * @param addGrams what to add of each item in the order of work, in g; 0 where there is enough
 * @param weighGrams the same, rounded to the scale
 * @param newTotalGrams what the cup holds then, in g
 * @param cautions what to beware of, and what is left to choose where it no longer fits
 */
public record OverPour(
        double factor,
        Map<Item, Double> addGrams,
        Map<Item, Double> weighGrams,
        double newTotalGrams,
        List<Caution> cautions) {

    /** An amount within this share of its target is on it. */
    private static final double LAST_BITS = 1e-12;

    /** Without a stated window a ratio this far off must be mended: common practice, no source. */
    private static final double RATIO_WINDOW = 0.02;

    /**
     * What a cup was meant to hold, and what is in it.
     *
     * @param totalGrams everything that was to be weighed, in g; null where the resin is given
     * @param resinGrams the mixed resin it was meant for, in g; null where the total is given
     * @param inCup what is in the cup, by item, in g; part A is the plain part A
     * @param cupMost the most the cup takes, or null for the book's
     * @param layerMostGrams the most the layer takes, in g, or null where it is not known
     */
    public record Cup(
            @Nullable Double totalGrams,
            @Nullable Double resinGrams,
            Map<Item, Double> inCup,
            @Nullable Mass cupMost,
            @Nullable Double layerMostGrams) {}

    /**
     * Works out what to add.
     *
     * @throws MixRefusedException if the cup holds something the recipe takes none of, an amount is negative or no
     *     number, or nothing says how much was meant
     */
    public static OverPour of(Book book, Recipe recipe, Recipe.Revision revision, Cup cup) {
        Resin resin = book.resins().get(revision.resinId());
        if (resin == null) {
            throw new MixRefusedException("The resin \"" + revision.resinId() + "\" is not on the shelf."
                    + NearIds.hint(revision.resinId(), book.resins().keySet()));
        }
        Map<Item, Pigment> pigments = pigments(book, revision);
        Proportions proportions = Proportions.of(resin, revision, pigments, Map.of());
        double meant = resinGrams(cup, proportions);
        Map<Item, Double> targets = new LinkedHashMap<>();
        proportions.items().forEach(item -> targets.put(item, proportions.of(item) * meant));
        return of(book, resin, recipe.id(), targets, cup);
    }

    /**
     * Works out what to add to a cup whose targets are known.
     *
     * @param recipeId whose cup it is, for what is told
     * @param targets what the cup was meant to hold, by item in the order of work, in g; part A is the plain part A
     * @throws MixRefusedException if the cup holds something that has no target
     */
    public static OverPour of(Book book, Resin resin, String recipeId, Map<Item, Double> targets, Cup cup) {
        double factor = factor(recipeId, targets, cup.inCup());
        Map<Item, Double> add = new LinkedHashMap<>();
        Map<Item, Double> weigh = new LinkedHashMap<>();
        double meant = 0;
        for (Map.Entry<Item, Double> target : targets.entrySet()) {
            Item item = target.getKey();
            double more = Math.max(0, factor * target.getValue() - cup.inCup().getOrDefault(item, 0.0));
            WeighingStep step = (item.isPigment()
                            ? book.settings().fineScale()
                            : book.settings().resinScale())
                    .step();
            add.put(item, more);
            weigh.put(item, step.round(more));
            meant += target.getValue();
        }
        Told told = new Told(book, resin, cup, factor);
        told.overs(targets);
        told.ratioAsIs();
        told.partB();
        told.fits(
                factor * meant,
                factor * told.resinGrams(targets),
                cup.cupMost() != null ? cup.cupMost() : book.settings().cup());
        told.found.addAll(StandingCautions.ALL);
        return new OverPour(factor, add, weigh, factor * meant, List.copyOf(told.found));
    }

    private static Map<Item, Pigment> pigments(Book book, Recipe.Revision revision) {
        Map<Item, Pigment> pigments = new HashMap<>();
        for (Recipe.PigmentLoading loading : revision.pigments()) {
            Pigment pigment = book.pigments().get(loading.pigmentId());
            if (pigment == null) {
                throw new MixRefusedException("The pigment \"" + loading.pigmentId() + "\" is not on the shelf."
                        + NearIds.hint(loading.pigmentId(), book.pigments().keySet()));
            }
            pigments.put(Item.of(loading.pigmentId()), pigment);
        }
        return pigments;
    }

    private static double resinGrams(Cup cup, Proportions proportions) {
        Double resin = cup.resinGrams();
        Double total = cup.totalGrams();
        if ((resin == null) == (total == null)) {
            throw new MixRefusedException(
                    "How much was the cup meant to hold? Give resin_g or total_g, one of the two, in grams.");
        }
        double meant = resin != null ? resin : total == null ? 0 : total / proportions.total();
        if (!(meant > 0) || !Double.isFinite(meant)) {
            throw new MixRefusedException("The cup must have been meant for more than 0 g.");
        }
        return meant;
    }

    private static double factor(String recipeId, Map<Item, Double> targets, Map<Item, Double> inCup) {
        double factor = 1;
        for (Map.Entry<Item, Double> each : inCup.entrySet()) {
            double grams = each.getValue();
            if (!(grams >= 0) || !Double.isFinite(grams)) {
                throw new MixRefusedException("In the cup there are \"" + Numbers.plain(grams) + "\" g of "
                        + each.getKey() + "; a number of grams, 0 or more, was expected.");
            }
            Double target = targets.get(each.getKey());
            if (target == null) {
                throw new MixRefusedException("The recipe " + recipeId + " takes no \"" + each.getKey() + "\"."
                        + NearIds.hint(
                                each.getKey().id(),
                                targets.keySet().stream().map(Item::id).toList()));
            }
            if (target > 0) {
                factor = Math.max(factor, grams / target);
            } else if (grams > 0) {
                throw new MixRefusedException("The recipe takes 0 g of " + each.getKey() + " and the cup holds "
                        + Shown.grams(grams) + "; adding the others can't mend that. Begin the cup anew.");
            }
        }
        if (!Double.isFinite(factor)) {
            throw new MixRefusedException("The cup holds too much for the others to follow. Begin the cup anew.");
        }
        return factor;
    }

    /** Says what to beware of. */
    private static final class Told {
        private final Book book;
        private final Resin resin;
        private final Cup cup;
        private final double factor;
        private final List<Caution> found = new ArrayList<>();

        private Told(Book book, Resin resin, Cup cup, double factor) {
            this.book = book;
            this.resin = resin;
            this.cup = cup;
            this.factor = factor;
        }

        private void add(String code, Caution.Severity severity, String text, String basis) {
            found.add(new Caution(code, severity, text, basis));
        }

        private double inCup(Item item) {
            return cup.inCup().getOrDefault(item, 0.0);
        }

        /** Returns part A, the part A that pigments carry, and part B together, in g. */
        private double resinGrams(Map<Item, Double> grams) {
            double resinGrams = 0;
            for (Map.Entry<Item, Double> each : grams.entrySet()) {
                Pigment pigment = book.pigments().get(each.getKey().id());
                Pigment.Carrier carrier = pigment == null ? null : pigment.carrier();
                double share = !each.getKey().isPigment()
                        ? 1
                        : carrier != null && carrier.isPartA() ? carrier.share().fraction() : 0;
                resinGrams += share * each.getValue();
            }
            return resinGrams;
        }

        private void overs(Map<Item, Double> targets) {
            List<String> over = new ArrayList<>();
            targets.forEach((item, target) -> {
                if (inCup(item) > target * (1 + LAST_BITS)) {
                    over.add(item + " by " + Shown.grams(inCup(item) - target));
                }
            });
            if (!over.isEmpty()) {
                add(
                        "over-poured",
                        Caution.Severity.WARN,
                        "Over: " + String.join(", ", over) + ". With what is added the cup grows to "
                                + Shown.significant(factor) + " times what was meant and the colour stays right.",
                        "arithmetic: every item × " + Shown.significant(factor));
            }
        }

        /** Both parts in already: says whether the cup would cure as it is. */
        private void ratioAsIs() {
            double partB = inCup(Item.PART_B);
            double partA = resinGrams(cup.inCup()) - partB;
            MixRatio ratio = resin.ratio();
            if (!(partB > 0) || !(partA > 0) || ratio == null || !(factor > 1)) {
                return;
            }
            Proportions.Parts parts = Proportions.Parts.of(
                    resin,
                    ratio,
                    resin.densityA() == null ? null : (Double) resin.densityA().gramsPerMl(),
                    resin.densityB() == null ? null : (Double) resin.densityB().gramsPerMl());
            double error = partA / partB * parts.b() / parts.a() - 1;
            MixRatio.Window window = ratio.window();
            double inBasis = ratio.ratio().quotient() * (1 + error);
            boolean within = window == null
                    ? Math.abs(error) <= RATIO_WINDOW
                    : inBasis >= window.least().doubleValue()
                            && inBasis <= window.most().doubleValue();
            String off = "As it is, part A to part B is " + Shown.percent(Math.abs(error))
                    + (error < 0 ? " under" : " over") + " the resin's ratio";
            String basis = window == null ? Caution.COMMON_PRACTICE : Caution.DATA_SHEET;
            if (within) {
                add(
                        "ratio-holds",
                        Caution.Severity.NOTE,
                        off + ", within what it accepts: it may also stay as it is, with the colour a little off.",
                        basis);
            } else {
                add(
                        "ratio-must-be-mended",
                        Caution.Severity.STOP,
                        off + ", outside what it accepts: add what is missing, or throw the cup away.",
                        basis);
            }
        }

        private void partB() {
            if (inCup(Item.PART_B) > 0 && factor > 1) {
                add(
                        "part-b-is-in",
                        Caution.Severity.WARN,
                        "Part B is in, so the time runs: add at once, stir again, and pour by the time that was"
                                + " planned; a bigger cup also heats up faster.",
                        Caution.COMMON_PRACTICE);
            }
        }

        private void fits(double totalGrams, double resinGrams, @Nullable Mass cupMost) {
            if (cupMost != null && totalGrams > cupMost.grams() * (1 + LAST_BITS)) {
                add(
                        "cup-too-small",
                        Caution.Severity.STOP,
                        "The cup would hold " + Shown.grams(totalGrams) + ", more than its "
                                + Shown.grams(cupMost.grams())
                                + ". Pour over into a bigger cup before adding, or part the cup in two and mend each, or"
                                + " throw it away.",
                        "the cup size asked for");
            }
            Mass batch = resin.batchMost();
            if (batch != null && resinGrams > batch.grams() * (1 + LAST_BITS)) {
                add(
                        "batch-too-big",
                        Caution.Severity.STOP,
                        "That is " + Shown.grams(resinGrams) + " of mixed resin in one cup, more than the resin's "
                                + Shown.grams(batch.grams())
                                + ": it can run hot. Part it in two before part B goes in, or throw it away.",
                        Caution.DATA_SHEET);
            }
            Double layer = cup.layerMostGrams();
            if (layer != null && totalGrams > layer * (1 + LAST_BITS)) {
                add(
                        "layer-too-small",
                        Caution.Severity.WARN,
                        "The layer takes " + Shown.grams(layer) + "; " + Shown.grams(totalGrams - layer)
                                + " will be left over. Have a sample mold ready, or spread it thin in a tray.",
                        "the mold's room");
            }
        }
    }
}
