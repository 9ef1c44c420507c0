package pigmentbook.sheet;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * One sheet as rows of typed cells. It is complete: a writer only draws it.
 *
 * @param title the sheet's own name
 * @param foot the words at the foot of each page
 * @param columnsMm the width of each column, in mm
 * @param rows the rows, top first
 * @param onePage whether it is made to fit one page
 */
public record Grid(String title, String foot, List<Double> columnsMm, List<Row> rows, boolean onePage) {

    /**
     * One row.
     *
     * @param heightPt its height in points, enough for its text; 0 for a row that nobody sees
     * @param newPage whether a new page begins with it
     * @param cells its cells, left to right, none that another one's span covers
     */
    public record Row(double heightPt, boolean newPage, List<Placed> cells) {

        boolean isHidden() {
            return heightPt == 0;
        }
    }

    /**
     * A cell in its column.
     *
     * @param column the column, from 0
     * @param cell the cell
     */
    public record Placed(int column, Cell cell) {}

    /**
     * Where a cell stands.
     *
     * @param row its row, from 0
     * @param column its column, from 0
     */
    public record Address(int row, int column) {

        /** Returns the address as office programs write it, fixed: {@code $B$12}. */
        public String written() {
            return "$" + letters(column) + "$" + (row + 1);
        }

        static String letters(int column) {
            String last = String.valueOf((char) ('A' + column % 26));
            return column < 26 ? last : letters(column / 26 - 1) + last;
        }
    }

    /** Returns where each named cell stands, in the order of the sheet. */
    public Map<String, Address> names() {
        Map<String, Address> names = new LinkedHashMap<>();
        for (int row = 0; row < rows.size(); row++) {
            for (Placed placed : rows.get(row).cells()) {
                String name = placed.cell().name();
                if (name != null && names.put(name, new Address(row, placed.column())) != null) {
                    throw new IllegalStateException("two cells named " + name);
                }
            }
        }
        return names;
    }

    /** Returns the height of all rows, in points. */
    public double heightPt() {
        return rows.stream().mapToDouble(Row::heightPt).sum();
    }
}
