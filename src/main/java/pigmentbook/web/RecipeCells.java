package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import pigmentbook.web.MoldCells.Row;

/** The cells of a recipe's own sheets: its name, tags and notes, and its steps. */
final class RecipeCells {

    private RecipeCells() {}

    static List<SheetCell> own(JsonNode record) {
        return List.of(
                SheetCell.of(record, "Name", "/name", ""),
                SheetCell.of(record, "Tags", "/tags", ""),
                SheetCell.of(record, "Notes", "/notes", ""));
    }

    /** Returns the steps, the last row an empty one to begin another in. */
    static List<Row> steps(JsonNode record) {
        List<Row> rows = new ArrayList<>();
        JsonNode steps = record.path("steps");
        for (int i = 0; i <= steps.size(); i++) {
            String at = "/steps/" + i;
            boolean there = i < steps.size();
            rows.add(new Row(
                    String.valueOf(i),
                    there ? at : "",
                    "[" + steps.get(i) + "]",
                    List.of(
                            SheetCell.of(record, "Step", at + "/text", ""),
                            SheetCell.of(record, "When", at + "/when", ""))));
        }
        return rows;
    }
}
