package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;
import pigmentbook.mix.OverPour;
import pigmentbook.quantity.Mass;
import pigmentbook.sheet.Paper;
import pigmentbook.sheet.SheetIds;
import pigmentbook.sheet.SheetInfo;
import pigmentbook.store.Bench;
import pigmentbook.store.BenchLog;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** The bench: a pour is begun from a mix, and each entry is on the disk before it is acknowledged. */
final class BenchPage {

    private static final int MOST_ENTRIES = 200;
    private static final long LONGEST_AGO_MS = 7L * 24 * 3600 * 1000;

    private BenchPage() {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.post("/recipes/{id}/bench", context -> Acts.done(context, () -> begin(context, book, clock)));
        config.routes.get(
                "/recipes/{id}/bench-file", context -> file(context, book.now().book(), clock));
        addForHelpersTo(config, book, clock);
    }

    /** The mix as a bench in one file, for a phone without any network. */
    private static void file(Context context, Book book, Clock clock) {
        Recipe recipe = RecipePage.recipe(book, context.pathParam("id"));
        Mix mix = MixPage.mix(context, book, clock, recipe);
        SheetInfo info = new SheetInfo(
                SheetIds.next(clock, recipe.id()), LocalDateTime.now(clock).withNano(0), "", Paper.A4);
        context.header("Content-Disposition", "attachment; filename=\"" + recipe.id() + "-bench.html\"")
                .contentType("text/html; charset=utf-8")
                .result(BenchFile.of(book, mix, info));
    }

