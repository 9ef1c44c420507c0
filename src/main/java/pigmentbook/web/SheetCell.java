package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import pigmentbook.store.Edits;

/**
 * A cell of a sheet that somebody may type in.
 *
 * @param head what stands in it
 * @param path where in its record it is kept, as a JSON pointer; empty for a cell that can't be used
 * @param text what stands there, as it was typed
 * @param unit the unit that a bare number means, or empty
 * @param choices what may be chosen, between bars, or empty for anything
 */
public record SheetCell(String head, String path, String text, String unit, String choices) {

    static SheetCell of(JsonNode record, String head, String path, String unit) {
        return new SheetCell(head, path, Edits.text(record.at(path)), unit, "");
    }

    static SheetCell choice(JsonNode record, String head, String path, List<String> choices) {
        return new SheetCell(head, path, Edits.text(record.at(path)), "", String.join("|", choices));
    }

    static SheetCell none(String head) {
        return new SheetCell(head, "", "", "", "");
    }

    /** Returns whether it can be typed in. */
    public boolean used() {
        return !path.isEmpty();
    }
}
