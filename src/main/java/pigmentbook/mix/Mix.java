package pigmentbook.mix;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.book.Mold;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;
import pigmentbook.colour.Lab;

/**
 * The worked-out plan: layers, cups, grams, lots, times, cautions. Masses are in g, volumes in mL, depths in mm.
 *
 * @param recipe the recipe
 * @param revision the revision that is mixed
 * @param resin the resin
 * @param mold the mold, or null for a request without one
 * @param scales the scales that the weights are rounded for
 * @param on the day it is planned for
 * @param roomMl the room in all molds up to the fill, less inserts; null for a request by mass
 * @param targetMl what is to be poured, with shrinkage, soak and allowance; null for a request by mass
 * @param mixedDensity density of the resin without pigments, in g/mL; null where the resin states none and none is
 *     needed
 * @param limitedBy for a request by the shelf: what runs out first; else null
 * @param alsoLimitedBy for a request by the shelf: what would run out next; else null
 * @param shares how each item's mass follows from the mixed resin
 * @param totals the sums over everything
 * @param layers the layers, lowest first
 * @param timeline when what is done
 * @param workingTimeMin the estimated working time in minutes, or null where the data sheet states none
 * @param roomCelsius the room's temperature
 * @param look the colour the recipe is known by, or null
 * @param inputs what else went in, for showing the working
 * @param offers for each pigment amount that its scale can't weigh well, what to do instead
 * @param cautions what to beware of
 * @param ofPour the pour whose weighed amounts are the formula, or null for the revision as it is written
 */
