package pigmentbook.sheet;

import java.util.ArrayList;
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
            "mix_id");

    private MixTable() {}

    static Grid of(Mix mix, SheetInfo info) {
        List<Grid.Row> rows = new ArrayList<>();
        rows.add(row(HEAD.stream().map(head -> Cell.text(Style.BODY, head)).toList()));
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                for (Mix.Weighing weighing : cup.items()) {
                    rows.add(row(List.of(
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
                            Cell.text(Style.BODY, info.id()))));
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
