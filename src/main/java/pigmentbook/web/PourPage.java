package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Mold;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.mix.AsPoured;
import pigmentbook.mix.MeasuredRoom;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.mix.Poured;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.BenchTimes;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.Edits;
import pigmentbook.store.Kind;
import pigmentbook.store.Photos;
import pigmentbook.store.SaveFailedException;

/** A pour: how it came out, its readings and photos, and what was weighed beside what was planned. */
public final class PourPage {

    private static final List<String> FAULTS =
            List.of("bubbles", "mica settled", "soft spot", "waves", "dust", "too dark", "too pale", "lifted off wood");

    private PourPage() {}

    /** A field of the result: where it is kept and what stands there. */
    public record Field(String path, String text) {}

    /** A fault that may be ticked. */
    public record Fault(String word, boolean ticked) {}

    /** A colour read on it. */
    public record Reading(int number, String hex, String lab, String about, boolean isLook) {}

    /** An item of what was weighed. */
    public record Row(String name, String lots, String planned, String weighed, String ofPlan) {}

    /** An entry at the bench. */
    public record Entry(String when, String what, String by, boolean undone) {}

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints, Clock clock, Sharing sharing) {
        config.routes.get("/pours/{id}", context -> show(context, book, tints, clock));
        config.routes.get("/pours/{id}/photos/{number}", context -> photo(context, book));
        config.routes.get("/bench", context -> list(context, book, clock, sharing));
        PourActs.addTo(config, book, tints, clock);
    }

    static Pour pour(Book book, String id) {
        Pour pour = book.pours().get(id);
        if (pour == null) {
            throw new NotThereException("There is no such pour in the book.");
        }
        return pour;
    }

    private static void photo(Context context, LiveBook live) throws SaveFailedException {
        List<String> photos = pour(live.now().book(), context.pathParam("id")).photos();
        String number = context.pathParam("number");
        int at = number.matches("[0-9]{1,3}") ? Integer.parseInt(number) : -1;
        byte[] bytes =
                at < 0 || at >= photos.size() ? null : Photos.read(live.now().folder(), photos.get(at));
        if (bytes == null) {
            throw new NotThereException("This photo is not in the book.");
        }
        context.contentType(photos.get(at).endsWith(".png") ? "image/png" : "image/jpeg")
                .result(bytes);
    }

    /** What is at the bench now, and what was poured of late. */
    static void list(Context context, LiveBook live, Clock clock, Sharing sharing) {
        List<Map<String, String>> open = new ArrayList<>();
        List<Map<String, String>> late = new ArrayList<>();
        List<JsonNode> records = new ArrayList<>();
        List<Pour> pours = new ArrayList<>(live.now().book().pours().values());
        pours.sort((a, b) -> b.id().compareTo(a.id()));
        for (Pour pour : pours.subList(0, Math.min(40, pours.size()))) {
            JsonNode record = BenchPage.record(live, pour.id());
            boolean atBench = record.path("plan").isObject() && !isDone(record);
            Map<String, String> line = new HashMap<>(line(live.now().book(), pour));
            line.put(
                    "sheet",
                    "/recipes/" + pour.recipeId() + "/sheet/html?"
                            + record.path("plan").path("asked").asText(""));
            line.put("blank", pour.isBlank() ? "blank" : "");
            if (atBench || !pour.isBlank()) {
                (atBench ? open : late).add(line);
            }
            if (atBench) {
                records.add(record);
            }
        }
        Map<String, Object> values = new HashMap<>();
        values.put("open", open);
        values.put("late", late);
        if (Sharing.isShared(context)) {
            Pages.show(context, "shared.jte", Map.of("open", open));
            return;
        }
        values.put("sharing", sharing.links());
        values.put("away", live.putAway().ids(Kind.POUR));
        values.put("lacking", Lacking.of(live.now().book(), records, LocalDate.now(clock)));
        Pages.show(context, "benches.jte", values);
    }

    private static Map<String, String> line(Book book, Pour pour) {
        Recipe recipe = book.recipes().get(pour.recipeId());
        return Map.of(
                "id",
                pour.id(),
                "name",
                recipe == null ? pour.recipeId() : recipe.name(),
                "where",
                where(book, pour),
                "day",
                pour.started() == null ? "" : pour.started().toString().replace('T', ' '),
                "rating",
                pour.result() == null || pour.result().rating() == null
                        ? ""
                        : pour.result().rating() + " of 5");
    }

    static boolean isDone(JsonNode record) {
        boolean done = false;
        for (JsonNode entry : record.path("log")) {
            done |= entry.path("what").asText().equals("done");
        }
        return done;
    }

    private static String where(Book book, Pour pour) {
        Mold mold = pour.moldId() == null ? null : book.molds().get(pour.moldId());
        return mold == null ? "" : mold.name();
    }

    private static void show(Context context, LiveBook live, LiveTints tints, Clock clock)
            throws BookUnavailableException {
        String id = context.pathParam("id");
        JsonNode record = BenchPage.record(live, id);
        boolean atBench = record.path("plan").isObject() && !isDone(record);
        Book book = (atBench ? live.reread() : live.reread(id)).book();
        Pour pour = pour(book, id);
        Recipe recipe = book.recipes().get(pour.recipeId());
        Map<String, Object> values = new HashMap<>();
        values.put("id", id);
        values.put("recipe", recipe == null ? "" : recipe.id());
        values.put("name", recipe == null ? pour.recipeId() : recipe.name());
        values.put("about", about(book, pour) + times(record, clock));
        values.put("atBench", atBench);
        Map<String, Field> fields = new HashMap<>();
        for (String path : PourActs.FIELDS) {
            fields.put(path, new Field(path, Edits.text(record.at(path))));
        }
        values.put("fields", fields);
        faults(values, pour);
        values.put("readings", readings(pour, recipe));
        values.put("photos", pour.photos());
        weighed(values, book, pour);
        values.put("measured", measured(book, pour, Edits.text(record.at("/level"))));
        values.put("correction", CorrectionView.of(live, tints, pour));
        values.put("entries", entries(record));
        Pages.show(context, "pour.jte", values);
    }

    private static String about(Book book, Pour pour) {
        String where = where(book, pour);
        return "Revision " + pour.revision() + (where.isEmpty() ? "" : ", in " + where) + "."
                + (pour.started() == null
                        ? ""
                        : " Begun " + pour.started().toString().replace('T', ' ') + ".")
                + (pour.by().isEmpty() ? "" : " Weighed by " + pour.by() + ".");
    }

    /** When the next layer may go on, or when the piece may leave the mold, until it is cured; in the book's zone. */
    private static String times(JsonNode record, Clock clock) {
        BenchTimes times = BenchTimes.of(record);
        boolean cured =
                times != null && times.fullCure() != null && times.fullCure().isBefore(clock.instant());
        if (times == null || cured) {
            return "";
        }
        ZoneId zone = clock.getZone();
        String pourBy = times.pourBy() == null || times.demold() != null
                ? ""
                : " Layer " + times.layer() + ": pour by " + shown(times.pourBy(), zone) + ", a rule of thumb.";
        String next = times.nextFrom() == null
                ? ""
                : " Layer " + (times.layer() + 1) + " may go on from " + shown(times.nextFrom(), zone)
                        + (times.nextTo() == null ? "" : " until " + shown(times.nextTo(), zone)) + ".";
        String demold = times.demold() == null ? "" : " Demold not before " + shown(times.demold(), zone) + ".";
        String cure = times.fullCure() == null ? "" : " Full cure " + shown(times.fullCure(), zone) + ".";
        return pourBy + next + demold + cure;
    }

    private static String shown(Instant moment, ZoneId zone) {
        return WallClock.date(moment.atZone(zone));
    }

    private static void faults(Map<String, Object> values, Pour pour) {
        List<String> had = pour.result() == null ? List.of() : pour.result().faults();
        values.put(
                "faults",
                FAULTS.stream().map(word -> new Fault(word, had.contains(word))).toList());
        values.put(
                "otherFaults",
                String.join(
                        ", ",
                        had.stream().filter(word -> !FAULTS.contains(word)).toList()));
        values.put(
                "rating",
                pour.result() == null || pour.result().rating() == null
                        ? 0
                        : pour.result().rating());
    }

    private static List<Reading> readings(Pour pour, @Nullable Recipe recipe) {
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < pour.readings().size(); i++) {
            Pour.Reading reading = pour.readings().get(i);
            String depth = reading.depth() == null
                    ? "depth not noted"
                    : reading.depth().written() + " deep";
            String backing = Figures.backing(reading.backing());
            Recipe.LookAt look = recipe == null ? null : recipe.look();
            readings.add(new Reading(
                    i,
                    Figures.hex(reading.lab()),
                    Looks.shown(reading.lab()),
                    depth
                            + (backing.isEmpty() ? "" : ", " + backing)
                            + (reading.how().isEmpty() ? "" : "; " + reading.how()),
                    look != null && look.pourId().equals(pour.id()) && look.reading() == i));
        }
        return readings;
    }

    private static void weighed(Map<String, Object> values, Book book, Pour pour) {
        Poured poured = Poured.of(book, pour);
        List<Row> rows = new ArrayList<>();
        for (Poured.Row row : poured.rows()) {
            rows.add(row(
                    row.name(), String.join(" + ", row.lots()), row.plannedGrams(), row.weighedGrams(), row.ofPlan()));
        }
        values.put("rows", rows);
        values.put("sum", row("Total", "", poured.plannedGrams(), poured.weighedGrams(), poured.ofPlan()));
        values.put(
                "thrown",
                pour.thrown().isEmpty()
                        ? ""
                        : Numbers.fixed(
                                        pour.thrown().stream()
                                                .mapToDouble(Pour.Weighed::grams)
                                                .sum(),
                                        1)
                                + " g were weighed into cups that were thrown away; they left the stock and count in no percent.");
        String reached = "";
        String percents = "";
        try {
            AsPoured asPoured = AsPoured.of(book, pour, null);
            Resin resin = book.resins().get(asPoured.revision().resinId());
            Double error = resin == null ? null : asPoured.ratioError(resin);
            if (error != null && resin != null && resin.ratio() != null) {
                double meant = resin.ratio().ratio().quotient();
                reached = "Ratio reached: " + Figures.plain(meant * (1 + error), 3) + " : 1 by "
                        + resin.ratio().by().name().toLowerCase(java.util.Locale.ROOT) + ", meant "
                        + Figures.plain(meant, 3) + " : 1"
                        + (resin.ratio().window() == null
                                ? "."
                                : "; "
                                        + Numbers.plain(
                                                resin.ratio().window().least().doubleValue()) + " to "
                                        + Numbers.plain(
                                                resin.ratio().window().most().doubleValue()) + " is accepted.");
            }
            List<String> each = new ArrayList<>();
            asPoured.revision()
                    .pigments()
                    .forEach(loading -> each.add(
                            loading.pigmentId() + " " + loading.percent().written()));
            percents = each.isEmpty()
                    ? "Clear resin."
                    : "Percent of mixed resin, as weighed: " + String.join(", ", each) + ".";
        } catch (MixRefusedException e) {
            percents = String.valueOf(e.getMessage());
        }
        values.put("reached", reached);
        values.put("percents", percents);
    }

    private static Row row(
            String name, String lots, @Nullable Double planned, double weighed, @Nullable Double ofPlan) {
        return new Row(
                name,
                lots,
                planned == null ? "" : Figures.of(planned, 2),
                Figures.of(weighed, 2),
                ofPlan == null ? "" : Figures.of(ofPlan * 100, 1));
    }

    private static String measured(Book book, Pour pour, String level) {
        if (level.isEmpty()) {
            return "";
        }
        try {
            MeasuredRoom room = MeasuredRoom.of(book, pour, Length.parse(level));
            if (room == null) {
                return "";
            }
            double percent = room.error() * 100;
            return level + " were reached with this mass: the room is " + Numbers.fixed(room.ml(), 1) + " mL, "
                    + Numbers.fixed(Math.abs(percent), 1) + " % " + (percent < 0 ? "smaller" : "larger")
                    + " than worked out.";
        } catch (BadAmountException e) {
            return "";
        }
    }

    private static List<Entry> entries(JsonNode record) {
        List<Entry> entries = new ArrayList<>();
        java.util.Set<String> undone = new java.util.HashSet<>();
        record.path("log").forEach(entry -> undone.add(entry.path("of").asText()));
        for (JsonNode entry : record.path("log")) {
            String item = entry.path("item").asText();
            String cup = entry.has("cup")
                    ? "Layer " + entry.path("layer").asText() + ", cup "
                            + entry.path("cup").asText() + ": "
                    : "";
            String text = entry.path("text").asText("");
            String what = switch (entry.path("what").asText()) {
                case "weigh" ->
                    item + " " + entry.path("grams").asText() + ", lot "
                            + entry.path("lot").asText();
                case "follow" -> "the other targets follow what is over";
                case "note" -> "deviation for " + item + ": " + text;
                case "check" -> text.isEmpty() ? "checked" : text;
                case "throw" -> "thrown away";
                case "poured" -> "poured";
                case "undo" -> "undone";
                default -> "the pour is ended";
            };
            entries.add(new Entry(
                    entry.path("at").asText().replace('T', ' '),
                    cup + what,
                    entry.path("by").asText(""),
                    undone.contains(entry.path("id").asText())));
        }
        return entries;
    }
}
