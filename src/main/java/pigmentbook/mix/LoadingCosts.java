package pigmentbook.mix;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.tint.Loading;

/** What loadings cost that are no recipe yet. */
public final class LoadingCosts {

    private static final double GRAMS = 1000;

    private LoadingCosts() {}

    /**
     * Returns what a mix of 1 kg of mixed resin with its pigments costs, from the lots it would be taken from.
     *
     * @param loadings what is in it, percent of mixed resin
     * @param on the day used for expiry
     * @return the cost in the book's currency, or null where a price is missing or it can't be mixed
     */
    public static @Nullable Double perKilogram(Book book, String resinId, List<Loading> loadings, LocalDate on) {
        List<Recipe.PigmentLoading> pigments = loadings.stream()
                .map(each -> new Recipe.PigmentLoading(each.pigmentId(), Percent.of(each.percent())))
                .toList();
        Recipe.Revision revision = new Recipe.Revision(1, null, resinId, Recipe.PercentOf.MIXED_RESIN, pigments, "");
        Recipe recipe = new Recipe("match", "", List.of(), List.of(revision), List.of(), null, "");
        try {
            Mix.Cost cost = Mixer.mix(
                            book, recipe, revision, MixRequest.of(new MixRequest.ForResin(Mass.ofGrams(GRAMS)), on))
                    .totals()
                    .cost();
            return cost == null ? null : (Double) cost.amount();
        } catch (MixRefusedException e) {
            return null;
        }
    }
}
