package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import pigmentbook.book.Book;
import pigmentbook.book.Pigment;

/** The cells of the shelf's sheets. */
public final class ShelfCells {

    private static final List<String> BASES = List.of("weight", "volume");

    /** A line of the resins' sheet: what a data sheet says, where it is kept, and the unit a bare number means. */
    private record Line(String head, String path, String unit, List<String> choices) {
        static Line of(String head, String path, String unit) {
            return new Line(head, path, unit, List.of());
        }
    }

    private static final List<Line> RESIN = List.of(
            Line.of("Name", "/name", ""),
            new Line("Ratio is by", "/ratio/by", "", BASES),
            Line.of("Part A", "/ratio/a", ""),
            Line.of("Part B", "/ratio/b", ""),
            Line.of("A to B, at least", "/ratio/window/least", ""),
            Line.of("A to B, at most", "/ratio/window/most", ""),
            new Line("Second ratio is by", "/ratioAlso/by", "", BASES),
            Line.of("Second ratio, part A", "/ratioAlso/a", ""),
            Line.of("Second ratio, part B", "/ratioAlso/b", ""),
            Line.of("Density of part A", "/densityA", "g/mL"),
            Line.of("Density of part B", "/densityB", "g/mL"),
            Line.of("Density, mixed", "/density", "g/mL"),
            Line.of("Layer, at least", "/layer/least", "mm"),
            Line.of("Layer, at most", "/layer/most", "mm"),
            Line.of("Largest batch", "/batchMost", "kg"),
            Line.of("Working time", "/workingTime", "min"),
            Line.of("… at", "/workingTimeAt", "C"),
            Line.of("… of a mass of", "/workingTimeMass", "g"),
            Line.of("Next layer from", "/recoat/from", "h"),
            Line.of("Next layer until", "/recoat/to", "h"),
            Line.of("Demold after", "/demold", "h"),
            Line.of("Full cure after", "/fullCure", "d"),
            Line.of("Room, at least", "/temperature/least", "C"),
            Line.of("Room, at most", "/temperature/most", "C"),
            Line.of("Humidity, at most", "/humidityMost", "%"),
            Line.of("Top loading", "/topLoading", "%"),
            Line.of("Shrinkage", "/shrinkage", "%"),
            Line.of("Bare wood takes", "/soak", "g/m2"),
            Line.of("Notes", "/notes", ""));

    private ShelfCells() {}

    /** A row of the resins' sheet: a property, and each resin's cell. */
    public record Across(String head, String unit, List<SheetCell> cells) {}

    static List<Across> resins(List<? extends JsonNode> records) {
        List<Across> rows = new ArrayList<>();
        for (Line line : RESIN) {
            rows.add(new Across(
                    line.head(),
                    line.unit(),
                    records.stream()
                            .map(record -> line.choices().isEmpty()
                                    ? SheetCell.of(record, line.head(), line.path(), line.unit())
                                    : SheetCell.choice(record, line.head(), line.path(), line.choices()))
                            .toList()));
        }
        return rows;
    }

    static List<SheetCell> pigment(Book book, JsonNode record) {
        List<String> kinds = Stream.of(Pigment.Kind.values())
                .map(kind -> kind.name().toLowerCase(Locale.ROOT))
                .toList();
        List<String> pigments = new ArrayList<>(List.of(""));
        pigments.addAll(book.pigments().keySet());
        return List.of(
                SheetCell.of(record, "Pigment", "/name", ""),
                SheetCell.choice(record, "Kind", "/kind", kinds),
                SheetCell.of(record, "Density", "/density", "g/mL"),
                SheetCell.of(record, "Top loading", "/topLoading", "%"),
                SheetCell.of(record, "A drop weighs", "/dropMass", "g"),
                SheetCell.choice(record, "Carrier", "/carrier/is", List.of("", "part A", "other")),
                SheetCell.of(record, "Share of carrier", "/carrier/share", "%"),
                SheetCell.choice(record, "Concentrate of", "/contains/pigment", pigments),
                SheetCell.of(record, "Share of it", "/contains/share", "%"),
                SheetCell.of(record, "Notes", "/notes", ""));
    }

    static List<SheetCell> lot(Book book, JsonNode record) {
        List<String> products = new ArrayList<>(book.resins().keySet());
        products.addAll(book.pigments().keySet());
        return List.of(
                SheetCell.choice(record, "Of", "/of", products),
                SheetCell.choice(record, "Part", "/part", List.of("", "A", "B")),
                SheetCell.of(record, "Supplier’s code", "/code", ""),
                SheetCell.of(record, "Received", "/received", ""),
                SheetCell.of(record, "Opened", "/opened", ""),
                SheetCell.of(record, "Good through", "/expires", ""),
                SheetCell.of(record, "Came", "/quantity", "g"));
    }

    static List<SheetCell> lotFigures(JsonNode record) {
        return List.of(
                SheetCell.of(record, "Price", "/price/amount", ""),
                SheetCell.of(record, "Strength", "/strength", "%"),
                SheetCell.of(record, "Density", "/density", "g/mL"),
                SheetCell.of(record, "A drop weighs", "/dropMass", "g"));
    }
}
