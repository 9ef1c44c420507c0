package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Density;

/**
 * How everything that is weighed follows from one gram of mixed resin (part A and part B, with the part A that pigments
 * carry).
 *
 * @param partA wA, part A's share, carried part A included
 * @param partB wB, part B's share; the two make 1
 * @param densityA density of part A in g/mL, or null
 * @param densityB density of part B in g/mL, or null
 * @param mixedDensity density of the resin without pigments in g/mL, or null where none can be worked out
 * @param pigments the pigments in the order of work
 */
record Proportions(
        double partA,
        double partB,
        @Nullable Double densityA,
        @Nullable Double densityB,
        @Nullable Double mixedDensity,
        List<Mix.PigmentShare> pigments) {

    /**
     * What one item is like.
     *
     * @param gramsPerMl its density, or null where none is stated
     * @param strength its strength as a factor
     */
    record Figures(@Nullable Double gramsPerMl, double strength) {}

    /**
     * Works the proportions of a revision out.
     *
     * @param resin the resin
     * @param revision the formula
     * @param pigments the formula's pigments by item
     * @param figures what each item is like; an item that is missing is as its product says
     * @throws MixRefusedException if the resin states no ratio, states it by volume without both densities, or the
     *     pigments carry more part A than the resin takes
     */
    static Proportions of(
            Resin resin, Recipe.Revision revision, Map<Item, Pigment> pigments, Map<Item, Figures> figures) {
        Double densityA = density(figures.get(Item.PART_A), resin.densityA());
        Double densityB = density(figures.get(Item.PART_B), resin.densityB());
        Parts parts = Parts.of(resin, resin.ratio(), densityA, densityB);
        double partA = parts.a();
        List<Mix.PigmentShare> shares = new ArrayList<>(revision.pigments().size());
        double carried = 0;
        for (Recipe.PigmentLoading loading : revision.pigments()) {
            Item item = Item.of(loading.pigmentId());
            Pigment pigment = pigments.get(item);
            if (pigment == null) {
                throw new IllegalStateException("no pigment for " + item);
            }
            Figures own = figures.get(item);
            double base = revision.percentOf() == Recipe.PercentOf.PART_A ? partA : 1;
            Pigment.Carrier carrier = pigment.carrier();
            Mix.PigmentShare share = new Mix.PigmentShare(
                    item,
                    pigment.name(),
                    loading.percent().fraction() * base,
                    own == null ? 1 : own.strength(),
                    carrier != null && carrier.isPartA() ? carrier.share().fraction() : 0,
                    density(own, pigment.density()));
            carried += share.carriedPartA() * share.perGramOfResin();
            shares.add(share);
        }
        if (carried > partA * (1 + 1e-12)) {
            throw new MixRefusedException("The pigments carry " + Shown.percent(carried) + " part A, more than the "
                    + Shown.percent(partA) + " of the mixed resin that is part A. Lower the percents.");
        }
        return new Proportions(
                partA, parts.b(), densityA, densityB, mixedDensity(resin, parts, densityA, densityB), shares);
    }

    private static @Nullable Double density(@Nullable Figures own, @Nullable Density product) {
        return own != null && own.gramsPerMl() != null
                ? own.gramsPerMl()
                : product == null ? null : (Double) product.gramsPerMl();
    }

    /**
     * The two parts' shares by weight, together 1.
     *
     * @param a part A's share
     * @param b part B's share
     */
    record Parts(double a, double b) {

        /**
         * Works the shares out: a/(a+b) by weight, a·ρA/(a·ρA + b·ρB) by volume.
         *
         * @throws MixRefusedException if there is no ratio, or it is by volume and a density is missing
         */
        static Parts of(Resin resin, @Nullable MixRatio ratio, @Nullable Double densityA, @Nullable Double densityB) {
            if (ratio == null) {
                throw new MixRefusedException(
                        "The resin " + resin.id()
                                + " states no mix ratio. Enter it with its basis, by weight or by volume, from the data sheet.");
            }
            MixRatio.Shares shares = ratio.byWeight(densityA, densityB);
            if (shares == null) {
                throw new MixRefusedException("The resin " + resin.id() + " states its ratio by volume, but "
                        + (densityA == null && densityB == null
                                ? "neither part's density"
                                : densityA == null ? "not part A's density" : "not part B's density")
                        + ". Enter both densities from the data sheet, so that grams can be worked out.");
            }
            return new Parts(shares.a(), shares.b());
        }
    }

    private static @Nullable Double mixedDensity(
            Resin resin, Parts parts, @Nullable Double densityA, @Nullable Double densityB) {
        if (resin.density() != null) {
            return resin.density().gramsPerMl();
        }
        return densityA == null || densityB == null
                ? null
                : (Double) (1 / (parts.a() / densityA + parts.b() / densityB));
    }

    /** Returns the plain part A to weigh for each gram of mixed resin: wA − Σ c·p/strength, not below 0. */
    double plainPartA() {
        return Math.max(0, partA - carriedPartA());
    }

    /** Returns the part A that pigments carry, for each gram of mixed resin. */
    double carriedPartA() {
        double carried = 0;
        for (Mix.PigmentShare pigment : pigments) {
            carried += pigment.carriedPartA() * pigment.perGramOfResin();
        }
        return carried;
    }

    /** Returns everything weighed for each gram of mixed resin. */
    double total() {
        double total = plainPartA() + partB;
        for (Mix.PigmentShare pigment : pigments) {
            total += pigment.perGramOfResin();
        }
        return total;
    }

    /** Returns what is weighed of an item for each gram of mixed resin; 0 for an item that the recipe lacks. */
    double of(Item item) {
        if (item.equals(Item.PART_A)) {
            return plainPartA();
        }
        if (item.equals(Item.PART_B)) {
            return partB;
        }
        for (Mix.PigmentShare pigment : pigments) {
            if (pigment.item().equals(item)) {
                return pigment.perGramOfResin();
            }
        }
        return 0;
    }

    /** Returns the items in the order of work: part A, the pigments, part B. */
    List<Item> items() {
        List<Item> items = new ArrayList<>(pigments.size() + 2);
        items.add(Item.PART_A);
        for (Mix.PigmentShare pigment : pigments) {
            items.add(pigment.item());
        }
        items.add(Item.PART_B);
        return items;
    }

    /**
     * Returns the mL that one gram of mixed resin makes with its pigments: 1/ρ_mix + Σ (p/strength)(1/ρ − c/ρ_A). A
     * pigment without a density counts at ρ_mix, and so does a carrier where part A's is not stated.
     *
     * @throws MixRefusedException if no density of the resin is known
     */
    double mlPerGram(Resin resin) {
        if (mixedDensity == null) {
            throw new MixRefusedException(
                    "The resin " + resin.id() + " states no density, so a volume can't be turned into"
                            + " grams. Enter both parts' densities or the mix's, or ask for a mass.");
        }
        double ml = 1 / mixedDensity;
        for (Mix.PigmentShare pigment : pigments) {
            double own = pigment.gramsPerMl() == null ? mixedDensity : pigment.gramsPerMl();
            double carrier = densityA == null ? mixedDensity : densityA;
            ml += pigment.perGramOfResin() * (1 / own - pigment.carriedPartA() / carrier);
        }
        if (!(ml > 0)) {
            throw new MixRefusedException(
                    "With these densities a gram of the mix has no volume. Check the densities of the"
                            + " pigments and of part A.");
        }
        return ml;
    }
}
