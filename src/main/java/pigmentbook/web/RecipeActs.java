package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.BookWriter;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Kind;
import pigmentbook.store.NewBook;
import pigmentbook.store.RecipeRecords;
import pigmentbook.store.SaveFailedException;

/**
 * New recipes, copies, and putting away. A recipe is put away by a tag of its own: it is kept in the book and out of
 * sight, and found again by that tag. Nothing is ever destroyed.
 */
final class RecipeActs {

    /** The tag of a recipe that is out of sight. */
    static final String PUT_AWAY = "put-away";

    private static final int MOST_TEXT = 200;

    private RecipeActs() {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.post(
                "/recipes", context -> Acts.done(context, () -> create(context, book, LocalDate.now(clock))));
        config.routes.post("/own-book", context -> Acts.done(context, () -> ownBook(context, book)));
        config.routes.get("/own-book/{name}", context -> {
            String name = context.pathParam("name");
            context.contentType("text/html; charset=utf-8")
                    .result(Pages.told(
                            "Your book is begun",
                            "It lies in the folder \"" + name
                                    + "\" beside this one, and is empty. Stop this program, then open"
                                    + " your book with: java -jar pigment-book.jar --book " + name
                                    + " open. Begin on its Shelf with"
                                    + " your resin, or bring in what you have: see the foot of each page."));
        });
        config.routes.post(
                "/recipes/{id}/copy",
                context -> Acts.done(context, () -> copy(book, context.pathParam("id"), LocalDate.now(clock))));
        config.routes.post(
                "/recipes/{id}/away", context -> Acts.done(context, () -> tag(book, context.pathParam("id"), true)));
        config.routes.post(
                "/recipes/{id}/back", context -> Acts.done(context, () -> tag(book, context.pathParam("id"), false)));
    }

    private static String create(Context context, LiveBook live, LocalDate today)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Book book = live.now().book();
        String name = Acts.text(context, "name", MOST_TEXT);
        String resin = Acts.text(context, "resin", MOST_TEXT);
        if (!book.resins().containsKey(resin)) {
            throw new NotThereException("Choose a resin that is on the shelf.");
        }
        String id = NewRecords.freeId(book.recipes().keySet(), name, "colour");
        ObjectNode record = RecipeRecords.begun(id, name, List.of());
        RecipeRecords.revise(record, today, resin, Recipe.PercentOf.MIXED_RESIN, Map.of(), "begun");
        live.writer().create(Kind.RECIPE, id, record);
        live.reread();
        return "/recipes/" + id;
    }

    private static String ownBook(Context context, LiveBook live) throws SaveFailedException {
        String name = Acts.text(context, "name", MOST_TEXT);
        if (name.isEmpty() || name.length() > 80) {
            throw new SaveFailedException("Type a name for your book, of at most 80 letters.");
        }
        Path parent = live.now().folder().toAbsolutePath().getParent();
        if (parent == null) {
            throw new SaveFailedException("There is no folder to put your book in. Make one, and name it with --book.");
        }
        return "/own-book/" + NewBook.begin(parent, name).getFileName();
    }

    private static String copy(LiveBook live, String of, LocalDate today)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Book book = live.now().book();
        Recipe recipe = RecipePage.recipe(book, of);
        ObjectNode record = live.writer().read(Kind.RECIPE, of).record().deepCopy();
        String id = NewRecords.freeId(book.recipes().keySet(), of, "colour");
        record.put("id", id).put("name", recipe.name() + ", copy");
        JsonNode revisions = record.path("revisions");
        ObjectNode last = revisions.get(revisions.size() - 1).deepCopy();
        last.put("number", 1)
                .put("date", today.toString())
                .put("why", "copy of " + of + ", revision " + recipe.current().number());
        record.putArray("revisions").add(last);
        record.putNull("look");
        live.writer().create(Kind.RECIPE, id, record);
        live.reread();
        return "/recipes/" + id;
    }

    private static String tag(LiveBook live, String id, boolean away)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        RecipePage.recipe(live.now().book(), id);
        BookWriter writer = live.writer();
        BookWriter.Current current = writer.read(Kind.RECIPE, id);
        ObjectNode changed = current.record().deepCopy();
        ArrayNode tags = changed.get("tags") instanceof ArrayNode there ? there : changed.putArray("tags");
        for (int i = tags.size() - 1; i >= 0; i--) {
            if (tags.get(i).asText().equals(PUT_AWAY)) {
                tags.remove(i);
            }
        }
        if (away) {
            tags.add(PUT_AWAY);
        }
        writer.save(Kind.RECIPE, id, current.version(), changed);
        live.reread();
        return away ? "/recipes" : "/recipes/" + id;
    }
}
