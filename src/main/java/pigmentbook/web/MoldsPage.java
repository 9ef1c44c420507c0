package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.book.Mold;
import pigmentbook.book.NearIds;
import pigmentbook.mold.Cavity;
import pigmentbook.mold.Slice;
import pigmentbook.quantity.Length;
import pigmentbook.store.BookWriter;
import pigmentbook.store.Edit;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** The molds: each as a sheet to type in, its drawing beside it, what it holds, and a slice at any height. */
public final class MoldsPage {

    private static final int SLICES = 40;
    private static final double MM2_PER_CM2 = 100;

    private MoldsPage() {}

    /** One mold in the list. */
    public record Entry(String id, String name, String room, boolean current) {}

    static void addTo(JavalinConfig config, LiveBook book) {
        config.routes.get("/molds", context -> {
            String first =
                    book.now().book().molds().keySet().stream().findFirst().orElse("");
            if (first.isEmpty()) {
                Pages.show(context, "nomolds.jte", Map.of("away", book.putAway().ids(Kind.MOLD)));
            } else {
                show(context, book, first);
            }
        });
        config.routes.get("/molds/{id}", context -> show(context, book, context.pathParam("id")));
    }

    private static void show(Context context, LiveBook live, String id) throws SaveFailedException {
        Book book = live.now().book();
        if (!book.molds().containsKey(id)) {
            throw new NotThereException("There is no mold of that name in the book."
                    + NearIds.hint(id, book.molds().keySet()));
        }
        BookWriter writer = live.writer();
        JsonNode record = writer.read(Kind.MOLD, id).record();
        List<Edit> draft = SheetEdits.draft(context);
        // What is typed and not kept yet is drawn already, so that the drawing follows the fingers.
        Mold mold = (Mold) writer.tried(Kind.MOLD, id, draft);
        String kind = draft.stream()
                .filter(edit -> edit.path().equals("/shape/kind") && MoldCells.KINDS.contains(edit.now()))
                .map(Edit::now)
                .findFirst()
                .orElse(record.at("/shape/kind").asText());
        Map<String, Object> values = new HashMap<>();
        values.put("id", id);
        values.put("name", mold.name());
        values.put("count", mold.count());
        values.put("entries", entries(book, mold));
        values.put("cells", MoldCells.own(record, kind));
        values.put("kind", kind);
        values.put("inserts", MoldCells.inserts(record));
        values.put("newInsert", MoldCells.newInsert());
        values.put(
                "points",
                kind.equals("stations") || kind.equals("outline") ? MoldCells.points(record, kind) : List.of());
        values.put("away", live.putAway().ids(Kind.MOLD));
        figures(values, mold);
        Pages.show(context, "molds.jte", values);
    }

    private static void figures(Map<String, Object> values, Mold mold) {
        Cavity cavity = mold.cavity();
        Slice whole = cavity.whole();
        Length fill = cavity.fillOrDepth();
        values.put("room", Figures.of(whole.roomMl(), 1));
        values.put("shape", Figures.of(whole.volumeMl(), 1));
        values.put("taken", Figures.of(whole.displacedMl(), 1));
        values.put("fill", fill == null ? "" : fill.written());
        values.put("insertCount", cavity.inserts().size());
        values.put("slices", slices(mold));
        String drawing = "";
        if (fill != null) {
            List<Double> tops = List.of(fill.mm());
            drawing = MoldDrawing.section(mold, tops, null, true) + MoldDrawing.section(mold, tops, null, false);
        }
        values.put("section", drawing);
        values.put("plan", MoldDrawing.plan(mold, null, true) + MoldDrawing.plan(mold, null, false));
    }

    private static List<Entry> entries(Book book, Mold current) {
        return book.molds().values().stream()
                .map(each -> each.id().equals(current.id()) ? current : each)
                .map(each -> new Entry(
                        each.id(),
                        each.name(),
                        Figures.of(each.cavity().whole().roomMl(), 0),
                        each.id().equals(current.id())))
                .toList();
    }

    /** Returns what lies below each of a row of heights, as JSON for the read-out; empty for a mold without heights. */
    private static String slices(Mold mold) {
        Length fill = mold.cavity().fillOrDepth();
        if (fill == null) {
            return "";
        }
        ArrayNode slices = JsonNodeFactory.instance.arrayNode();
        for (int i = 0; i <= SLICES; i++) {
            double height = fill.mm() * i / SLICES;
            slices.addObject()
                    .put("mm", Figures.plain(height, 1))
                    .put("room", Figures.of(mold.cavity().between(0, height).roomMl(), 1))
                    .put("area", Figures.of(mold.cavity().areaMm2At(height) / MM2_PER_CM2, 1));
        }
        return slices.toString();
    }
}
