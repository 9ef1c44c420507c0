package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import pigmentbook.book.Settings;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Amount;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** What the whole book agrees on: the scales, the cups, the room, the grounds. Typed in as every sheet is. */
public final class StudioPage {

    private static final String ID = "book";
    private static final List<String> YES_OR_NO = List.of("", "yes", "no");

    private StudioPage() {}

    /** A row: a setting, what it is for, and its cell. */
    public record Row(SheetCell cell, String about) {}

    /** Rows that belong together. */
    public record Part(String id, String head, String about, List<Row> rows) {}

    static void addTo(JavalinConfig config, LiveBook book) {
        config.routes.get("/studio", context -> show(context, book));
    }

    private static void show(Context context, LiveBook live) throws SaveFailedException {
        JsonNode record = live.writer().read(Kind.SETTINGS, ID).record();
        Pages.show(context, "studio.jte", Map.of("parts", parts(record)));
    }

    private static List<Part> parts(JsonNode record) {
        Settings usual = Settings.unstated();
        return List.of(
                new Part(
                        "scales",
                        "Scales",
                        "Amounts to weigh are rounded to these steps, and a mix warns of what a scale can’t weigh well.",
                        List.of(
                                row(
                                        record,
                                        "Resin scale shows steps of",
                                        "/scales/resin/step",
                                        "g",
                                        "parts A and B"
                                                + unless(usual.resinScale().step())),
                                row(
                                        record,
                                        "Resin scale carries",
                                        "/scales/resin/most",
                                        "g",
                                        "left empty: not looked at"),
                                row(
                                        record,
                                        "Fine scale shows steps of",
                                        "/scales/fine/step",
                                        "g",
                                        "pigments" + unless(usual.fineScale().step())),
                                row(
                                        record,
                                        "Fine scale carries",
                                        "/scales/fine/most",
                                        "g",
                                        "left empty: not looked at"))),
                new Part(
                        "cups",
                        "Cups",
                        "Each mix begins with these; it may say otherwise.",
                        List.of(
                                row(record, "A cup holds", "/defaults/cup", "g", "left empty: all in one"),
                                row(
                                        record,
                                        "An empty cup weighs",
                                        "/defaults/cupTare",
                                        "g",
                                        "where a display shows it"),
                                row(
                                        record,
                                        "Stays in a cup",
                                        "/defaults/cupResidue",
                                        "g",
                                        "added for each cup" + unless(usual.cupResidue())),
                                row(
                                        record,
                                        "Added to a mix by volume",
                                        "/defaults/allowance",
                                        "%",
                                        "its allowance" + unless(usual.allowance())),
                                new Row(
                                        SheetCell.choice(
                                                record, "A second person checks", "/defaults/secondPerson", YES_OR_NO),
                                        "before part B goes in; left empty: yes"))),
                new Part(
                        "room",
                        "Room and money",
                        "",
                        List.of(
                                row(
                                        record,
                                        "Temperature",
                                        "/defaults/roomTemperature",
                                        "C",
                                        "as it usually is" + unless(usual.roomTemperature())),
                                row(record, "Humidity", "/defaults/roomHumidity", "%", "left empty: nobody looks"),
                                row(record, "Currency", "/defaults/currency", "", "three letters, for new prices"))),
                new Part(
                        "grounds",
                        "Grounds",
                        "What samples and pieces are read over, bare and matte: L, a, b. Every colour answer counts on"
                                + " them.",
                        List.of(
                                row(record, "White", "/backings/white/lab", "", ground("white")),
                                row(record, "Black", "/backings/black/lab", "", ground("black")),
                                row(record, "Wood", "/backings/wood/lab", "", ground("wood")))),
                new Part(
                        "words",
                        "Book",
                        "",
                        List.of(row(record, "Name", "/name", "", ""), row(record, "About", "/about", "", ""))));
    }

    private static String unless(Amount usual) {
        return "; left empty: " + usual.written();
    }

    private static String ground(String name) {
        Lab usual = Objects.requireNonNull(Settings.BACKINGS.get(name));
        return "left empty: " + Numbers.plain(usual.l()) + ", " + Numbers.plain(usual.a()) + ", "
                + Numbers.plain(usual.b());
    }

    private static Row row(JsonNode record, String head, String path, String unit, String about) {
        return new Row(SheetCell.of(record, head, path, unit), about);
    }
}
