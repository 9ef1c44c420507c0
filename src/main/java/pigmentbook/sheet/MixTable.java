package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import pigmentbook.mix.Mix;

/** The plain table of a mix: one row an item. */
final class MixTable {

    private static final List<String> HEAD = List.of(
            "layer",
            "cup",
            "item",
            "name",
            "lot",
            "exact_g",
            "weigh_g",
            "low_g",
            "high_g",
            "display_g",
            "actual_g",
            "recipe",
            "revision",
            CellNames.ID,
            CellNames.BY,
            CellNames.STARTED,
            CellNames.TEMPERATURE,
            CellNames.HUMIDITY,
            CellNames.LEFT,
            CellNames.LEVEL,
            CellNames.RATING,
            CellNames.RESULT,
            CellNames.DEVIATION,
            CellNames.PLAN);

    /** The columns that a person fills in, each for the whole mix but {@code by}, which is for a cup. */
    private static final int ENTRIES = HEAD.size() - HEAD.indexOf(CellNames.ID) - 2;

    private MixTable() {}

    static Grid of(Mix mix, SheetInfo info) {
        List<Grid.Row> rows = new ArrayList<>();
        String plan = Plan.of(mix).text();
        rows.add(row(HEAD.stream().map(head -> Cell.text(Style.BODY, head)).toList()));
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                for (Mix.Weighing weighing : cup.items()) {
                    List<Cell> cells = new ArrayList<>(List.of(
                            number(layer.number()),
                            number(cup.number()),
                            Cell.text(Style.BODY, weighing.item().id()),
                            Cell.text(Style.BODY, weighing.name()),
                            Cell.text(
                                    Style.BODY,
                                    weighing.lots().isEmpty()
                                            ? ""
                                            : weighing.lots().get(0).lotId()),
                            number(weighing.exactGrams()),
                            number(weighing.weighGrams()),
                            number(weighing.lowGrams()),
                            number(weighing.highGrams()),
                            number(weighing.displayGrams()),
                            Cell.blank(Style.BODY),
                            Cell.text(Style.BODY, mix.recipe().name()),
                            number(mix.revision().number()),
                            Cell.text(Style.BODY, info.id())));
                    cells.addAll(Collections.nCopies(ENTRIES, Cell.blank(Style.BODY)));
                    cells.add(Cell.text(Style.BODY, rows.size() == 1 ? plan : ""));
                    rows.add(row(cells));
                }
            }
        }
        return new Grid("Mix", "", List.of(), rows, false);
    }

    private static Cell number(double value) {
        return Cell.figure(Style.BODY, value, "", 0);
    }

    private static Grid.Row row(List<Cell> cells) {
        List<Grid.Placed> placed = new ArrayList<>(cells.size());
        for (Cell cell : cells) {
            placed.add(new Grid.Placed(placed.size(), cell));
        }
        return new Grid.Row(0, false, placed);
    }
}
