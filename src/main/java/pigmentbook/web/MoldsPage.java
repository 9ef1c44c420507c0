package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.book.Mold;
import pigmentbook.book.NearIds;
import pigmentbook.mold.Cavity;
import pigmentbook.mold.Insert;
import pigmentbook.mold.Slice;
import pigmentbook.quantity.Length;

/** The molds: what each holds, its drawing, and a slice at any height. */
public final class MoldsPage {

    private static final int SLICES = 40;

    private MoldsPage() {}

    /** One mold in the list. */
    public record Entry(String id, String name, String room, boolean current) {}

    /** One insert. */
    public record InsertView(String name, int count, String from, String depth) {}

    static void addTo(JavalinConfig config, LiveBook book) {
        config.routes.get("/molds", context -> {
            Book now = book.now().book();
            show(context, now, now.molds().keySet().stream().findFirst().orElse(""));
        });
        config.routes.get("/molds/{id}", context -> show(context, book.now().book(), context.pathParam("id")));
    }

    private static void show(Context context, Book book, String id) {
        Mold mold = book.molds().get(id);
        if (mold == null) {
            throw new NotThereException(
                    book.molds().isEmpty()
                            ? "The book has no molds yet. Add a file to its folder molds."
                            : "There is no mold of that name in the book."
                                    + NearIds.hint(id, book.molds().keySet()));
        }
        Cavity cavity = mold.cavity();
        Slice whole = cavity.whole();
        Map<String, Object> values = new HashMap<>();
        values.put("id", mold.id());
        values.put("name", mold.name());
        values.put("notes", mold.notes());
        values.put("entries", entries(book, id));
        values.put("room", Figures.of(whole.roomMl(), 1));
        values.put("shape", Figures.of(whole.volumeMl(), 1));
        values.put("inserts", Figures.of(whole.displacedMl(), 1));
        values.put("count", mold.count());
        values.put(
                "fill",
                cavity.fillOrDepth() == null
                        ? ""
                        : java.util.Objects.requireNonNull(cavity.fillOrDepth()).written());
        values.put("insertList", inserts(mold));
        values.put("slices", slices(mold));
        Length fill = cavity.fillOrDepth();
        String drawing = "";
        if (fill != null) {
            List<Double> tops = List.of(fill.mm());
            drawing = MoldDrawing.section(mold, tops, null, true) + MoldDrawing.section(mold, tops, null, false);
        }
        values.put("section", drawing);
        values.put("plan", MoldDrawing.plan(mold, null, true) + MoldDrawing.plan(mold, null, false));
        Pages.show(context, "molds.jte", values);
    }

    private static List<Entry> entries(Book book, String current) {
        return book.molds().values().stream()
                .map(each -> new Entry(
                        each.id(),
                        each.name(),
                        Figures.of(each.cavity().whole().roomMl(), 0),
                        each.id().equals(current)))
                .toList();
    }

    private static List<InsertView> inserts(Mold mold) {
        List<InsertView> views = new ArrayList<>();
        for (Insert insert : mold.cavity().inserts()) {
            Length depth = insert.shape().depth();
            views.add(new InsertView(
                    insert.name(), insert.count(), insert.from().written(), depth == null ? "" : depth.written()));
        }
        return views;
    }

    /** Returns what lies below each of a row of heights, as JSON for the read-out; empty for a mold without heights. */
    private static String slices(Mold mold) {
        Length fill = mold.cavity().fillOrDepth();
        if (fill == null) {
            return "";
        }
        StringBuilder json = new StringBuilder("[");
        for (int i = 0; i <= SLICES; i++) {
            double height = fill.mm() * i / SLICES;
            json.append(i == 0 ? "" : ",")
                    .append("{\"mm\":\"")
                    .append(Figures.plain(height, 1))
                    .append("\",\"room\":\"")
                    .append(Figures.plain(mold.cavity().between(0, height).roomMl(), 1))
                    .append("\",\"area\":\"")
                    .append(Figures.plain(mold.cavity().areaMm2At(height) / 100, 1))
                    .append("\"}");
        }
        return json.append(']').toString();
    }
}
