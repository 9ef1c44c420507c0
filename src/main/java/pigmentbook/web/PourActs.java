package pigmentbook.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import pigmentbook.book.Book;
import pigmentbook.book.Pour;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.mix.AsPoured;
import pigmentbook.mix.MeasuredRoom;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Edit;
import pigmentbook.store.KeptPour;
import pigmentbook.store.Kind;
import pigmentbook.store.Photos;
import pigmentbook.store.SaveFailedException;

/** What is written down of a pour after it is poured: result, readings, photos, and what follows from them. */
final class PourActs {

    /** What the form of the result keeps, by where it lies in the record. */
    static final List<String> FIELDS = List.of(
            "/result/rating",
            "/result/faults",
            "/result/text",
            "/result/next",
            "/level",
            "/left",
            "/temperature",
            "/humidity");

    private static final int MOST_TEXT = 4_000;

    private PourActs() {}

    /** Something done to a pour. */
    private interface Act {
        void run(String id) throws SaveFailedException, ConflictException, IOException, BookUnavailableException;
    }

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints, Clock clock) {
        config.routes.post("/pours/{id}/result", context -> done(context, book, id -> result(context, book, id)));
        config.routes.post(
                "/pours/{id}/readings",
                context -> done(context, book, id -> reading(context, book, id, LocalDate.now(clock))));
        config.routes.post(
                "/pours/{id}/photos",
                context -> done(context, book, id -> {
                    byte[] bytes = context.bodyInputStream().readNBytes(Photos.MOST_BYTES + 1);
                    Photos.keep(book.now().folder(), book.writer(), id, bytes);
                }));
        config.routes.post("/pours/{id}/measured", context -> done(context, book, id -> measured(book, id)));
        config.routes.post("/pours/{id}/look/{reading}", context -> done(context, book, id -> look(context, book, id)));
        config.routes.post(
                "/pours/{id}/corrected/{how}",
                context -> done(
                        context,
                        book,
                        id -> CorrectionView.keep(
                                book,
                                tints,
                                PourPage.pour(book.now().book(), id),
                                context.pathParam("how").equals("adding"),
                                LocalDate.now(clock))));
        config.routes.post(
                "/pours/{id}/keep",
                context -> done(context, book, id -> keep(context, book, id, LocalDate.now(clock))));
    }

    private static void done(Context context, LiveBook live, Act act)
            throws SaveFailedException, ConflictException, BookUnavailableException, IOException {
        Acts.done(context, () -> {
            String id = context.pathParam("id");
            PourPage.pour(live.now().book(), id);
            act.run(id);
            live.reread();
            return "/pours/" + id;
        });
    }

    private static String text(Context context, String name) {
        return Acts.text(context, name, MOST_TEXT);
    }

    private static void result(Context context, LiveBook live, String id) throws SaveFailedException {
        List<Edit> edits = new ArrayList<>();
        for (String path : FIELDS) {
            String now = path.equals("/result/faults") ? faults(context) : text(context, path);
            String was = text(context, "was:" + path);
            if (!now.equals(was)) {
                edits.add(new Edit(Edit.What.SET, path, was, path.equals("/level") ? length(now) : now));
            }
        }
        if (edits.isEmpty()) {
            return;
        }
        for (Edit.Outcome outcome : live.writer().edit(Kind.POUR, id, edits).outcomes()) {
            if (outcome.state() == Edit.State.REFUSED) {
                throw new SaveFailedException(outcome.text() + " All else you typed is kept.");
            }
            if (outcome.state() == Edit.State.CHANGED_ELSEWHERE) {
                throw new SaveFailedException(
                        "Somebody else wrote \"" + outcome.text() + "\" there meanwhile, and you \""
                                + outcome.edit().now()
                                + "\". Theirs stands; load the page to see it, then type what is right. All else you typed is kept.");
            }
        }
    }

    private static String length(String text) {
        return text.isEmpty() ? text : Length.parse(text).written();
    }

    private static String faults(Context context) {
        Set<String> words = new LinkedHashSet<>(context.formParams("fault"));
        for (String word : text(context, "otherFaults").split(",", -1)) {
            if (!word.isBlank()) {
                words.add(word.strip());
            }
        }
        return String.join(", ", words);
    }

    private static void reading(Context context, LiveBook live, String id, LocalDate today) throws SaveFailedException {
        Lab lab = ColourText.parse(text(context, "colour"));
        String depth = text(context, "depth");
        String backing = text(context, "backing");
        live.writer().change(Kind.POUR, id, record -> {
            ArrayNode readings =
                    record.get("readings") instanceof ArrayNode there ? there : record.putArray("readings");
            ObjectNode reading = readings.addObject();
            reading.putArray("lab").add(lab.l()).add(lab.a()).add(lab.b());
            reading.put("depth", depth.isEmpty() ? null : Length.parse(depth).written());
            reading.put("backing", backing.isEmpty() ? null : backing);
            String how = text(context, "how");
            reading.put("how", how.isEmpty() ? "typed" : how);
            reading.put("date", today.toString());
            for (String name : List.of("finish", "cured", "scatter")) {
                if (!text(context, name).isEmpty()) {
                    reading.put(name, text(context, name));
                }
            }
            if (text(context, "gloss").equals("included")) {
                reading.put("gloss", "included");
            }
            return record;
        });
    }

    private static void measured(LiveBook live, String id) throws SaveFailedException, BookUnavailableException {
        Book book = live.reread().book();
        Pour pour = PourPage.pour(book, id);
        String level = BenchPage.record(live, id).path("level").asText("");
        MeasuredRoom room = level.isEmpty() ? null : MeasuredRoom.of(book, pour, Length.parse(level));
        String mold = pour.moldId();
        if (room == null || mold == null) {
            throw new SaveFailedException("Type the level that was reached, and keep the result, first.");
        }
        live.writer().change(Kind.MOLD, mold, record -> record.put("measured", Numbers.fixed(room.ml(), 1) + " mL"));
    }

    private static void look(Context context, LiveBook live, String id) throws SaveFailedException {
        Pour pour = PourPage.pour(live.now().book(), id);
        String number = context.pathParam("reading");
        int reading = number.matches("[0-9]{1,4}") ? Integer.parseInt(number) : -1;
        if (reading < 0 || reading >= pour.readings().size()) {
            throw new SaveFailedException("The pour has no such reading.");
        }
        live.writer().change(Kind.RECIPE, pour.recipeId(), record -> {
            record.putObject("look").put("pour", id).put("reading", reading);
            return record;
        });
    }

    private static void keep(Context context, LiveBook live, String id, LocalDate today)
            throws SaveFailedException, ConflictException {
        Book book = live.now().book();
        KeptPour.keep(live.writer(), AsPoured.of(book, PourPage.pour(book, id), null), text(context, "why"), today);
    }
}
