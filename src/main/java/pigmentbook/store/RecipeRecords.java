package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Recipe;

/** A recipe's record as it is begun, and as a revision is put to it. */
public final class RecipeRecords {

    private RecipeRecords() {}

    /** Returns a recipe without any revision yet. */
    public static ObjectNode begun(String id, String name, List<String> tags) {
        ObjectNode recipe = JsonNodeFactory.instance.objectNode();
        recipe.put("id", id).put("name", name);
        ArrayNode words = recipe.putArray("tags");
        tags.forEach(words::add);
        recipe.putArray("revisions");
        recipe.putArray("steps");
        recipe.putNull("look").put("notes", "");
        return recipe;
    }

    /**
     * Puts a revision after those that are there, with the number that follows theirs.
     *
     * @param recipe the record; it is changed
     * @param percents percents as they are written, such as {@code 1.2 %}, by pigment, in the order of work
     * @return the revision in the record
     * @throws SaveFailedException if the record has no list of revisions
     */
    public static ObjectNode revise(
            ObjectNode recipe,
            LocalDate date,
            String resin,
            Recipe.PercentOf percentOf,
            Map<String, String> percents,
            String why)
            throws SaveFailedException {
        if (!(recipe.get("revisions") instanceof ArrayNode revisions)) {
            throw new SaveFailedException("The recipe's file has no revisions to add to. Look at it with the command"
                    + " check. Nothing was changed.");
        }
        int last = revisions.path(revisions.size() - 1).path("number").asInt();
        ObjectNode revision = revisions.addObject();
        revision.put("number", last + 1)
                .put("date", date.toString())
                .put("resin", resin)
                .put("percentOf", percentOf.words());
        ArrayNode pigments = revision.putArray("pigments");
        percents.forEach((pigment, percent) ->
                pigments.addObject().put("pigment", pigment).put("percent", percent));
        revision.put("why", why);
        return revision;
    }
}
