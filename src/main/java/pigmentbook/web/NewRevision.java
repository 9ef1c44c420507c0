package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.BookWriter;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Kind;
import pigmentbook.store.RecipeRecords;
import pigmentbook.store.SaveFailedException;

/** Keeps a changed formula as a new revision; the saved ones stay as they are. */
final class NewRevision {

    private static final int MOST_TEXT = 4_000;

    private NewRevision() {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.post("/recipes/{id}/revisions", context -> {
            try {
                int number = save(context, book, LocalDate.now(clock));
                context.contentType("text/plain; charset=utf-8").result(String.valueOf(number));
            } catch (ConflictException e) {
                book.reread();
                context.header("X-Version", e.version());
                Refusals.tell(context, HttpStatus.CONFLICT, bothSides(e.there()));
            }
        });
    }

    private static int save(Context context, LiveBook live, LocalDate today)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Book book = live.now().book();
        Recipe recipe = RecipePage.recipe(book, context.pathParam("id"));
        Formula formula = Formula.of(context, book, RecipePage.revision(context, recipe), "");
        formula.requireRight();
        BookWriter writer = live.writer();
        BookWriter.Current current = writer.read(Kind.RECIPE, recipe.id());
        ObjectNode changed = current.record().deepCopy();
        Map<String, String> percents = new LinkedHashMap<>(formula.percents());
        percents.values().removeIf(String::isEmpty);
        ObjectNode revision = RecipeRecords.revise(
                changed, today, formula.resin(), formula.percentOf(), percents, Acts.text(context, "why", MOST_TEXT));
        writer.save(Kind.RECIPE, recipe.id(), Acts.text(context, "base", MOST_TEXT), changed);
        live.reread();
        return revision.path("number").asInt();
    }

    /** Tells both sides: what the recipe says there now, and that what was typed is still here. */
    private static String bothSides(JsonNode there) {
        JsonNode last = there.path("revisions").path(there.path("revisions").size() - 1);
        StringBuilder formula = new StringBuilder();
        last.path("pigments")
                .forEach(each -> formula.append(formula.length() == 0 ? "" : ", ")
                        .append(each.path("pigment").asText())
                        .append(' ')
                        .append(each.path("percent").asText()));
        return "This recipe was changed elsewhere meanwhile. There its last revision is "
                + last.path("number").asText() + ": " + (formula.length() == 0 ? "clear resin" : formula)
                + ". What you typed stands here and is not saved. Save again to keep yours on top of it, or load the page"
                + " anew to go on from theirs.";
    }
}
