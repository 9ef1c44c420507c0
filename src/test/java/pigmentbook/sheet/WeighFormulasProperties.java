package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import pigmentbook.mix.Mix;
import pigmentbook.quantity.Numbers;

/** A sheet's formulas come to what the mix says, for its own total and for any other. */
class WeighFormulasProperties {

    private static final String[][] STEPS = {
        {"1 g", "0.01 g"},
        {"0.1 g", "0.001 g"},
        {"5 g", "0.05 g"},
        {"1/8 oz", "0.02 g"},
        {"0.5 g", "1 grain"},
        {"1/3 oz", "0.1 g"}
    };

    @Property(tries = 300)
    void theFormulasComeToTheFiguresOfTheMix(
            @ForAll @DoubleRange(min = 1, max = 990) double grams, @ForAll @IntRange(max = 5) int scales) {
        Mix mix = mix(grams, scales);
        assertSame(mix, new Evaluated(Studio.sheet(mix).page(), grams));
    }

    @Property(tries = 300)
    void anotherTotalInTheSheetIsAnotherMix(
            @ForAll @DoubleRange(min = 1, max = 990) double grams,
            @ForAll @DoubleRange(min = 1, max = 990) double other,
            @ForAll @IntRange(max = 5) int scales) {
        Grid page = Studio.sheet(mix(grams, scales)).page();
        assertSame(mix(other, scales), new Evaluated(page, other));
    }

    private static Mix mix(double grams, int scales) {
        return Studio.mix(Studio.Order.total(Numbers.plain(grams) + " g").onScales(STEPS[scales][0], STEPS[scales][1]));
    }

    private static void assertSame(Mix mix, ToDoubleFunction<String> cells) {
        for (Mix.Weighing each : mix.layers().get(0).cups().get(0).items()) {
            assertCell(cells, "target_g", each, each.exactGrams());
            assertCell(cells, "weigh_g", each, each.weighGrams());
            assertCell(cells, "low_g", each, each.lowGrams());
            assertCell(cells, "high_g", each, each.highGrams());
            assertCell(cells, "display", each, each.displayGrams());
        }
    }

    private static void assertCell(
            ToDoubleFunction<String> cells, String what, Mix.Weighing weighing, double expected) {
        String name = CellNames.of(what, 1, 1, weighing.item());
        assertThat(cells.applyAsDouble(name)).as(name).isCloseTo(expected, within(1e-9));
    }

    /** A page worked out anew for a total, from its formulas alone; the display's cells, which have no name, by row. */
    static final class Evaluated implements ToDoubleFunction<String> {

        private final Map<String, Expr> formulas = new HashMap<>();
        private final double total;

        Evaluated(Grid page, double total) {
            this.total = total;
            for (Grid.Row row : page.rows()) {
                String weigh = "";
                for (Grid.Placed placed : row.cells()) {
                    if (placed.cell().content() instanceof Cell.Formula formula) {
                        String name = placed.cell().name();
                        weigh = name != null && name.startsWith("weigh_g") ? name : weigh;
                        formulas.put(name == null ? weigh.replace("weigh_g", "display") : name, formula.expr());
                    }
                }
            }
        }

        @Override
        public double applyAsDouble(String name) {
            return name.equals(CellNames.TOTAL) ? total : formulas.get(name).value(this);
        }
    }
}
