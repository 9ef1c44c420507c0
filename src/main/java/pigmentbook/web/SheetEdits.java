package pigmentbook.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.NearIds;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.BookWriter;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Edit;
import pigmentbook.store.Edits;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/**
 * The one way in which a cell of any sheet is saved: what was seen there, and what it shall be. Another value of the
 * same record that was changed elsewhere is no obstacle; the same value is, and both are told.
 */
final class SheetEdits {

    private static final int MOST_EDITS = 2_000;
    private static final Set<Kind> EDITED_HERE =
            Set.of(Kind.RESIN, Kind.PIGMENT, Kind.LOT, Kind.MOLD, Kind.RECIPE, Kind.SETTINGS);

    private static final Set<Kind> PUT_AWAY_HERE = EnumSet.complementOf(EnumSet.of(Kind.SETTINGS));

    private SheetEdits() {}

    /** Made when the first change comes, not while the server starts. */
    static final class Json {
        static final JsonMapper MAPPER = new JsonMapper();
    }

    /** Something asked for in JSON that changes the book. */
    private interface Act {
        void run(JsonNode asked) throws SaveFailedException, ConflictException, BookUnavailableException;
    }

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.post("/edits", context -> done(context, asked -> edit(context, book, asked)));
        config.routes.post(
                "/records",
                context -> done(context, asked -> {
                    String id = NewRecords.create(book, kind(asked), asked.path("cells"), LocalDate.now(clock));
                    book.reread();
                    answer(context, JsonNodeFactory.instance.objectNode().put("id", id));
                }));
        config.routes.post(
                "/put-away",
                context -> done(context, asked -> {
                    book.putAway().put(book.reread().book(), kind(asked, PUT_AWAY_HERE), id(asked));
                    book.reread();
                    answer(context, JsonNodeFactory.instance.objectNode().put("id", id(asked)));
                }));
        config.routes.post(
                "/take-out",
                context -> done(context, asked -> {
                    book.putAway().takeOut(kind(asked, PUT_AWAY_HERE), id(asked));
                    book.reread();
                    answer(context, JsonNodeFactory.instance.objectNode().put("id", id(asked)));
                }));
    }

    private static void done(Context context, Act act)
            throws SaveFailedException, ConflictException, BookUnavailableException, IOException {
        JsonNode asked = Json.MAPPER.readTree(context.bodyAsBytes());
        act.run(asked == null ? JsonNodeFactory.instance.nullNode() : asked);
    }

    private static void answer(Context context, ObjectNode answer) {
        context.contentType("application/json; charset=utf-8").result(answer.toString());
    }

    private static Kind kind(JsonNode asked) {
        return kind(asked, EDITED_HERE);
    }

    private static Kind kind(JsonNode asked, Set<Kind> which) {
        String word = asked.path("kind").asText();
        for (Kind kind : which) {
            if (kind.name().toLowerCase(Locale.ROOT).equals(word)) {
                return kind;
            }
        }
        throw new BadRequest("What kind of record is changed is not said. Nothing was changed.");
    }

    private static String id(JsonNode asked) {
        return asked.path("id").asText();
    }

    private static void edit(Context context, LiveBook live, JsonNode asked)
            throws SaveFailedException, BookUnavailableException {
        Kind kind = kind(asked);
        List<Edit> edits = edits(asked.path("edits"));
        if (kind == Kind.MOLD) {
            edits.replaceAll(MoldCells::fitted);
        }
        Book book = live.now().book();
        List<@Nullable String> wrong =
                edits.stream().map(edit -> wrongLink(book, edit)).toList();
        List<Edit> sound = new ArrayList<>();
        for (int i = 0; i < edits.size(); i++) {
            if (wrong.get(i) == null) {
                sound.add(edits.get(i));
            }
        }
        sound.addAll(currency(book, kind, live, id(asked), sound));
        BookWriter.Edited edited = sound.isEmpty() ? null : live.writer().edit(kind, id(asked), sound);
        ArrayNode outcomes = JsonNodeFactory.instance.arrayNode();
        int at = 0;
        for (String each : wrong) {
            if (each != null || edited == null) {
                outcomes.addObject().put("state", "refused").put("text", each);
            } else {
                told(outcomes.addObject(), edited.outcomes().get(at++));
            }
        }
        if (edited != null) {
            live.reread();
        }
        ObjectNode answer = JsonNodeFactory.instance.objectNode();
        answer.set("outcomes", outcomes);
        answer(context, answer);
    }

    private static void told(ObjectNode told, Edit.Outcome outcome) {
        told.put("state", outcome.state().name().toLowerCase(Locale.ROOT)).put("text", outcome.text());
        if (outcome.missing() != null) {
            told.put("missing", outcome.missing());
        }
        if (outcome.edit().what() == Edit.What.ADD) {
            told.put("entry", outcome.edit().now());
        }
    }

    /** A price says its currency: a new one takes the book's, and one that is emptied takes it along. */
    private static List<Edit> currency(Book book, Kind kind, LiveBook live, String id, List<Edit> edits)
            throws SaveFailedException {
        if (kind != Kind.LOT || edits.stream().noneMatch(edit -> edit.path().equals("/price/amount"))) {
            return List.of();
        }
        String path = "/price/currency";
        String was = Edits.text(live.writer().read(kind, id).record().at(path));
        boolean none = edits.stream()
                .anyMatch(edit ->
                        edit.path().equals("/price/amount") && edit.now().isEmpty());
        String now = none ? "" : was.isEmpty() ? usualCurrency(book) : was;
        return now.equals(was) ? List.of() : List.of(new Edit(Edit.What.SET, path, was, now));
    }

    /** Returns the book's currency; empty where it says none, so that the price asks for it. */
    static String usualCurrency(Book book) {
        String currency = book.settings().currency();
        return currency == null ? "" : currency;
    }

    /** Reads edits as the page sends them. */
    static List<Edit> edits(JsonNode list) {
        if (!list.isArray() || list.size() > MOST_EDITS) {
            throw new BadRequest("A list of at most " + MOST_EDITS + " edits was expected. Nothing was changed.");
        }
        List<Edit> edits = new ArrayList<>();
        for (JsonNode each : list) {
            Edit.What what = switch (each.path("what").asText()) {
                case "add" -> Edit.What.ADD;
                case "take-out" -> Edit.What.TAKE_OUT;
                default -> Edit.What.SET;
            };
            edits.add(new Edit(
                    what,
                    each.path("path").asText(),
                    each.path("was").asText(),
                    each.path("now").asText().strip()));
        }
        return edits;
    }

    /** Reads edits that a page's address carries: what is typed and not kept yet. */
    static List<Edit> draft(Context context) {
        String draft = context.queryParam("draft");
        if (draft == null || draft.isEmpty()) {
            return List.of();
        }
        try {
            return edits(Json.MAPPER.readTree(draft));
        } catch (JsonProcessingException e) {
            throw new BadRequest("What was typed could not be read.");
        }
    }

    /** Returns what is wrong with an edit that names another record, or null. */
    static @Nullable String wrongLink(Book book, Edit edit) {
        String now = edit.now();
        if (edit.path().equals("/of")
                && !book.resins().containsKey(now)
                && !book.pigments().containsKey(now)) {
            List<String> known = new ArrayList<>(book.resins().keySet());
            known.addAll(book.pigments().keySet());
            return "There is no resin or pigment \"" + now + "\" on the shelf." + NearIds.hint(now, known);
        }
        if (edit.path().equals("/contains/pigment")
                && !now.isEmpty()
                && !book.pigments().containsKey(now)) {
            return "There is no pigment \"" + now + "\" on the shelf."
                    + NearIds.hint(now, book.pigments().keySet());
        }
        return null;
    }

    /** Thrown where what came is not what a page of ours sends. */
    static final class BadRequest extends RuntimeException {
        private static final long serialVersionUID = 1L;

        private final @Nullable String missing;

        BadRequest(String message) {
            this(message, null);
        }

        /**
         * Makes the exception.
         *
         * @param missing where in the record a value is still missing, as a JSON pointer
         */
        BadRequest(String message, @Nullable String missing) {
            super(message);
            this.missing = missing;
        }

        @Nullable
        String missing() {
            return missing;
        }
    }
}
