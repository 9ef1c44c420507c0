package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.book.Resin;
import pigmentbook.mix.Shopping;
import pigmentbook.quantity.Mass;
import pigmentbook.store.BenchLog;

/** What the pours that are planned at the bench still need and the shelf lacks. */
public final class Lacking {

    private Lacking() {}

    /** A line of the list. */
    public record Line(String name, String needs, String has, String lacks) {}

    static List<Line> of(Book book, List<JsonNode> records, LocalDate today) {
        Map<Shopping.Product, Double> needs = new LinkedHashMap<>();
        for (JsonNode record : records) {
            Resin resin = BenchPage.resin(book, record);
            if (resin != null) {
                add(needs, record, resin.id());
            }
        }
        List<Line> lines = new ArrayList<>();
        for (Shopping.Line line : Shopping.of(book, needs, today)) {
            lines.add(new Line(
                    name(book, line.product()),
                    Figures.of(line.needsGrams(), 1),
                    Figures.of(line.hasGrams(), 1),
                    Figures.of(line.lacksGrams(), 1)));
        }
        return lines;
    }

    private static void add(Map<Shopping.Product, Double> needs, JsonNode record, String resin) {
        int layer = 0;
        for (JsonNode planned : record.path("plan").path("layers")) {
            layer++;
            int cup = 0;
            for (JsonNode each : planned.path("cups")) {
                cup++;
                Map<Item, Double> in = BenchLog.inCup(record, layer, cup);
                for (JsonNode item : each.path("items")) {
                    Item what = Item.of(item.path("item").asText());
                    double open = Mass.parse(item.path("target").asText()).grams() - in.getOrDefault(what, 0.0);
                    needs.merge(new Shopping.Product(resin, what), Math.max(0, open), Double::sum);
                }
            }
        }
    }

    private static String name(Book book, Shopping.Product product) {
        Pigment pigment = book.pigments().get(product.item().id());
        Resin resin = book.resins().get(product.resinId());
        return pigment != null
                ? pigment.name()
                : product.item() + " of " + (resin == null ? product.resinId() : resin.name());
    }
}
