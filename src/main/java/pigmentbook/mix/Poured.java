package pigmentbook.mix;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;

/**
 * What was weighed in a pour, all cups together, beside what was planned.
 *
 * @param rows one for each item, in the order it was first weighed
 * @param plannedGrams the sum of the targets, in g; null where one of them was not noted
 * @param weighedGrams the sum of what was weighed, in g
 */
public record Poured(List<Row> rows, @Nullable Double plannedGrams, double weighedGrams) {

    /**
     * One item.
     *
     * @param item the item
     * @param name its name
     * @param lots the lots it was taken from
     * @param plannedGrams what was planned, in g, or null where it was not noted
     * @param weighedGrams what was weighed, in g
     */
    public record Row(
            Item item,
            String name,
            List<String> lots,
            @Nullable Double plannedGrams,
            double weighedGrams) {

        /** Returns weighed / planned, or null where nothing was planned. */
        public @Nullable Double ofPlan() {
            return Poured.ofPlan(weighedGrams, plannedGrams);
        }
    }

    /** Adds up what a pour's layers and cups hold. */
    public static Poured of(Book book, Pour pour) {
        Map<Item, Sum> sums = new LinkedHashMap<>();
        for (Pour.Layer layer : pour.layers()) {
            for (Pour.Cup cup : layer.cups()) {
                Set<Item> seen = new LinkedHashSet<>();
                for (Pour.Weighed weighed : cup.weighed()) {
                    // An item's second lot in the same cup has no target of its own.
                    sums.computeIfAbsent(weighed.item(), item -> new Sum()).add(weighed, seen.add(weighed.item()));
                }
            }
        }
        List<Row> rows = new ArrayList<>();
        Double planned = 0.0;
        double all = 0;
        for (Map.Entry<Item, Sum> each : sums.entrySet()) {
            Sum sum = each.getValue();
            Double own = sum.planned ? (Double) sum.plannedGrams : null;
            Pigment pigment = book.pigments().get(each.getKey().id());
            String id = each.getKey().id();
            String name = pigment != null
                    ? pigment.name()
                    : each.getKey().isPigment()
                            ? id
                            : id.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + id.substring(1);
            rows.add(new Row(each.getKey(), name, List.copyOf(sum.lots), own, sum.grams));
            planned = planned == null || own == null ? null : (Double) (planned + own);
            all += sum.grams;
        }
        return new Poured(rows, rows.isEmpty() ? null : planned, all);
    }

    /** Returns all that was weighed / all that was planned, or null where nothing was planned. */
    public @Nullable Double ofPlan() {
        return ofPlan(weighedGrams, plannedGrams);
    }

    private static @Nullable Double ofPlan(double weighed, @Nullable Double planned) {
        return planned == null || planned <= 0 ? null : (Double) (weighed / planned);
    }

    private static final class Sum {
        private final Set<String> lots = new LinkedHashSet<>();
        private double grams;
        private double plannedGrams;
        private boolean planned = true;

        private void add(Pour.Weighed weighed, boolean first) {
            grams += weighed.grams();
            if (weighed.lot() != null) {
                lots.add(weighed.lot());
            }
            if (weighed.target() != null) {
                plannedGrams += weighed.target().grams();
            } else if (first) {
                planned = false;
            }
        }
    }
}
