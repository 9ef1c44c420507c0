package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.LocalDate;
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
        if (!(changed.get("revisions") instanceof ArrayNode revisions) || revisions.isEmpty()) {
            throw new SaveFailedException(current.file()
                    + " has no revisions to add to. Look at it with the command check. Nothing was changed.");
        }
        int number = 1 + revisions.get(revisions.size() - 1).path("number").asInt();
        Recipe.Revision formula = asPoured.revision();
        ObjectNode revision = revisions.addObject();
        revision.put("number", number);
        revision.put("date", today.toString());
        revision.put("resin", formula.resinId());
        revision.put("percentOf", formula.percentOf().words());
        ArrayNode pigments = revision.putArray("pigments");
        for (Recipe.PigmentLoading loading : formula.pigments()) {
            String percent = new BigDecimal(loading.percent().percent())
                            .round(DIGITS)
                            .stripTrailingZeros()
                            .toPlainString()
                    + " %";
            pigments.addObject().put("pigment", loading.pigmentId()).put("percent", percent);
        }
        String link = formula.why();
        revision.put("why", why.isBlank() ? link : why.strip() + " (" + link + ")");
        revision.put("ofPour", asPoured.pour().id());
        writer.save(Kind.RECIPE, recipe, current.version(), changed);
        return number;
    }
}
