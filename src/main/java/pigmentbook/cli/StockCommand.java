package pigmentbook.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Opened;

/** Shows what is left of the lots. */
@Command(
        name = "stock",
        mixinStandardHelpOptions = true,
        description = "Show what is left of each lot: received, less pours, with corrections.",
        footer = {"", "Examples:", "  pigment-book stock", "  pigment-book stock A-2409 --format json"})
final class StockCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(arity = "0..1", paramLabel = "LOT", description = "One lot; default: all.")
    private @Nullable String lot;

    @Override
    public Integer call() throws Exception {
        Opened opened = book.open();
        Book all = opened.book();
        List<Book.Stock> stocks = new ArrayList<>();
        if (lot == null) {
            all.lots().values().forEach(each -> stocks.add(all.stockOf(each)));
        } else {
            stocks.add(all.stockOf(lot(book, opened, lot)));
        }
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartArray();
                for (Book.Stock stock : stocks) {
                    json.writeStartObject();
                    json.writeStringField("lot", stock.lot().id());
                    json.writeStringField("of", stock.lot().of());
                    json.writeNumberField("left_g", stock.leftGrams());
                    json.writeNumberField("received_g", stock.receivedGrams());
                    json.writeNumberField("poured_g", stock.pouredGrams());
                    json.writeNumberField("corrected_g", stock.correctedGrams());
                    Json.texts(json, "pours", stock.pourIds());
                    json.writeEndObject();
                }
                json.writeEndArray();
            });
        } else {
            book.context().out().print(text(stocks));
        }
        book.tellProblems(opened);
        return Main.DONE;
    }

    /** Returns a lot, or refuses, naming the nearest ones. */
    static Lot lot(BookOptions book, Opened opened, String id) {
        Lot lot = opened.book().lots().get(id);
        if (lot == null) {
            throw book.unknown(
                    opened,
                    "lot",
                    id,
                    "shelf/lots/" + id + ".json",
                    opened.book().lots().keySet());
        }
        return lot;
    }

    private static String text(List<Book.Stock> stocks) {
        if (stocks.isEmpty()) {
            return "The shelf has no lots.\n";
        }
        List<List<String>> rows = new ArrayList<>();
        for (Book.Stock stock : stocks) {
            Lot lot = stock.lot();
            rows.add(List.of(
                    lot.id(),
                    lot.of() + (lot.part() == null ? "" : " " + lot.part()),
                    Numbers.fixed(stock.leftGrams(), 2),
                    Numbers.fixed(stock.receivedGrams(), 2),
                    Numbers.fixed(stock.pouredGrams(), 2),
                    Numbers.fixed(stock.correctedGrams(), 2),
                    lot.expires() == null ? "none" : lot.expires().toString()));
        }
        return new Lines(false)
                .table(
                        List.of("Lot", "Of", "Left, g", "Received", "Poured", "Corrected", "Good through"),
                        List.of(
                                Lines.Side.LEFT,
                                Lines.Side.LEFT,
                                Lines.Side.RIGHT,
                                Lines.Side.RIGHT,
                                Lines.Side.RIGHT,
                                Lines.Side.RIGHT,
                                Lines.Side.LEFT),
                        rows)
                .toString();
    }
}
