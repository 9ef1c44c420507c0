package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.Srgb;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;
import pigmentbook.mix.Timeline;

/** The page a mix is weighed from, in the order of work. */
final class MixPage {

    /** Together a little less than the room between the edges of A4, which is the narrower paper. */
    private static final List<Double> COLUMNS_MM = List.of(7.0, 36.0, 24.0, 25.0, 14.5, 14.5, 17.0, 25.0, 12.5, 13.5);

    private static final int ORDER = 0;
    private static final int ITEM = 1;
    private static final int LOT = 2;
    private static final int WEIGH = 3;
    private static final int LOW = 4;
    private static final int HIGH = 5;
    private static final int DISPLAY = 6;
    private static final int ACTUAL = 7;
    private static final int EXACT = 8;
    private static final int RECORD = 9;

    /** Below this the figures are too small at arm's length, so the page is broken instead of shrunk. */
    private static final double LEAST_SCALE = 0.72;

    private final Mix mix;
    private final SheetInfo info;
    private final Style weighStyle;
    private final Style figureStyle;
    private final Rows rows = new Rows(COLUMNS_MM);

    MixPage(Mix mix, SheetInfo info) {
        this.mix = mix;
        this.info = info;
        this.weighStyle = fitting(Style.WEIGH, Style.LONG_WEIGH, WEIGH, Mix.Weighing::weighGrams);
        this.figureStyle = fitting(Style.FIGURE, Style.LONG_FIGURE, LOW, Mix.Weighing::highGrams);
    }

    Grid grid() {
        header();
        cautions(Caution.Severity.WARN, "Beware");
        checksAndSteps();
        if (mix.layers().size() > 1) {
            layers();
        }
        for (Mix.Layer layer : mix.layers()) {
            layer(layer);
        }
        rows.block();
        after();
        cautions(Caution.Severity.NOTE, "Good to know");
        foot();
        double room = info.paper().roomPt();
        boolean onePage = mix.layers().size() == 1 && rows.heightPt() * LEAST_SCALE <= room;
        return new Grid(
                "Mix", Wording.foot(mix, info), COLUMNS_MM, onePage ? rows.onOnePage() : rows.onPages(room), onePage);
    }

    private void header() {
        Mix.Look look = mix.look();
        Cell chip = look == null ? Cell.blank(Style.CHIP) : Cell.of(Style.CHIP, new Cell.Chip(Srgb.hex(look.lab())));
        rows.add(
                30,
                Rows.at(
                        ORDER,
                        Cell.text(titleStyle(mix.recipe().name()), mix.recipe().name())
                                .across(4)
                                .named(CellNames.RECIPE)),
                Rows.at(
                        LOW,
                        Cell.figure(Style.REVISION, mix.revision().number(), "revision ", 0)
                                .across(3)
                                .named(CellNames.REVISION)),
                Rows.at(ACTUAL, chip.across(3).down(2)));
        rows.add(0, Rows.at(ORDER, Cell.text(Style.BODY, Wording.what(mix)).across(7)));
        rows.add(
                0,
                Rows.at(ORDER, Cell.text(Style.BODY, Wording.basis(mix)).across(7)),
                Rows.at(ACTUAL, Cell.text(Style.FINE, Wording.reading(look)).across(3)));
        rows.add(
                12,
                label(ORDER, 2, "Sheet"),
                label(LOT, 2, "Made, date and time"),
                label(LOW, 3, "Sheet by"),
                label(ACTUAL, 3, Wording.total(mix)));
        rows.add(
                19,
                Rows.at(ORDER, Cell.text(Style.FACT, info.id()).across(2).named(CellNames.ID)),
                Rows.at(LOT, Cell.of(Style.FACT, new Cell.Moment(info.made())).across(2)),
                Rows.at(LOW, Cell.text(Style.FACT, info.by()).across(3)),
                Rows.at(
                        ACTUAL,
                        Cell.figure(Style.TOTAL, mix.totals().totalGrams(), "", 2)
                                .named(CellNames.TOTAL)
                                .entry(Cell.Check.NUMBER)),
                Rows.at(EXACT, Cell.text(Style.UNIT, "g").across(2)));
        rows.gap(5);
        for (String forbidden : Wording.forbidden(mix)) {
            rows.add(0, Rows.at(ORDER, Cell.text(Style.STOP_NOW, forbidden).across(10)));
        }
        rows.add(0, Rows.at(ORDER, Cell.text(Style.STOP, Wording.stop(mix)).across(10)));
    }

