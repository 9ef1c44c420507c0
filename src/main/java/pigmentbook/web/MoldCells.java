package pigmentbook.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.store.Edit;
import pigmentbook.store.Edits;

/** The cells of a mold's sheets: its measures, its inserts, its stations or corners. */
public final class MoldCells {

    static final List<String> KINDS =
            List.of("box", "taperedBox", "cylinder", "cone", "dome", "outline", "stations", "prism", "volume", "water");
    private static final List<String> INSERT_KINDS =
            List.of("box", "cylinder", "cone", "dome", "prism", "volume", "outline", "taperedBox", "stations", "water");
    private static final String SHAPE = "/shape/";

    /** One measure of a kind of shape: its name on the page, its field, and the unit a bare number means. */
    private record Measure(String head, String field, String unit) {
        static Measure mm(String head, String field) {
            return new Measure(head, field, "mm");
        }
    }

    private static final Map<String, List<Measure>> MEASURES = Map.of(
            "box", List.of(Measure.mm("Length", "length"), Measure.mm("Width", "width"), Measure.mm("Depth", "depth")),
            "taperedBox",
                    List.of(
                            Measure.mm("Length at the top", "topLength"),
                            Measure.mm("Width at the top", "topWidth"),
                            Measure.mm("Length at the floor", "bottomLength"),
                            Measure.mm("Width at the floor", "bottomWidth"),
                            Measure.mm("Depth", "depth")),
            "cylinder", List.of(Measure.mm("Diameter", "diameter"), Measure.mm("Depth", "depth")),
            "cone",
                    List.of(
                            Measure.mm("Diameter at the top", "topDiameter"),
                            Measure.mm("Diameter at the floor", "bottomDiameter"),
                            Measure.mm("Depth", "depth")),
            "dome", List.of(Measure.mm("Diameter of the opening", "diameter"), Measure.mm("Depth", "depth")),
            "outline", List.of(Measure.mm("Depth", "depth")),
            "stations", List.of(Measure.mm("Spacing of the widths", "spacing"), Measure.mm("Depth", "depth")),
            "prism", List.of(new Measure("Area", "area", "cm2"), Measure.mm("Depth", "depth")),
            "volume", List.of(new Measure("Volume", "volume", "mL")),
            "water",
                    List.of(
                            new Measure("Water that fills it", "mass", "g"),
                            new Measure("Water’s temperature", "temperature", "C")));

    /** What the columns of the inserts are called for a box. */
    private static final String[] BOX = {"length", "width", "depth"};

    private MoldCells() {}

    /** A row of a list in a record: its cells, and how it is taken out. */
    public record Row(String key, String take, String entry, List<SheetCell> cells) {}

    /** Returns the rows of a mold's own sheet for a kind of shape. */
    static List<SheetCell> own(JsonNode record, String kind) {
        List<SheetCell> cells = new ArrayList<>();
        cells.add(SheetCell.of(record, "Name", "/name", ""));
        cells.add(
                new SheetCell("Shape", "/shape/kind", record.at("/shape/kind").asText(), "", String.join("|", KINDS)));
        for (Measure measure : MEASURES.getOrDefault(kind, List.of())) {
            cells.add(SheetCell.of(record, measure.head(), SHAPE + measure.field(), measure.unit()));
        }
        if (!kind.equals("volume") && !kind.equals("water")) {
            cells.add(SheetCell.of(record, "Fill, from the floor", "/fill", "mm"));
        }
        cells.add(SheetCell.of(record, "Molds filled at once", "/count", ""));
        cells.add(SheetCell.of(record, "Bare wood in one", "/bareWood", "cm2"));
        cells.add(SheetCell.of(record, "Room measured by a pour", "/measured", "mL"));
        cells.add(SheetCell.of(record, "Notes", "/notes", ""));
        return cells;
    }

    /** Returns the inserts, the last one an empty row to begin another in. */
    static List<Row> inserts(JsonNode record) {
        List<Row> rows = new ArrayList<>();
        JsonNode list = record.path("inserts");
        for (int i = 0; i < list.size(); i++) {
            String at = "/inserts/" + i;
            rows.add(new Row(String.valueOf(i), at, "[" + list.get(i) + "]", insert(record, at)));
        }
        return rows;
    }

