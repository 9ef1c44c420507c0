package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Amount;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Table;

/**
 * A book's recipes and shelf as tables that an import understands: amounts as they are written, names with their ids.
 */
public final class BookTables {

    private BookTables() {}

    /** Returns the tables: recipes as they are now, pigments, resins, lots. The first row of each has its heads. */
    public static List<Table> of(Book book) {
        return List.of(recipes(book), pigments(book), resins(book), lots(book));
    }

    private static Table recipes(Book book) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of("Id", "Recipe", "Resin", "Percent of", "Pigment", "Percent", "Tags", "Notes"));
        for (Recipe recipe : book.recipes().values()) {
            Recipe.Revision now = recipe.current();
            List<String> begin = List.of(
                    recipe.id(), recipe.name(), now.resinId(), now.percentOf().words());
            List<String> end = List.of(String.join(", ", recipe.tags()), recipe.notes());
            if (now.pigments().isEmpty()) {
                rows.add(row(begin, List.of("", ""), end));
            }
            for (Recipe.PigmentLoading each : now.pigments()) {
                rows.add(row(begin, List.of(each.pigmentId(), each.percent().written()), end));
            }
        }
        return table("Recipes", rows);
    }

    private static List<String> row(List<String> begin, List<String> middle, List<String> end) {
        List<String> row = new ArrayList<>(begin);
        row.addAll(middle);
        row.addAll(end);
        return row;
    }

    private static Table pigments(Book book) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of(
                "Id", "Pigment", "Kind", "Density", "Top loading", "Drop mass", "Carrier", "Carrier share", "Notes"));
        for (Pigment each : book.pigments().values()) {
            Pigment.Carrier carrier = each.carrier();
            rows.add(List.of(
                    each.id(),
                    each.name(),
                    each.kind().name().toLowerCase(Locale.ROOT),
                    written(each.density()),
                    written(each.topLoading()),
                    written(each.dropMass()),
                    carrier == null ? "" : carrier.isPartA() ? "part A" : "other",
                    carrier == null ? "" : carrier.share().written(),
                    each.notes()));
        }
        return table("Pigments", rows);
    }

    private static Table resins(Book book) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of(
                "Id",
                "Resin",
                "Ratio",
                "Ratio at least",
                "Ratio at most",
                "Second ratio",
                "Density A",
                "Density B",
                "Mixed density",
                "Layer at least",
                "Layer at most",
                "Largest batch",
                "Working time",
                "Working time at",
                "Working time of",
                "Next layer from",
                "Next layer until",
                "Demold",
                "Full cure",
                "Room at least",
                "Room at most",
                "Humidity at most",
                "Top loading",
                "Shrinkage",
                "Soak",
                "Notes"));
        for (Resin each : book.resins().values()) {
            MixRatio.Window window = each.ratio() == null ? null : each.ratio().window();
            rows.add(List.of(
                    each.id(),
                    each.name(),
                    ratio(each.ratio()),
                    window == null ? "" : Numbers.plain(window.least().doubleValue()),
                    window == null ? "" : Numbers.plain(window.most().doubleValue()),
                    ratio(each.ratioAlso()),
                    written(each.densityA()),
                    written(each.densityB()),
                    written(each.density()),
                    written(each.layer().least()),
                    written(each.layer().most()),
                    written(each.batchMost()),
                    written(each.workingTime()),
                    written(each.workingTimeAt()),
                    written(each.workingTimeMass()),
                    written(each.recoat().least()),
                    written(each.recoat().most()),
                    written(each.demold()),
                    written(each.fullCure()),
                    written(each.temperature().least()),
                    written(each.temperature().most()),
                    written(each.humidityMost()),
                    written(each.topLoading()),
                    written(each.shrinkage()),
                    written(each.soak()),
                    each.notes()));
        }
        return table("Resins", rows);
    }

    private static String ratio(@Nullable MixRatio ratio) {
        return ratio == null
                ? ""
                : ratio.ratio().written() + " by " + ratio.by().name().toLowerCase(Locale.ROOT);
    }

    private static Table lots(Book book) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of(
                "Lot",
                "Product",
                "Part",
                "Code",
                "Received",
                "Opened",
                "Expires",
                "Quantity",
                "Price",
                "Currency",
                "Density",
                "Strength",
                "Drop mass"));
        for (Lot each : book.lots().values()) {
            rows.add(List.of(
                    each.id(),
                    each.of(),
                    shown(each.part()),
                    each.code(),
                    shown(each.received()),
                    shown(each.opened()),
                    shown(each.expires()),
                    each.quantity().written(),
                    each.price() == null ? "" : each.price().amount().toPlainString(),
                    each.price() == null ? "" : each.price().currency(),
                    written(each.density()),
                    written(each.strength()),
                    written(each.dropMass())));
        }
        return table("Lots", rows);
    }

    private static String written(@Nullable Amount amount) {
        return amount == null ? "" : amount.written();
    }

    private static String shown(@Nullable Object value) {
        return value == null ? "" : value.toString();
    }

    private static Table table(String name, List<List<String>> cells) {
        List<Table.Row> rows = new ArrayList<>();
        cells.forEach(each -> rows.add(new Table.Row(rows.size() + 1, each)));
        return new Table(name, rows);
    }
}