    private void cautions(Caution.Severity severity, String title) {
        List<Caution> some = Wording.listed(mix).stream()
                .filter(each -> each.severity() == severity)
                .toList();
        if (some.isEmpty()) {
            return;
        }
        section(title);
        for (Caution caution : some) {
            rows.add(
                    0,
                    Rows.at(
                            ORDER,
                            Cell.text(Style.CAUTION, Wording.shown(caution)).across(10)));
        }
    }

    private void section(String title) {
        rows.add(19, Rows.at(ORDER, Cell.text(Style.SECTION, title).across(10)));
    }

    private void checksAndSteps() {
        List<String> checks = Wording.checks(mix);
        List<String> steps = Wording.steps(mix);
        rows.add(
                19,
                Rows.at(ORDER, Cell.text(Style.SECTION, "Before mixing").across(4)),
                Rows.at(LOW, Cell.text(Style.SECTION, "In this order").across(6)));
        for (int i = 0; i < Math.max(checks.size(), steps.size()); i++) {
            List<Grid.Placed> cells = new ArrayList<>();
            if (i < checks.size()) {
                cells.add(Rows.at(
                        ORDER,
                        Cell.blank(Style.CHECK_BOX)
                                .named(CellNames.of("check", i + 1))
                                .entry(Cell.Check.ANYTHING)));
                cells.add(Rows.at(ITEM, Cell.text(Style.CHECK, checks.get(i)).across(3)));
            }
            if (i < steps.size()) {
                cells.add(Rows.at(
                        LOW, Cell.text(Style.BODY, i + 1 + "  " + steps.get(i)).across(6)));
            }
            rows.add(14, cells);
        }
    }

    /** All layers at a glance, for a mix that takes days. */
    private void layers() {
        section("Layers");
        rows.add(
                13,
                head(ORDER, 2, "Layer"),
                head(LOT, 1, "Cups"),
                head(WEIGH, 1, "Each cup, g"),
                head(LOW, 3, "Not before"),
                head(ACTUAL, 1, "Poured on"),
                head(EXACT, 2, "By"));
        for (Mix.Layer layer : mix.layers()) {
            Mix.Cup cup = layer.cups().get(0);
            List<Expr> targets = cup.items().stream()
                    .map(each -> Expr.cell(CellNames.of("target_g", layer.number(), cup.number(), each.item())))
                    .toList();
            rows.add(
                    20,
                    Rows.at(ORDER, Cell.text(Style.ITEM, Wording.place(layer)).across(2)),
                    Rows.at(LOT, Cell.figure(Style.FIGURE_LEFT, layer.cups().size(), "", 0)),
                    Rows.at(
                            WEIGH,
                            Cell.formula(
                                    Style.FIGURE_LEFT, Expr.sum(targets), cup.totalGrams(), new Cell.Form("", 0, ""))),
                    Rows.at(LOW, Cell.text(Style.ITEM, Wording.notBefore(layer)).across(3)),
                    open(ACTUAL, 1, CellNames.of("poured", layer.number())),
                    open(EXACT, 2, CellNames.of("poured_by", layer.number())));
        }
    }

    private void layer(Mix.Layer layer) {
        rows.block();
        section(Wording.layer(mix, layer));
        rows.add(0, Rows.at(ORDER, Cell.text(Style.FINE, Wording.scales(mix)).across(10)));
        weighHead();
        for (Mix.Cup cup : layer.cups()) {
            cup(layer, cup);
        }
        times(layer);
    }

    private void weighHead() {
        rows.add(
                13,
                head(ORDER, 1, ""),
                head(ITEM, 1, "Item"),
                head(LOT, 1, "Lot"),
                headRight(WEIGH, "Weigh, g"),
                headRight(LOW, "Low, g"),
                headRight(HIGH, "High, g"),
                headRight(DISPLAY, "Display, g"),
                headRight(ACTUAL, "As weighed, g"),
                headRight(EXACT, "Exact, g"),
                headRight(RECORD, "Record"));
    }