    /** Returns an empty row for another insert. */
    static List<SheetCell> newInsert() {
        return List.of(
                new SheetCell("Insert", "/name", "", "", ""),
                new SheetCell("How many", "/count", "", "", ""),
                new SheetCell("From the floor", "/from", "", "mm", ""),
                new SheetCell("Shape", "/shape/kind", "", "", String.join("|", INSERT_KINDS)),
                new SheetCell("Length, diameter", "/shape/length", "", "mm", ""),
                new SheetCell("Width", "/shape/width", "", "mm", ""),
                new SheetCell("High", "/shape/depth", "", "mm", ""));
    }

    private static List<SheetCell> insert(JsonNode record, String at) {
        String kind = record.at(at + "/shape/kind").asText();
        List<SheetCell> cells = new ArrayList<>();
        cells.add(SheetCell.of(record, "Insert", at + "/name", ""));
        cells.add(SheetCell.of(record, "How many", at + "/count", ""));
        cells.add(SheetCell.of(record, "From the floor", at + "/from", "mm"));
        cells.add(SheetCell.choice(record, "Shape", at + "/shape/kind", INSERT_KINDS));
        Measure[] columns = columns(kind);
        String[] heads = {"Length, diameter", "Width", "High"};
        for (int i = 0; i < columns.length; i++) {
            cells.add(
                    columns[i] == null
                            ? SheetCell.none(heads[i])
                            : SheetCell.of(record, heads[i], at + SHAPE + columns[i].field(), columns[i].unit()));
        }
        return cells;
    }

    /** Returns which measure of an insert's kind of shape stands in each of the columns, or null for none. */
    private static @Nullable Measure[] columns(String kind) {
        @Nullable Measure[] columns = new Measure[BOX.length];
        for (Measure measure : MEASURES.getOrDefault(kind, List.of())) {
            int column = switch (measure.field()) {
                case "depth" -> 2;
                case "width", "bottomDiameter" -> 1;
                default -> 0;
            };
            if (columns[column] == null) {
                columns[column] = measure;
            }
        }
        return columns;
    }

    /**
     * Fits an insert that is begun to its kind: the empty row calls its columns as a box does, whatever shape is chosen
     * in it.
     */
    static Edit fitted(Edit edit) {
        if (edit.what() != Edit.What.ADD || !edit.path().startsWith("/inserts/")) {
            return edit;
        }
        try {
            if (SheetEdits.Json.MAPPER.readTree(edit.now()) instanceof ObjectNode insert
                    && insert.get("shape") instanceof ObjectNode shape) {
                @Nullable Measure[] columns = columns(shape.path("kind").asText());
                ObjectNode typed = shape.deepCopy();
                for (String field : BOX) {
                    shape.remove(field);
                }
                for (int i = 0; i < BOX.length; i++) {
                    JsonNode text = typed.get(BOX[i]);
                    Measure measure = columns[i];
                    if (text != null && measure != null) {
                        shape.set(measure.field(), text);
                    }
                }
                return new Edit(edit.what(), edit.path(), edit.was(), insert.toString());
            }
        } catch (JsonProcessingException e) {
            // What can't be read is told where the edit is put in.
            return edit;
        }
        return edit;
    }

    /** Returns the widths of a mold known by its stations, or the corners of an outline; an empty row at the end. */
    static List<Row> points(JsonNode record, String kind) {
        boolean stations = kind.equals("stations");
        String list = SHAPE + (stations ? "widths" : "points");
        JsonNode bottoms = record.at("/shape/bottomWidths");
        int size = record.at(list).size();
        List<Row> rows = new ArrayList<>();
        for (int i = 0; i <= size; i++) {
            boolean there = i < size;
            JsonNode entry = record.at(list + "/" + i);
            if (stations) {
                boolean both = bottoms.size() > i;
                rows.add(new Row(
                        String.valueOf(i),
                        !there ? "" : list + "/" + i + (both ? " /shape/bottomWidths/" + i : ""),
                        "[" + entry + (both ? "," + bottoms.get(i) : "") + "]",
                        List.of(
                                new SheetCell("Width", list + "/" + i, Edits.text(entry), "mm", ""),
                                new SheetCell(
                                        "Width at the floor",
                                        "/shape/bottomWidths/" + i,
                                        Edits.text(bottoms.path(i)),
                                        "mm",
                                        ""))));
            } else {
                rows.add(new Row(
                        String.valueOf(i),
                        there ? list + "/" + i : "",
                        "[" + entry + "]",
                        List.of(
                                new SheetCell("Across", list + "/" + i + "/0", Edits.text(entry.path(0)), "mm", ""),
                                new SheetCell("Up", list + "/" + i + "/1", Edits.text(entry.path(1)), "mm", ""))));
            }
        }
        return rows;
    }
}