    /** Adds what a helper's phone may do too. */
    static void addForHelpersTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.get("/pours/{id}/bench", context -> show(context, book, clock));
        config.routes.get("/pours/{id}/log", context -> {
            JsonNode record = record(book, context.pathParam("id"));
            answer(context, record, clock);
        });
        config.routes.post("/pours/{id}/log", context -> enter(context, book, clock));
        config.routes.get("/pours/{id}/over", context -> over(context, book));
    }

    private static String begin(Context context, LiveBook live, Clock clock)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Book book = live.now().book();
        Mix mix = MixPage.mix(context, book, clock, RecipePage.recipe(book, context.pathParam("id")));
        String id = Bench.begin(
                live.writer(),
                live.reread().book(),
                mix,
                context.queryString() == null ? "" : context.queryString(),
                LocalDateTime.now(clock));
        live.reread();
        return "/pours/" + id + "/bench";
    }

    /** Returns a pour's record as its file says it at this moment. */
    static ObjectNode record(LiveBook live, String id) {
        try {
            return live.writer().read(Kind.POUR, id).record();
        } catch (SaveFailedException e) {
            throw new NotThereException(String.valueOf(e.getMessage()));
        }
    }

    private static void show(Context context, LiveBook live, Clock clock) {
        String id = context.pathParam("id");
        JsonNode record = record(live, id);
        if (!record.path("plan").isObject()) {
            throw new NotThereException("This pour was not weighed at the bench; its record is under Recipes.");
        }
        Map<String, Object> values = new HashMap<>();
        values.put("pour", id);
        values.put("name", record.path("plan").path("name").asText());
        values.put("plan", data(record.path("plan")));
        values.put("log", data(record.path("log")));
        values.put("now", clock.millis());
        values.put("back", Sharing.isShared(context) ? "/bench" : "/pours/" + id);
        values.put("shared", Sharing.isShared(context));
        Pages.show(context, "bench.jte", values);
    }

    /** JSON that may stand in a page: nothing in it ends the element it stands in. */
    static String data(JsonNode json) {
        return json.toString().replace("<", "\\u003c");
    }

    private static void answer(Context context, JsonNode record, Clock clock) {
        ObjectNode answer = JsonNodeFactory.instance.objectNode();
        answer.put("now", clock.millis());
        answer.set("log", record.path("log").isArray() ? record.path("log") : JsonNodeFactory.instance.arrayNode());
        context.contentType("application/json; charset=utf-8").result(answer.toString());
    }

    private static void enter(Context context, LiveBook live, Clock clock)
            throws IOException, SaveFailedException, BenchLog.OtherPhone {
        JsonNode asked = SheetEdits.Json.MAPPER.readTree(context.bodyAsBytes());
        ObjectNode saved = Bench.enter(
                live.writer(),
                context.pathParam("id"),
                entries(asked, clock.instant(), clock),
                OffsetDateTime.now(clock),
                record -> finder(live, record));
        answer(context, saved, clock);
        live.lookAgain();
    }

    /**
     * Reads entries. When they were made is told as how long ago, for a phone's clock may be wrong: the book's clock
     * says the time.
     */
    private static BenchLog.Asked entries(JsonNode asked, Instant now, Clock clock) {
        String device = asked == null ? "" : asked.path("device").asText();
        if (asked == null
                || !device.matches("[A-Za-z0-9-]{1,40}")
                || !asked.path("entries").isArray()
                || asked.path("entries").size() > MOST_ENTRIES) {
            throw new SheetEdits.BadRequest("This is no entry of the bench. Nothing was kept.");
        }
        long ago = Math.max(0, Math.min(LONGEST_AGO_MS, asked.path("ago").asLong()));
        String at = OffsetDateTime.ofInstant(now.minusMillis(ago), clock.getZone())
                .truncatedTo(ChronoUnit.SECONDS)
                .toString();
        List<JsonNode> entries = new ArrayList<>();
        for (JsonNode entry : asked.path("entries")) {
            if (!(entry instanceof ObjectNode object)) {
                throw new SheetEdits.BadRequest("This is no entry of the bench. Nothing was kept.");
            }
            entries.add(object.deepCopy().put("at", at));
        }
        return new BenchLog.Asked(device, asked.path("base").asInt(), entries);
    }

    private static BenchLog.LotFinder finder(LiveBook live, JsonNode record) {
        Book book = live.now().book();
        Resin resin = resin(book, record);
        return BenchLog.finder(book, resin == null ? "" : resin.id());
    }

    /** Returns the resin of the revision that a pour's record names, or null. */
    static @Nullable Resin resin(Book book, JsonNode record) {
        Recipe recipe = book.recipes().get(record.path("recipe").asText());
        if (recipe == null) {
            return null;
        }
        Recipe.Revision revision = recipe.revision(record.path("revision").asInt());
        return book.resins().get((revision == null ? recipe.current() : revision).resinId());
    }

    /** What to beware of where a cup got too much, from the plan's own targets and what is in the cup. */
    private static void over(Context context, LiveBook live) {
        ObjectNode record = record(live, context.pathParam("id"));
        Book book = live.now().book();
        Resin resin = resin(book, record);
        int layer = number(context, "layer");
        int cup = number(context, "cup");
        Map<Item, Double> targets = new LinkedHashMap<>();
        JsonNode planned =
                record.path("plan").path("layers").path(layer - 1).path("cups").path(cup - 1);
        planned.path("items")
                .forEach(item -> targets.put(
                        Item.of(item.path("item").asText()),
                        Mass.parse(item.path("target").asText()).grams()));
        if (resin == null || targets.isEmpty()) {
            throw new NotThereException("There is no such cup.");
        }
        JsonNode most = record.path("plan").path("cupMost");
        OverPour over = OverPour.of(
                book,
                resin,
                record.path("recipe").asText(),
                targets,
                new OverPour.Cup(
                        null,
                        null,
                        BenchLog.inCup(record, layer, cup),
                        most.isTextual() ? Mass.parse(most.asText()) : null,
                        null));
        ArrayNode cautions = JsonNodeFactory.instance.arrayNode();
        for (Caution caution : over.cautions()) {
            if (!caution.code().startsWith("standing-")) {
                cautions.addObject()
                        .put("code", caution.code())
                        .put("severity", caution.severity().name().toLowerCase(Locale.ROOT))
                        .put("text", caution.text())
                        .put("basis", caution.basis());
            }
        }
        context.contentType("application/json; charset=utf-8").result(cautions.toString());
    }

    private static int number(Context context, String name) {
        String text = context.queryParam(name);
        return text != null && text.matches("[0-9]{1,4}") ? Integer.parseInt(text) : 0;
    }
}
