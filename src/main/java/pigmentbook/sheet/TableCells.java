package pigmentbook.sheet;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Table;

/** Gathers the cells of a table within limits, and writes figures as a person would type them. */
final class TableCells {

    private static final int MOST_ROWS = 50_000;
    private static final int MOST_COLUMNS = 256;
    private static final int MOST_TEXT = 32_767;
    private static final int MOST_CHARACTERS = 32 * 1024 * 1024;
    private static final Pattern SHOWN = Pattern.compile(
            "\\s*([^\\d\\s.,+()-]{0,8})\\s*[+-]?[\\d.,\\s'’]*\\d(?:[eE][+-]?\\d+)?\\s*([^\\d.,]{0,16}?)\\s*");

    private final String sheet;
    private final List<Table.Row> rows = new ArrayList<>();
    private List<String> cells = new ArrayList<>();
    private int characters;

    TableCells(String sheet) {
        this.sheet = sheet;
    }

    /** Sets a cell of the row that is being gathered; columns count from 0. */
    void set(int column, String text) throws BadTableException {
        if (text.isBlank()) {
            return;
        }
        if (column >= MOST_COLUMNS) {
            throw new BadTableException(
                    "The table has more than " + MOST_COLUMNS + " columns. Take out what is no table.");
        }
        characters += text.length();
        if (text.length() > MOST_TEXT || characters > MOST_CHARACTERS) {
            throw new BadTableException(
                    "The table holds more text than a table of recipes does. Split it into smaller ones.");
        }
        while (cells.size() <= column) {
            cells.add("");
        }
        cells.set(column, text.strip());
    }

    /** Ends the row that is being gathered; an empty one is passed over. */
    void endRow(int number) throws BadTableException {
        if (cells.isEmpty()) {
            return;
        }
        if (rows.size() >= MOST_ROWS) {
            throw new BadTableException(
                    "The table has more than " + MOST_ROWS + " filled rows. Split it into smaller ones.");
        }
        rows.add(new Table.Row(number, List.copyOf(cells)));
        cells = new ArrayList<>();
    }

    Table table() {
        return new Table(sheet, List.copyOf(rows));
    }

    /**
     * Returns a figure with the sign or unit that it is shown with: 0.012 shown as {@code 1.2%} is {@code 1.2 %}.
     *
     * @param value the cell's value
     * @param shown any figure as the cell's format shows it
     */
    static String figure(double value, String shown) {
        Matcher matcher = SHOWN.matcher(shown);
        String before = "";
        String after = "";
        if (matcher.matches()) {
            before = matcher.group(1);
            after = matcher.group(2).replaceAll("[()]", "");
        }
        if (after.equals("%")) {
            BigDecimal percent = new BigDecimal(Numbers.plain(value)).movePointRight(2);
            return (percent.signum() == 0 ? "0" : percent.stripTrailingZeros().toPlainString()) + " %";
        }
        return (before.isEmpty() ? "" : before + " ") + Numbers.plain(value) + (after.isEmpty() ? "" : " " + after);
    }
}
