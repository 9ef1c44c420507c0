package pigmentbook.store;

import java.util.List;

/**
 * A table somebody has: one sheet of a workbook, or a csv file. Every cell is a text as a person would type it, a
 * figure with the unit or percent sign it is shown with, a day as {@code 2026-03-31}.
 *
 * @param sheet the sheet's name; empty for a csv file
 * @param rows the rows that hold something, in order
 */
public record Table(String sheet, List<Row> rows) {

    /**
     * A row.
     *
     * @param number its number in the file, from 1
     * @param cells its cells from the first column on; empty ones are empty texts
     */
    public record Row(int number, List<String> cells) {

        String cell(int column) {
            return column < cells.size() ? cells.get(column).strip() : "";
        }
    }
}
