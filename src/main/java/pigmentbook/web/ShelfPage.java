package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.Pigment;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.BookWriter;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** The shelf: lots with what is left of them, resins and pigments as their data sheets say; each sheet is typed in. */
public final class ShelfPage {

    private static final double NEARLY_EMPTY = 0.1;
    private static final String PAST = "past its date";
    private static final String LOW = "nearly empty";
    private static final int MOST_NAMED = 4;

    private ShelfPage() {}

    /** One lot: cells before and after what is left of it. */
    public record LotRow(
            String id, List<SheetCell> first, List<SheetCell> last, String left, double share, String word) {}

    /** One pigment, with what its good lots hold together and what those past their date do. */
    public record PigmentRow(String id, List<SheetCell> cells, String left, String past) {}

    /** One resin's head. */
    public record ResinHead(String id, String name) {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.get("/shelf", context -> show(context, book, LocalDate.now(clock)));
    }

    private static void show(Context context, LiveBook live, LocalDate today) throws SaveFailedException {
        Book book = live.now().book();
        BookWriter writer = live.writer();
        JsonNode nothing = JsonNodeFactory.instance.objectNode();
        List<LotRow> lots = new ArrayList<>();
        int wanting = 0;
        for (Lot lot : book.lots().values()) {
            LotRow row = lot(book, lot, writer.read(Kind.LOT, lot.id()).record(), today);
            wanting += row.word().isEmpty() ? 0 : 1;
            lots.add(row);
        }
        Map<String, Double> leftGood = leftGrams(book, lot -> lot.isGoodOn(today));
        Map<String, Double> leftPast = leftGrams(book, lot -> !lot.isGoodOn(today));
        List<PigmentRow> pigments = new ArrayList<>();
        for (String id : book.pigments().keySet()) {
            double past = leftPast.getOrDefault(id, 0.0);
            pigments.add(new PigmentRow(
                    id,
                    ShelfCells.pigment(book, writer.read(Kind.PIGMENT, id).record()),
                    Figures.of(leftGood.getOrDefault(id, 0.0), 1),
                    past > 0 ? Numbers.fixed(past, 1) + " g" : ""));
        }
        Map<String, Object> values = new HashMap<>();
        values.put("lots", lots);
        values.put("newLot", ShelfCells.lot(book, nothing));
        values.put("newLotFigures", ShelfCells.lotFigures(nothing));
        values.put("currency", SheetEdits.usualCurrency(book));
        values.put("wanting", wanting);
        values.put("past", named(lots, PAST));
        values.put("low", named(lots, LOW));
        // What recipes could ask for and no lot can give today.
        values.put(
                "out",
                few(book.pigments().values().stream()
                        .filter(pigment -> leftGood.getOrDefault(pigment.id(), 0.0) <= 0)
                        .map(Pigment::name)
                        .toList()));
        values.put(
                "resins",
                book.resins().values().stream()
                        .map(resin -> new ResinHead(resin.id(), resin.name()))
                        .toList());
        values.put("lines", ShelfCells.resins(records(writer, book.resins().keySet())));
        values.put("pigments", pigments);
        values.put("newPigment", ShelfCells.pigment(book, nothing));
        values.put("awayLots", live.putAway().ids(Kind.LOT));
        values.put("awayResins", live.putAway().ids(Kind.RESIN));
        values.put("awayPigments", live.putAway().ids(Kind.PIGMENT));
        Pages.show(context, "shelf.jte", values);
    }

    /** Returns what certain lots hold of each product, g. */
    private static Map<String, Double> leftGrams(Book book, Predicate<Lot> which) {
        return book.lots().values().stream()
                .filter(which)
                .collect(Collectors.groupingBy(Lot::of, Collectors.summingDouble(book::leftGrams)));
    }

    private static String named(List<LotRow> lots, String word) {
        return few(lots.stream()
                .filter(each -> each.word().equals(word))
                .map(LotRow::id)
                .toList());
    }

    private static String few(List<String> names) {
        int more = names.size() - MOST_NAMED;
        return String.join(", ", names.subList(0, Math.min(MOST_NAMED, names.size())))
                + (more > 0 ? " and " + more + " more" : "");
    }

    private static List<JsonNode> records(BookWriter writer, Collection<String> ids) throws SaveFailedException {
        List<JsonNode> records = new ArrayList<>();
        for (String id : ids) {
            records.add(writer.read(Kind.RESIN, id).record());
        }
        return records;
    }

    private static LotRow lot(Book book, Lot lot, JsonNode record, LocalDate today) {
        double left = book.leftGrams(lot);
        double share = lot.quantity().grams() > 0 ? left / lot.quantity().grams() : 0;
        String word = !lot.isGoodOn(today) ? PAST : share < NEARLY_EMPTY ? LOW : "";
        return new LotRow(
                lot.id(),
                ShelfCells.lot(book, record),
                ShelfCells.lotFigures(record),
                Figures.of(left, 1),
                Math.round(Math.max(0, Math.min(1, share)) * 1000) / 10.0,
                word);
    }
}
