package pigmentbook.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import pigmentbook.quantity.Numbers;

/**
 * What stands in the named cells of a mix sheet, whatever it was read from.
 *
 * @param cells the text of each named cell, in the order of the sheet; empty where it is empty; numbers with a dot as
 *     decimal mark, days as {@code 2026-03-02T10:15}
 * @param problems what could not be told apart while reading
 * @param notes what somebody wrote beside a cell, as a comment on it
 * @param weighings what was weighed lot by lot where a row's cells can't say it, from a bench without a network
 */
public record Entries(
        Map<String, String> cells, List<Problem> problems, List<Problem> notes, List<Weighing> weighings) {

    private static final int MOST_ENTRIES = 20_000;
    private static final Pattern SHEET_ID = Pattern.compile("[A-Za-z0-9][A-Za-z0-9-]{0,119}");

    /**
     * Something a person has to look at.
     *
     * @param cell the defined name of the cell, or its address where it has none
     * @param text what is wrong and what to do
     */
    public record Problem(String cell, String text) {}

    /**
     * What one lot gave.
     *
     * @param row the weigh row
     * @param lot the lot as typed
     * @param grams the amount as typed
     * @param isThrown whether its cup was thrown away
     */
    record Weighing(RowName row, String lot, String grams, boolean isThrown) {}

    /**
     * Checks that these are the entries of a mix sheet.
     *
     * @throws NoMixSheetException if they lack the sheet's own id
     */
    static Entries of(Map<String, String> cells, List<Problem> problems) throws NoMixSheetException {
        return of(cells, problems, List.of(), List.of());
    }

    /**
     * Checks that these are the entries of a mix sheet.
     *
     * @throws NoMixSheetException if they lack the sheet's own id
     */
    static Entries of(Map<String, String> cells, List<Problem> problems, List<Problem> notes, List<Weighing> weighings)
            throws NoMixSheetException {
        String id = cells.getOrDefault(CellNames.ID, "").strip();
        if (id.isEmpty()) {
            throw new NoMixSheetException("is no mix sheet: nothing in it is named " + CellNames.ID
                    + ". Read the xlsx, ods or csv that was filled in.");
        }
        if (!SHEET_ID.matcher(id).matches()) {
            throw new NoMixSheetException("has the sheet id " + Shown.quoted(id)
                    + "; letters, digits and hyphens were expected. Take it over from the sheet as it was made.");
        }
        return new Entries(cells, problems, notes, weighings);
    }

    /**
     * Returns entries that another program read already.
     *
     * @param draft {@code mix_id}, {@code recipe} (its id or name), {@code revision}, and {@code entries}: texts or
     *     numbers by defined name; {@code weighings} where one row has several lots or its cup was thrown away:
     *     {@code cell} (the row, such as {@code 1_1_part_A}), {@code lot}, {@code grams}, {@code thrown}
     * @throws NoMixSheetException if it is none
     */
    public static Entries of(ObjectNode draft) throws NoMixSheetException {
        Map<String, String> cells = new LinkedHashMap<>();
        cells.put(CellNames.ID, text(draft.path("mix_id")));
        cells.put(CellNames.RECIPE, text(draft.path("recipe")));
        cells.put(CellNames.REVISION, text(draft.path("revision")));
        JsonNode entries = draft.path("entries");
        if (!entries.isObject() || entries.size() > MOST_ENTRIES) {
            throw new NoMixSheetException(
                    "is no mix sheet: \"entries\" with the text of each named cell was expected.");
        }
        for (Map.Entry<String, JsonNode> entry : entries.properties()) {
            if (RowName.ofName(entry.getKey()) == null && !CellNames.isOfASheet(entry.getKey())) {
                throw new NoMixSheetException("has an entry " + Shown.quoted(entry.getKey())
                        + "; the name of a cell was expected, such as actual_g_1_1_part_A.");
            }
            cells.put(entry.getKey(), text(entry.getValue()));
        }
        return of(cells, List.of(), List.of(), weighings(draft.path("weighings")));
    }

    private static List<Weighing> weighings(JsonNode list) throws NoMixSheetException {
        List<Weighing> weighings = new ArrayList<>();
        if (list.size() > MOST_ENTRIES) {
            throw new NoMixSheetException("holds more than " + MOST_ENTRIES + " weighings; no mix does.");
        }
        for (JsonNode each : list) {
            String cell = text(each.path("cell"));
            RowName row = RowName.ofName("actual_g_" + cell);
            if (row == null) {
                throw new NoMixSheetException("has a weighing of " + Shown.quoted(cell)
                        + "; the ending of a cell's name was expected, such as 1_1_part_A.");
            }
            weighings.add(new Weighing(
                    row,
                    text(each.path("lot")).strip(),
                    text(each.path("grams")).strip(),
                    each.path("thrown").asBoolean()));
        }
        return List.copyOf(weighings);
    }

    private static String text(JsonNode value) throws NoMixSheetException {
        if (value.isContainerNode()) {
            throw new NoMixSheetException("has a list where the text of one cell was expected.");
        }
        String text = value.isNumber() ? Numbers.plain(value.doubleValue()) : value.isNull() ? "" : value.asText();
        if (text.length() > Markup.MOST_TEXT) {
            throw new NoMixSheetException("holds a text of more than " + Markup.MOST_TEXT + " characters.");
        }
        return text;
    }

    /** Returns what stands in a cell, without spaces around it; nothing is empty. */
    String at(String name) {
        return cells.getOrDefault(name, "").strip();
    }
}
