package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Gathers the rows of a page: makes each high enough for its text, and breaks pages where nothing is torn apart. */
final class Rows {

    private final List<Double> columnsMm;
    private final List<Grid.Row> rows = new ArrayList<>();
    private final List<Integer> blocks = new ArrayList<>();
    private final List<Integer> parts = new ArrayList<>();

    Rows(List<Double> columnsMm) {
        this.columnsMm = columnsMm;
    }

    static Grid.Placed at(int column, Cell cell) {
        return new Grid.Placed(column, cell);
    }

    void add(double leastPt, Grid.Placed... cells) {
        add(leastPt, Arrays.asList(cells));
    }

    /** Adds a row at least so high, and higher where its text needs it. */
    void add(double leastPt, List<Grid.Placed> cells) {
        double height = leastPt;
        for (Grid.Placed placed : cells) {
            height = Math.max(height, needPt(placed));
        }
        rows.add(new Grid.Row(Math.ceil(height * 4) / 4, false, List.copyOf(cells)));
    }

    private double needPt(Grid.Placed placed) {
        Cell cell = placed.cell();
        if (!(cell.content() instanceof Cell.Text text)
                || cell.down() > 1
                || !cell.style().wrap()) {
            return 0;
        }
        double widthMm = 0;
        for (int i = 0; i < cell.across(); i++) {
            widthMm += columnsMm.get(placed.column() + i);
        }
        return Texts.heightPt(text.text(), cell.style(), widthMm);
    }

    /** Adds an empty row. */
    void gap(double heightPt) {
        rows.add(new Grid.Row(heightPt, false, List.of()));
    }

    /** Adds a row that nobody sees. */
    void hidden(Grid.Placed... cells) {
        rows.add(new Grid.Row(0, false, List.of(cells)));
    }

    /** Begins what should stay on one page. */
    void block() {
        blocks.add(rows.size());
        parts.add(rows.size());
    }

    /** Begins a part of a block: where a block is higher than a page, it is broken between parts. */
    void part() {
        parts.add(rows.size());
    }

    double heightPt() {
        return height(0, rows.size());
    }

    List<Grid.Row> onOnePage() {
        return List.copyOf(rows);
    }

    /** Returns the rows with page breaks: before a block that would not fit, or before its parts if it never fits. */
    List<Grid.Row> onPages(double roomPt) {
        List<Grid.Row> broken = new ArrayList<>(rows);
        int page = 0;
        for (int i = 0; i < parts.size(); i++) {
            int from = parts.get(i);
            int to = i + 1 < parts.size() ? parts.get(i + 1) : rows.size();
            int blockEnd = blockEnd(from);
            boolean whole = blocks.contains(from) && height(from, blockEnd) <= roomPt;
            if (height(page, whole ? blockEnd : to) > roomPt && from > page) {
                Grid.Row row = broken.get(from);
                broken.set(from, new Grid.Row(row.heightPt(), true, row.cells()));
                page = from;
            }
        }
        return broken;
    }

    private int blockEnd(int from) {
        for (int block : blocks) {
            if (block > from) {
                return block;
            }
        }
        return rows.size();
    }

    private double height(int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += rows.get(i).heightPt();
        }
        return sum;
    }
}
