package pigmentbook.mix;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;

/** What a formula costs that is in no recipe yet. */
public final class MixCost {

    private static final double KILOGRAM = 1000;

    private MixCost() {}

    /**
     * Returns what a kilogram costs from the lots that would be taken, in the book's currency; null where a price is
     * missing or it can't be mixed.
     *
     * @param percents percent of mixed resin by pigment id
     */
    public static @Nullable Double perKilogram(Book book, String resinId, Map<String, Double> percents, LocalDate on) {
        List<Recipe.PigmentLoading> loadings = new ArrayList<>();
        percents.forEach((id, percent) -> loadings.add(new Recipe.PigmentLoading(id, Percent.of(percent))));
        Recipe.Revision revision = new Recipe.Revision(1, null, resinId, Recipe.PercentOf.MIXED_RESIN, loadings, "");
        Recipe recipe = new Recipe("match", "match", List.of(), List.of(revision), List.of(), null, "");
        try {
            Mix mix = Mixer.mix(
                    book, recipe, revision, MixRequest.of(new MixRequest.ForTotal(Mass.ofGrams(KILOGRAM)), on));
            Mix.Cost cost = mix.totals().cost();
            return cost == null ? null : (Double) cost.amount();
        } catch (MixRefusedException e) {
            return null;
        }
    }
}
