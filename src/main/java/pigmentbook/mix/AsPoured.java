package pigmentbook.mix;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;

/**
 * A pour as a recipe: the percents that were really weighed, cups and layers summed. With M the grams of part A, part B
 * and the part A that pigments carried, a pigment's fraction is its grams × the strength of the lot used / M. The resin
 * keeps the ratio of its data sheet; the one that was really weighed is told beside it.
 *
 * @param pour the pour
 * @param recipe its recipe
 * @param written the revision it was poured after, or null where the recipe has it no more
 * @param revision the formula as really weighed, percent of mixed resin
 * @param partAGrams the part A weighed, carried part A included, in g
 * @param partBGrams the part B weighed, in g
 * @param lots the lots each item was taken from
 */
public record AsPoured(
        Pour pour,
        Recipe recipe,
        Recipe.@Nullable Revision written,
        Recipe.Revision revision,
        double partAGrams,
        double partBGrams,
        Map<Item, Set<String>> lots) {

    /**
     * Reads a pour as a recipe.
     *
     * @param book the book
     * @param pour the pour
     * @param layer the one layer that counts, from 1, or null for all
     * @throws MixRefusedException if nothing was weighed, or what is needed to read it is not in the book
     */
    public static AsPoured of(Book book, Pour pour, @Nullable Integer layer) {
        Recipe recipe = book.recipes().get(pour.recipeId());
        if (recipe == null) {
            throw new MixRefusedException("The pour " + pour.id() + " is of the recipe \"" + pour.recipeId()
                    + "\", which is not in the book."
                    + NearIds.hint(pour.recipeId(), book.recipes().keySet()));
        }
        Sums sums = new Sums(book, pour);
        sums.add(layers(pour, layer));
        double resinGrams = sums.resinGrams();
        if (!(resinGrams > 0)) {
            throw new MixRefusedException("Nobody wrote down how much resin went into " + pour.id()
                    + ", so its percents can't be worked out. Mix " + recipe.id() + " as it is written.");
        }
        Recipe.Revision written = recipe.revision(pour.revision());
        List<Recipe.PigmentLoading> loadings = new ArrayList<>();
        sums.colouring.forEach((item, grams) -> {
            if (grams > 0) {
                double fraction = grams / resinGrams;
                loadings.add(new Recipe.PigmentLoading(
                        item.id(), new Percent(Numbers.exact(100 * fraction), Shown.percent(fraction))));
            }
        });
        Recipe.Revision revision = new Recipe.Revision(
                pour.revision(),
                pour.started() == null ? null : pour.started().toLocalDate(),
                (written == null ? recipe.current() : written).resinId(),
                Recipe.PercentOf.MIXED_RESIN,
                loadings,
                "as weighed in " + pour.id());
        return new AsPoured(
                pour, recipe, written, revision, sums.partA + sums.carried, sums.partB, Map.copyOf(sums.lots));
    }

    private static List<Pour.Layer> layers(Pour pour, @Nullable Integer layer) {
        if (layer == null) {
            return pour.layers();
        }
        int count = pour.layers().size();
        if (layer < 1 || layer > count) {
            throw new MixRefusedException("The pour " + pour.id() + " has "
                    + (count == 0 ? "no layers" : count == 1 ? "one layer" : "layers 1 to " + count) + ", not a layer "
                    + layer + ".");
        }
        return List.of(pour.layers().get(layer - 1));
    }

    /**
     * Works the pour's formula out for a new size, from today's lots.
     *
     * @throws MixRefusedException if the request can't be met
     */
    public Mix mix(Book book, MixRequest request) {
        Mix mix = Mixer.mix(book, asReadThere(), revision, request);
        return mix.asWeighedIn(pour.id(), AgainCautions.of(book, this, mix));
    }

    /** The recipe known by a reading of this very pour, where it was read at a depth. */
    private Recipe asReadThere() {
        if (recipe.look() != null && recipe.look().pourId().equals(pour.id())) {
            return recipe;
        }
        for (int i = 0; i < pour.readings().size(); i++) {
            if (pour.readings().get(i).depth() != null) {
                return recipe.with(new Recipe.LookAt(pour.id(), i));
            }
        }
        return recipe;
    }

    /** Returns part A to part B by weight as really weighed, carried part A counted; null without part B. */
    public @Nullable Double ratio() {
        return partBGrams > 0 ? (Double) (partAGrams / partBGrams) : null;
    }

    /**
     * Returns how far the ratio was from the data sheet's, as a fraction of it; null where one of them is not known.
     */
    public @Nullable Double ratioError(Resin resin) {
        Double ratio = ratio();
        if (ratio == null || resin.ratio() == null) {
            return null;
        }
        Proportions.Parts parts = Proportions.Parts.of(
                resin,
                resin.ratio(),
                resin.densityA() == null ? null : (Double) resin.densityA().gramsPerMl(),
                resin.densityB() == null ? null : (Double) resin.densityB().gramsPerMl());
        return ratio * parts.b() / parts.a() - 1;
    }

    /** Returns a pigment's percent of mixed resin as the revision was written, 0 where it lacks the pigment. */
    public double writtenPercent(Book book, String pigmentId) {
        if (written == null) {
            return 0;
        }
        Resin resin = book.resins().get(written.resinId());
        for (Recipe.PigmentLoading loading : written.pigments()) {
            if (loading.pigmentId().equals(pigmentId)) {
                double base = resin == null || written.percentOf() == Recipe.PercentOf.MIXED_RESIN
                        ? 1
                        : Proportions.of(resin, emptied(written), Map.of(), Map.of())
                                .partA();
                return loading.percent().percent() * base;
            }
        }
        return 0;
    }

    /** Returns how everything that was weighed follows from one gram of mixed resin, on the products' densities. */
    Proportions proportions(Book book, Resin resin) {
        Map<Item, Pigment> pigments = new LinkedHashMap<>();
        for (Recipe.PigmentLoading loading : revision.pigments()) {
            Pigment pigment = book.pigments().get(loading.pigmentId());
            if (pigment != null) {
                pigments.put(Item.of(loading.pigmentId()), pigment);
            }
        }
        return Proportions.of(resin, revision, pigments, Map.of());
    }

    private static Recipe.Revision emptied(Recipe.Revision revision) {
        return new Recipe.Revision(
                revision.number(),
                revision.date(),
                revision.resinId(),
                revision.percentOf(),
                List.of(),
                revision.why());
    }

    /** Adds up what a pour says. */
    private static final class Sums {
        private final Book book;
        private final Pour pour;
        private final Map<Item, Double> colouring = new LinkedHashMap<>();
        private final Map<Item, Set<String>> lots = new LinkedHashMap<>();
        private double partA;
        private double partB;
        private double carried;

        private Sums(Book book, Pour pour) {
            this.book = book;
            this.pour = pour;
        }

        private double resinGrams() {
            return partA + carried + partB;
        }

        private void add(List<Pour.Layer> layers) {
            for (Pour.Layer layer : layers) {
                for (Pour.Cup cup : layer.cups()) {
                    cup.weighed().forEach(this::add);
                }
            }
        }

        private void add(Pour.Weighed weighed) {
            double grams = weighed.grams();
            Item item = weighed.item();
            if (weighed.lot() != null) {
                lots.computeIfAbsent(item, none -> new LinkedHashSet<>()).add(weighed.lot());
            }
            if (item.equals(Item.PART_A)) {
                partA += grams;
            } else if (item.equals(Item.PART_B)) {
                partB += grams;
            } else {
                pigment(weighed, grams);
            }
        }

        private void pigment(Pour.Weighed weighed, double grams) {
            String id = weighed.item().id();
            Pigment pigment = book.pigments().get(id);
            if (pigment == null) {
                throw new MixRefusedException("The pour " + pour.id() + " took the pigment \"" + id
                        + "\", which is not on the shelf."
                        + NearIds.hint(id, book.pigments().keySet()));
            }
            Pigment.Carrier carrier = pigment.carrier();
            if (carrier != null && carrier.isPartA()) {
                carried += grams * carrier.share().fraction();
            }
            Lot lot = weighed.lot() == null ? null : book.lots().get(weighed.lot());
            colouring.merge(weighed.item(), grams * (lot == null ? 1 : lot.strengthFactor()), Double::sum);
        }
    }
}