public record Mix(
        Recipe recipe,
        Recipe.Revision revision,
        Resin resin,
        @Nullable Mold mold,
        Scales scales,
        LocalDate on,
        @Nullable Double roomMl,
        @Nullable Double targetMl,
        @Nullable Double mixedDensity,
        @Nullable Item limitedBy,
        @Nullable Item alsoLimitedBy,
        Shares shares,
        Totals totals,
        List<Layer> layers,
        Timeline timeline,
        @Nullable Double workingTimeMin,
        double roomCelsius,
        @Nullable Look look,
        Inputs inputs,
        List<Offer> offers,
        List<Caution> cautions,
        @Nullable String ofPour) {

    private static final double LAST_BITS = 1e-9;

    /** Returns the same mix with what there is to say of it. */
    Mix with(List<Offer> offers, List<Caution> cautions) {
        return with(offers, cautions, ofPour);
    }

    /** Returns the same mix as one of a pour's own amounts, with what is not as it was then. */
    Mix asWeighedIn(String pourId, List<Caution> more) {
        List<Caution> all = new ArrayList<>(more);
        all.addAll(cautions);
        all.sort(Comparator.comparing((Caution caution) -> StandingCautions.ALL.contains(caution))
                .thenComparing(Caution::severity));
        return with(offers, List.copyOf(all), pourId);
    }

    private Mix with(List<Offer> offers, List<Caution> cautions, @Nullable String ofPour) {
        return new Mix(
                recipe,
                revision,
                resin,
                mold,
                scales,
                on,
                roomMl,
                targetMl,
                mixedDensity,
                limitedBy,
                alsoLimitedBy,
                shares,
                totals,
                layers,
                timeline,
                workingTimeMin,
                roomCelsius,
                look,
                inputs,
                offers,
                cautions,
                ofPour);
    }

    /** Returns which formula this is, in words: {@code revision 4}, or {@code as weighed in} a pour. */
    public String formula() {
        return ofPour == null ? "revision " + revision.number() : revision.why();
    }

    /** Returns what no lot on the shelf gives, in g, by item; empty where all is there. */
    public Map<Item, Double> missingGrams() {
        Map<Item, Double> missing = new LinkedHashMap<>();
        for (Layer layer : layers) {
            for (Cup cup : layer.cups()) {
                for (Weighing weighing : cup.items()) {
                    double given = weighing.lots().stream()
                            .mapToDouble(LotGrams::grams)
                            .sum();
                    double lacks = weighing.exactGrams() - given;
                    if (lacks > weighing.exactGrams() * LAST_BITS) {
                        missing.merge(weighing.item(), lacks, Double::sum);
                    }
                }
            }
        }
        return missing;
    }

    /**
     * What went into the figures beside what the records show.
     *
     * @param allowance added to the amount, as a fraction
     * @param shrinkage volume lost on cure, as a fraction
     * @param soakMl what bare wood drinks, in mL
     * @param residueGrams what stays in each cup, in g
     * @param cupMostGrams the most that goes into one cup, in g, or null for no limit
     * @param densityA density of the part A lots taken, in g/mL, or null
     * @param densityB density of the part B lots taken, in g/mL, or null
     */
    public record Inputs(
            double allowance,
            double shrinkage,
            double soakMl,
            double residueGrams,
            @Nullable Double cupMostGrams,
            @Nullable Double densityA,
            @Nullable Double densityB) {}

    /**
     * What to do where a scale can't weigh a pigment well.
     *
     * @param layer the layer whose cups it is about
     * @param pigment the pigment
     * @param name its name
     * @param grams what a cup needs, in g
     * @param leastGrams the least its scale weighs to 2 %, in g
     * @param batchFactor how many times bigger the batch would have to be
     * @param finerStepGrams the step of a scale that could weigh it to 2 %, in g
     * @param concentrate the same from a concentrate on the shelf, or null for none
     */
    public record Offer(
            int layer,
            Item pigment,
            String name,
            double grams,
            double leastGrams,
            double batchFactor,
            double finerStepGrams,
            @Nullable Concentrate concentrate) {}

    /**
     * A pigment's amount taken from a concentrate.
     *
     * @param id the concentrate's id
     * @param name its name
     * @param grams how much of it a cup takes, in g
     * @param plainPartASaved the plain part A that its carrier stands for, in g
     */
    public record Concentrate(String id, String name, double grams, double plainPartASaved) {}

    /**
     * The scales and the cup that the weights are meant for.
     *
     * @param resin for part A and part B
     * @param fine for pigments
     * @param cupTareGrams the empty cup's mass that the display shows too, 0 when it is set to zero first
     */
    public record Scales(Settings.Scale resin, Settings.Scale fine, double cupTareGrams) {}

    /**
     * The colour a recipe is known by.
     *
     * @param lab the colour as read
     * @param depthMm the depth it was read at, or null
     * @param backing what lay behind, in words, or null
     */
    public record Look(
            Lab lab, @Nullable Double depthMm, @Nullable String backing) {}

    /**
     * How each item's mass follows from the mixed resin M.
     *
     * @param partA wA, part A's weight share of M, carried part A included
     * @param partB wB = 1 − wA
     * @param pigments the pigments in the order of work
     */
    public record Shares(double partA, double partB, List<PigmentShare> pigments) {}

    /**
     * How one pigment's mass follows from the mixed resin.
     *
     * @param item the pigment
     * @param name its name
     * @param fractionOfResin p, the fraction of mixed resin that the recipe asks for
     * @param strength the lot's strength as a factor
     * @param carriedPartA c, the share of it that is part A
     * @param gramsPerMl the density of the lots taken, or null where none is stated
     */
    public record PigmentShare(
            Item item,
            String name,
            double fractionOfResin,
            double strength,
            double carriedPartA,
            @Nullable Double gramsPerMl) {

        /** Returns the grams to weigh for each gram of mixed resin: p / strength. */
        public double perGramOfResin() {
            return fractionOfResin / strength;
        }
    }

    /**
     * The sums over all layers and cups, exact, in g.
     *
     * @param mixedResinGrams M: part A, part B and the part A that pigments carry
     * @param partAGrams the plain part A to weigh
     * @param partBGrams part B
     * @param pigmentGrams each pigment, in the order of work
     * @param totalGrams everything weighed
     * @param itemCosts what each item costs, but for those whose lots state no price
     * @param cost what it costs, or null if a price is missing
     */
    public record Totals(
            double mixedResinGrams,
            double partAGrams,
            double partBGrams,
            Map<Item, Double> pigmentGrams,
            double totalGrams,
            Map<Item, Cost> itemCosts,
            @Nullable Cost cost) {

        /** Returns an item's grams, exact. */
        public double grams(Item item) {
            return item.equals(Item.PART_A)
                    ? partAGrams
                    : item.equals(Item.PART_B) ? partBGrams : pigmentGrams.getOrDefault(item, 0.0);
        }
    }

    /**
     * What a mix costs.
     *
     * @param amount the amount, unrounded
     * @param currency its currency
     */
    public record Cost(double amount, String currency) {}

    /**
     * One layer.
     *
     * @param number 1 for the lowest
     * @param fromMm the height it starts at, or null for a request without depth
     * @param toMm the height it reaches, or null for a request without depth
     * @param roomMl its room, or null for a request by mass
     * @param targetMl what is to be poured, or null for a request by mass
     * @param startHours when it can be poured at the earliest, in hours after the first
     * @param cups its cups, all equal
     */
    public record Layer(
            int number,
            @Nullable Double fromMm,
            @Nullable Double toMm,
            @Nullable Double roomMl,
            @Nullable Double targetMl,
            double startHours,
            List<Cup> cups) {}

    /**
     * One mixed container.
     *
     * @param number 1 for the layer's first
     * @param totalGrams the exact sum of its items
     * @param items the items in the order of work: part A, the pigments, part B
     * @param achieved what the rounding to the scales does
     */
    public record Cup(int number, double totalGrams, List<Weighing> items, Achieved achieved) {}

    /**
     * One item to weigh into a cup. Masses are in g.
     *
     * @param item the item
     * @param name its name
     * @param exactGrams the exact mass
     * @param weighGrams the mass to weigh, a multiple of the scale's step
     * @param lowGrams the least that will do, a multiple of the step
     * @param highGrams the most that will do, a multiple of the step
     * @param toleranceLow how far below the target will do, as a fraction of it
     * @param toleranceHigh how far above the target will do, as a fraction of it
     * @param displayGrams what the display shows when it is in: for the parts the cup and all so far, for a pigment its
     *     own
     * @param scale the scale it is weighed on
     * @param relativeError what rounding does to it, as a fraction of the exact mass; 0 where the exact mass is 0
     * @param lots the lots it is taken from, the first one first; empty when there is none
     */
    public record Weighing(
            Item item,
            String name,
            double exactGrams,
            double weighGrams,
            double lowGrams,
            double highGrams,
            double toleranceLow,
            double toleranceHigh,
            double displayGrams,
            Settings.Scale scale,
            double relativeError,
            List<LotGrams> lots) {}

    /**
     * How much comes from which lot.
     *
     * @param lotId the lot's id
     * @param grams how much of it
     */
    public record LotGrams(String lotId, double grams) {}

    /**
     * What the rounding to the scales does to a cup.
     *
     * @param ratio A/B by weight as weighed, carried part A counted
     * @param ratioError its relative error, as a fraction of the ratio meant
     */
    public record Achieved(double ratio, double ratioError) {}

    /**
     * How one figure comes about.
     *
     * @param figure the figure's name
     * @param value its value
     * @param unit its unit, empty for a plain number
     * @param formula the formula in words and signs
     * @param from the values that went in, in words
     */
    public record Working(String figure, double value, String unit, String formula, String from) {}
}