    private void cup(Mix.Layer layer, Mix.Cup cup) {
        rows.part();
        rows.add(
                19,
                Rows.at(ORDER, Cell.text(Style.CUP, Wording.cup(layer, cup)).across(2)),
                Rows.at(
                        LOW,
                        Cell.text(Style.LABEL_RIGHT, "Weighed by, checked by").across(3)),
                Rows.at(
                        ACTUAL,
                        Cell.blank(Style.ENTRY_TEXT)
                                .across(3)
                                .named(CellNames.of(CellNames.BY, layer.number(), cup.number()))
                                .entry(Cell.Check.ANYTHING)));
        WeighFormulas formulas = new WeighFormulas(mix, layer.number(), cup);
        int order = 1;
        for (Mix.Weighing weighing : cup.items()) {
            rows.add(24, weighRow(layer.number(), cup.number(), order++, weighing, formulas));
        }
    }

    private List<Grid.Placed> weighRow(int layer, int cup, int order, Mix.Weighing weighing, WeighFormulas formulas) {
        Cell.Form form = form(weighing);
        String lot = weighing.lots().isEmpty() ? "" : weighing.lots().get(0).lotId();
        Cell weigh = Cell.formula(weighStyle, formulas.weigh(weighing), weighing.weighGrams(), form);
        Cell low = Cell.formula(figureStyle, formulas.low(weighing), weighing.lowGrams(), form);
        Cell high = Cell.formula(figureStyle, formulas.high(weighing), weighing.highGrams(), form);
        Cell display =
                Cell.formula(figureStyle, formulas.display(weighing), weighing.displayGrams(), form.offTheLine());
        Cell target =
                Cell.formula(Style.EXACT, formulas.target(weighing), weighing.exactGrams(), new Cell.Form("", 3, ""));
        return List.of(
                Rows.at(ORDER, Cell.figure(Style.ORDER, order, "", 0)),
                Rows.at(ITEM, Cell.text(Style.ITEM, Wording.item(weighing))),
                Rows.at(
                        LOT,
                        Cell.text(Style.LOT, lot)
                                .named(CellNames.of("lot", layer, cup, weighing.item()))
                                .entry(Cell.Check.ANYTHING)),
                Rows.at(WEIGH, weigh.named(CellNames.of("weigh_g", layer, cup, weighing.item()))),
                Rows.at(LOW, low.named(CellNames.of("low_g", layer, cup, weighing.item()))),
                Rows.at(HIGH, high.named(CellNames.of("high_g", layer, cup, weighing.item()))),
                Rows.at(DISPLAY, display),
                Rows.at(
                        ACTUAL,
                        Cell.blank(Style.ENTRY)
                                .named(CellNames.of("actual_g", layer, cup, weighing.item()))
                                .entry(Cell.Check.NUMBER)),
                Rows.at(EXACT, target.named(CellNames.of("target_g", layer, cup, weighing.item()))),
                Rows.at(RECORD, Cell.text(Style.RECORD, CellNames.record(layer, cup, weighing.item()))));
    }

    /** Returns the larger style where every figure of the mix fits its column in it, else the smaller. */
    private Style fitting(Style large, Style small, int column, ToDoubleFunction<Mix.Weighing> figure) {
        double widthMm = COLUMNS_MM.get(column);
        boolean fits = mix.layers().stream()
                .flatMap(layer -> layer.cups().get(0).items().stream())
                .allMatch(each -> Texts.fits(form(each).shown(figure.applyAsDouble(each)), large, widthMm));
        return fits ? large : small;
    }

    private Cell.Form form(Mix.Weighing weighing) {
        int decimals = weighing.scale().step().decimals();
        return Cell.Form.aligned(
                decimals, Math.max(decimals, mix.scales().fine().step().decimals()));
    }

    /** A name takes the largest letters that keep it to a few lines. */
    private static Style titleStyle(String name) {
        double widthMm = COLUMNS_MM.subList(ORDER, LOW).stream()
                .mapToDouble(Double::doubleValue)
                .sum();
        if (Texts.fits(name, Style.TITLE, widthMm)) {
            return Style.TITLE;
        }
        boolean few = Texts.heightPt(name, Style.LONG_TITLE, widthMm) < 4 * Style.LONG_TITLE.sizePt();
        return few ? Style.LONG_TITLE : Style.LONGEST_TITLE;
    }

