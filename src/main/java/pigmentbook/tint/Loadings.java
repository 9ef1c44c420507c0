package pigmentbook.tint;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Density;

/**
 * The loadings of a recipe or of what was poured, in percent of mixed resin and by pigment id. A concentrate counts as
 * the pigment it holds, for its carrier is part A.
 */
public final class Loadings {

    private static final int MOST_NESTED = 8;

    private Loadings() {}

    /**
     * Returns the loadings that a revision asks for.
     *
     * @throws TintRefusedException if the percents are of part A, and the resin does not say how much of it that is
     */
    public static List<Loading> of(Book book, Recipe.Revision revision) {
        double base = 1;
        if (revision.percentOf() == Recipe.PercentOf.PART_A
                && !revision.pigments().isEmpty()) {
            Resin resin = book.resins().get(revision.resinId());
            MixRatio.Shares shares = resin == null || resin.ratio() == null
                    ? null
                    : resin.ratio().byWeight(gramsPerMl(resin.densityA()), gramsPerMl(resin.densityB()));
            if (shares == null) {
                throw new TintRefusedException("The percents are of part A, but the resin \"" + revision.resinId()
                        + "\" does not say what share of the mix that is. Enter its ratio and both densities.");
            }
            base = shares.a();
        }
        Map<String, Double> percents = new TreeMap<>();
        for (Recipe.PigmentLoading each : revision.pigments()) {
            add(book, percents, each.pigmentId(), each.percent().percent() * base);
        }
        return list(percents);
    }

    /**
     * Returns the loadings weighed in a pour, all cups and layers together: 100 × Σ(actual × lot strength) / (part A +
     * part B + part A that pigments carry), the target where an actual amount is missing; the revision's percents where
     * nothing was weighed.
     *
     * @throws TintRefusedException if neither is known
     */
    public static List<Loading> of(Book book, Pour pour) {
        Map<String, Double> grams = new TreeMap<>();
        double partA = 0;
        double partB = 0;
        double carried = 0;
        boolean weighed = false;
        for (Pour.Layer layer : pour.layers()) {
            for (Pour.Cup cup : layer.cups()) {
                for (Pour.Weighed each : cup.weighed()) {
                    weighed |= each.actual() != null || each.target() != null;
                    if (each.item().equals(Item.PART_A)) {
                        partA += each.grams();
                    } else if (each.item().equals(Item.PART_B)) {
                        partB += each.grams();
                    } else {
                        carried += each.grams() * carriedShare(book, each.item().id());
                        add(book, grams, each.item().id(), each.grams() * strength(book, each.lot()));
                    }
                }
            }
        }
        if (!weighed) {
            Recipe.Revision revision = revision(book, pour);
            if (revision == null) {
                throw new TintRefusedException("nothing was weighed, and its recipe is not in the book");
            }
            return of(book, revision);
        }
        if (!(partA + carried > 0) || !(partB > 0)) {
            throw new TintRefusedException("part A or part B was not weighed");
        }
        double resin = partA + partB + carried;
        grams.replaceAll((id, value) -> 100 * value / resin);
        return list(grams);
    }

    /** Returns the revision that was poured, or null where the book lacks it. */
    static Recipe.@Nullable Revision revision(Book book, Pour pour) {
        Recipe recipe = book.recipes().get(pour.recipeId());
        return recipe == null ? null : recipe.revision(pour.revision());
    }

    private static double strength(Book book, @Nullable String lotId) {
        Lot lot = lotId == null ? null : book.lots().get(lotId);
        return lot == null ? 1 : lot.strengthFactor();
    }

    private static double carriedShare(Book book, String pigmentId) {
        Pigment pigment = book.pigments().get(pigmentId);
        Pigment.Carrier carrier = pigment == null ? null : pigment.carrier();
        return carrier != null && carrier.isPartA() ? carrier.share().fraction() : 0;
    }

    private static void add(Book book, Map<String, Double> to, String pigmentId, double amount) {
        String id = pigmentId;
        double pure = amount;
        for (int i = 0; i < MOST_NESTED; i++) {
            Pigment pigment = book.pigments().get(id);
            Pigment.Contains contains = pigment == null ? null : pigment.contains();
            if (contains == null) {
                break;
            }
            id = contains.pigmentId();
            pure *= contains.share().fraction();
        }
        if (pure > 0) {
            to.merge(id, pure, Double::sum);
        }
    }

    private static List<Loading> list(Map<String, Double> percents) {
        List<Loading> list = new ArrayList<>(percents.size());
        percents.forEach((id, percent) -> list.add(new Loading(id, percent)));
        return list;
    }

    private static @Nullable Double gramsPerMl(@Nullable Density density) {
        return density == null ? null : (Double) density.gramsPerMl();
    }
}
