package pigmentbook.mix;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;

/** What planned mixes need together and the shelf lacks. */
public final class Shopping {

    private Shopping() {}

    /**
     * What is bought: a part of a resin, or a pigment whatever the resin.
     *
     * @param resinId the resin; it tells parts apart and means nothing for a pigment
     * @param item the item
     */
    public record Product(String resinId, Item item) {}

    /**
     * A line of the list.
     *
     * @param product what lacks
     * @param needsGrams what the mixes need together, in g
     * @param hasGrams what good lots have, in g
     */
    public record Line(Product product, double needsGrams, double hasGrams) {

        /** Returns what is to be bought, in g. */
        public double lacksGrams() {
            return needsGrams - hasGrams;
        }
    }

    /**
     * Returns what lacks, in the order it is first needed.
     *
     * @param needs what the mixes need, in g
     * @param on the day: a lot past its date counts for nothing
     */
    public static List<Line> of(Book book, Map<Product, Double> needs, LocalDate on) {
        Map<Product, Double> together = new LinkedHashMap<>();
        needs.forEach((product, grams) -> together.merge(
                product.item().isPigment() ? new Product("", product.item()) : product, grams, Double::sum));
        List<Line> lines = new ArrayList<>();
        together.forEach((product, grams) -> {
            double has = 0;
            for (Lot lot : book.lotsOf(product.resinId(), product.item())) {
                has += lot.isGoodOn(on) ? Math.max(0, book.leftGrams(lot)) : 0;
            }
            if (grams > has) {
                lines.add(new Line(product, grams, has));
            }
        });
        return lines;
    }
}