    private void times(Mix.Layer layer) {
        Timeline timeline = mix.timeline();
        rows.part();
        section("Times");
        rows.add(
                0, Rows.at(ORDER, Cell.text(Style.FINE, Wording.times(timeline)).across(10)));
        boolean last = layer.number() == mix.layers().size();
        Timeline.LayerTimes layerTimes = timeline.layersHours().get(layer.number() - 1);
        rows.add(
                13,
                head(ORDER, 2, "Cup"),
                head(LOT, 1, "Part B in"),
                head(WEIGH, 1, Wording.afterMinutes("Pour by", timeline.pourByMin())),
                head(LOW, 2, "Poured"),
                head(DISPLAY, 1, "Passes"),
                head(
                        ACTUAL,
                        1,
                        last
                                ? Wording.after("Demold", timeline.demoldHours())
                                : Wording.after("Next layer", since(layer, layerTimes.nextFrom()))),
                head(
                        EXACT,
                        2,
                        last
                                ? Wording.after("Full cure", timeline.fullCureHours())
                                : Wording.after("until", since(layer, layerTimes.nextTo()))));
        for (Mix.Cup cup : layer.cups()) {
            rows.add(
                    20,
                    Rows.at(
                            ORDER,
                            Cell.text(Style.ITEM, Wording.cupTime(timeline, layer, cup))
                                    .across(2)),
                    time(LOT, 1, "part_b_in", layer, cup),
                    time(WEIGH, 1, "pour_by", layer, cup),
                    time(LOW, 2, "poured", layer, cup),
                    time(DISPLAY, 1, "passes", layer, cup),
                    time(ACTUAL, 1, last ? "demold" : "next_from", layer, cup),
                    time(EXACT, 2, last ? "full_cure" : "next_to", layer, cup));
        }
    }

    private static @Nullable Double since(Mix.Layer layer, @Nullable Double hours) {
        return hours == null ? null : (Double) (hours - layer.startHours());
    }

    private void after() {
        section("Written down");
        rows.add(
                12,
                label(ORDER, 2, "Started, date and time"),
                label(LOT, 1, "Room, °C"),
                label(WEIGH, 1, "Humidity, %"),
                label(LOW, 3, "Left in cups, g"),
                label(ACTUAL, 1, "Level reached, mm"),
                label(EXACT, 2, "Result, 1 to 5"));
        rows.add(
                21,
                Rows.at(
                        ORDER,
                        Cell.of(Style.ENTRY_TEXT, new Cell.BlankMoment())
                                .across(2)
                                .named(CellNames.STARTED)
                                .entry(Cell.Check.ANYTHING)),
                Rows.at(LOT, entry(CellNames.TEMPERATURE, Cell.Check.NUMBER)),
                Rows.at(WEIGH, entry(CellNames.HUMIDITY, Cell.Check.PERCENT)),
                open(LOW, 3, CellNames.LEFT),
                open(ACTUAL, 1, CellNames.LEVEL),
                Rows.at(EXACT, entry(CellNames.RATING, Cell.Check.RATING).across(2)));
        rows.add(
                12,
                label(ORDER, 4, "Result in words, after a day and after a week"),
                label(LOW, 6, "Deviations: what, why, who, when"));
        rows.add(
                34,
                Rows.at(ORDER, entry(CellNames.RESULT, Cell.Check.ANYTHING).across(4)),
                Rows.at(LOW, entry(CellNames.DEVIATION, Cell.Check.ANYTHING).across(6)));
        rows.add(12, label(ORDER, 4, "Made by"), label(LOW, 6, "Checked by, before part B"));
        rows.add(20, open(ORDER, 4, CellNames.MADE_BY), open(LOW, 6, CellNames.CHECKED_BY));
    }

    private void foot() {
        rows.gap(4);
        rows.add(0, Rows.at(ORDER, Cell.text(Style.ALWAYS, Wording.always(mix)).across(10)));
        rows.hidden(Rows.at(
                ORDER, Cell.text(Style.FACT, Plan.of(mix).text()).across(10).named(CellNames.PLAN)));
    }

    private static Cell entry(String name, Cell.Check check) {
        return Cell.blank(Style.ENTRY_TEXT).named(name).entry(check);
    }

    private static Grid.Placed open(int column, int across, String name) {
        return Rows.at(column, entry(name, Cell.Check.ANYTHING).across(across));
    }

    private static Grid.Placed time(int column, int across, String what, Mix.Layer layer, Mix.Cup cup) {
        return open(column, across, CellNames.of(what, layer.number(), cup.number()));
    }

    private static Grid.Placed label(int column, int across, String text) {
        return Rows.at(column, Cell.text(Style.LABEL, text).across(across));
    }

    private static Grid.Placed head(int column, int across, String text) {
        return Rows.at(column, Cell.text(Style.HEAD, text).across(across));
    }

    private static Grid.Placed headRight(int column, String text) {
        return Rows.at(column, Cell.text(Style.HEAD_RIGHT, text));
    }
}
