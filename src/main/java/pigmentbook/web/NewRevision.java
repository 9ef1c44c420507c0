package pigmentbook.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Map;
import java.util.TreeMap;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Percent;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.BookWriter;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** Keeps a changed formula as a new revision; the saved ones stay as they are. */
final class NewRevision {

    private static final String PERCENT_OF = "percent-";

    private NewRevision() {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.post("/recipes/{id}/revisions", context -> {
            try {
                int number = save(context, book, LocalDate.now(clock));
                context.contentType("text/plain; charset=utf-8").result(String.valueOf(number));
            } catch (BadAmountException | SaveFailedException e) {
                told(context, HttpStatus.UNPROCESSABLE_CONTENT, String.valueOf(e.getMessage()));
            } catch (ConflictException e) {
                told(
                        context,
                        HttpStatus.CONFLICT,
                        "This recipe was changed elsewhere meanwhile. What you typed stays here: open the recipe in another"
                                + " window, compare, and save again from there.");
            }
        });
    }

    private static void told(Context context, HttpStatus status, String text) {
        context.status(status).contentType("text/plain; charset=utf-8").result(text);
    }

    private static int save(Context context, LiveBook live, LocalDate today)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Book book = live.now().book();
        Recipe recipe = RecipePage.recipe(book, context.pathParam("id"));
        Map<String, String> percents = percents(context, book);
        BookWriter writer = live.writer();
        BookWriter.Current current = writer.read(Kind.RECIPE, recipe.id());
        ObjectNode changed = current.record().deepCopy();
        if (!(changed.get("revisions") instanceof ArrayNode revisions)) {
            throw new NotThereException(
                    "The recipe's file has no revisions to add to. Look at it with the command check.");
        }
        int number = recipe.current().number() + 1;
        ObjectNode revision = revisions.addObject();
        revision.put("number", number);
        revision.put("date", today.toString());
        revision.put("resin", recipe.current().resinId());
        revision.put("percentOf", recipe.current().percentOf().words());
        ArrayNode pigments = revision.putArray("pigments");
        for (Recipe.PigmentLoading loading : recipe.current().pigments()) {
            add(pigments, loading.pigmentId(), percents.remove(loading.pigmentId()));
        }
        percents.forEach((pigment, percent) -> add(pigments, pigment, percent));
        String why = context.formParam("why");
        revision.put("why", why == null ? "" : why.strip());
        String base = context.formParam("base");
        writer.save(Kind.RECIPE, recipe.id(), base == null ? "" : base, changed);
        live.reread();
        return number;
    }

    private static void add(ArrayNode pigments, String pigment, @org.jspecify.annotations.Nullable String percent) {
        if (percent != null && !percent.isEmpty()) {
            pigments.addObject().put("pigment", pigment).put("percent", percent);
        }
    }

    /** Returns what was typed for each pigment, as it was typed; an empty one leaves the pigment out. */
    private static Map<String, String> percents(Context context, Book book) {
        Map<String, String> percents = new TreeMap<>();
        context.formParamMap().forEach((name, values) -> {
            if (name.startsWith(PERCENT_OF) && !values.isEmpty()) {
                put(
                        percents,
                        book,
                        name.substring(PERCENT_OF.length()),
                        values.get(0).strip());
            }
        });
        String added = context.formParam("added");
        String addedPercent = context.formParam("added-percent");
        if (added != null && !added.isEmpty() && addedPercent != null) {
            if (percents.containsKey(added)) {
                throw new BadAmountException("The recipe has " + added + " already. Change its percent above.");
            }
            put(percents, book, added, addedPercent.strip());
        }
        return percents;
    }

    private static void put(Map<String, String> percents, Book book, String pigment, String percent) {
        if (!book.pigments().containsKey(pigment)) {
            throw new BadAmountException("There is no pigment \"" + pigment + "\" on the shelf.");
        }
        if (!percent.isEmpty()) {
            try {
                Percent.parse(percent);
            } catch (BadAmountException e) {
                throw new BadAmountException(pigment + ": " + e.getMessage());
            }
        }
        percents.put(pigment, percent);
    }
}
