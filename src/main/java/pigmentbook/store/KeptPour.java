package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;
import pigmentbook.book.Recipe;
import pigmentbook.mix.AsPoured;

/** Keeps a pour's own amounts as a new revision of its recipe, with a link to the pour. */
public final class KeptPour {

    /** More digits than any scale shows, and still short to read. */
    private static final MathContext DIGITS = new MathContext(6);

    private KeptPour() {}

    /**
     * Keeps it.
     *
     * @param writer saves into the book
     * @param asPoured the pour as a recipe
     * @param why why it is kept; empty for the link alone
     * @param today the revision's date
     * @return the new revision's number
     * @throws SaveFailedException if the recipe's file can't be read or written
     * @throws ConflictException if somebody changed the recipe in this very moment
     */
    public static int keep(BookWriter writer, AsPoured asPoured, String why, LocalDate today)
            throws SaveFailedException, ConflictException {
        String recipe = asPoured.recipe().id();
        BookWriter.Current current = writer.read(Kind.RECIPE, recipe);
        ObjectNode changed = current.record().deepCopy();
        Recipe.Revision formula = asPoured.revision();
        Map<String, String> percents = new LinkedHashMap<>();
        for (Recipe.PigmentLoading loading : formula.pigments()) {
            String percent = new BigDecimal(loading.percent().percent())
                            .round(DIGITS)
                            .stripTrailingZeros()
                            .toPlainString()
                    + " %";
            percents.put(loading.pigmentId(), percent);
        }
        String link = formula.why();
        ObjectNode revision = RecipeRecords.revise(
                changed,
                today,
                formula.resinId(),
                formula.percentOf(),
                percents,
                why.isBlank() ? link : why.strip() + " (" + link + ")");
        revision.put("ofPour", asPoured.pour().id());
        writer.save(Kind.RECIPE, recipe, current.version(), changed);
        return revision.path("number").asInt();
    }
}
