package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Backing;

/** The map of a mix by loading and depth: each cell is the look there, and nothing is shown above a top loading. */
class LookMapTest {

    private static final List<Double> FACTORS = List.of(0.25, 0.5, 1.0, 2.0, 4.0);
    private static final List<Double> DEPTHS = List.of(2.0, 3.0, 6.0, 10.0, 20.0);
    private static final Backing WHITE = new Backing("white", null);

    private final Simulated studio = new Simulated(31, 5);
    private final Tints tints = Tints.fit(
            studio.book(studio.readings(studio.ladders(new double[] {0.1, 0.4, 1.5}, 3, 10), 0.2)), Optional.empty());

    private LookMap map(List<Loading> loadings) {
        return LookMap.of(tints, loadings, "clear", FACTORS, DEPTHS, WHITE);
    }

    @Test
    void eachCellIsTheLookThere() {
        List<Loading> mix = List.of(new Loading(Simulated.id(0), 0.05), new Loading(Simulated.id(2), 0.3));
        LookMap map = map(mix);
        assertThat(map.rows()).hasSize(FACTORS.size());
        for (int row = 0; row < FACTORS.size(); row++) {
            double factor = FACTORS.get(row);
            List<Loading> scaled = mix.stream()
                    .map(each -> new Loading(each.pigmentId(), factor * each.percent()))
                    .toList();
            assertThat(map.rows().get(row)).hasSize(DEPTHS.size());
            for (int column = 0; column < DEPTHS.size(); column++) {
                assertThat(map.rows().get(row).get(column))
                        .contains(tints.look(scaled, "clear", DEPTHS.get(column), WHITE));
            }
        }
    }

    /** More of a dye or a deeper layer is darker over white (Beer and Lambert). */
    @Test
    void aDyeDarkensWithLoadingAndDepth() {
        LookMap map = map(List.of(new Loading(Simulated.id(0), 0.05)));
        for (int row = 1; row < FACTORS.size(); row++) {
            for (int column = 1; column < DEPTHS.size(); column++) {
                assertThat(lightness(map, row, column))
                        .isLessThan(lightness(map, row - 1, column))
                        .isLessThan(lightness(map, row, column - 1));
            }
        }
    }

    private static double lightness(LookMap map, int row, int column) {
        return map.rows().get(row).get(column).orElseThrow().lab().l();
    }

    @Test
    void nothingIsShownAboveAPigmentsTopLoading() {
        LookMap map = map(List.of(new Loading(Simulated.id(0), studio.top[0] / 2)));
        for (int row = 0; row < FACTORS.size(); row++) {
            boolean above = FACTORS.get(row) > 2;
            assertThat(map.rows().get(row)).allMatch(cell -> cell.isEmpty() == above);
        }
    }

    /** The resin takes 8 % at most, and 2.5 % of each of two whites is within their own tops. */
    @Test
    void norWhereAllTogetherIsMoreThanTheResinTakes() {
        LookMap map = LookMap.of(
                tints,
                List.of(new Loading(Simulated.id(1), 2.5), new Loading(Simulated.id(2), 2.5)),
                "clear",
                List.of(1.0, 1.6),
                List.of(3.0),
                WHITE);
        assertThat(map.rows().get(0).get(0)).isPresent();
        // 4 % of each is just 8 %.
        assertThat(map.rows().get(1).get(0)).isPresent();
        LookMap more = LookMap.of(
                tints,
                List.of(new Loading(Simulated.id(1), 2.5), new Loading(Simulated.id(2), 2.5)),
                "clear",
                List.of(1.6, 1.61),
                List.of(3.0),
                WHITE);
        assertThat(more.rows().get(1).get(0)).isEmpty();
    }

    @Test
    void whatCantBeIsRefused() {
        List<Loading> mix = List.of(new Loading(Simulated.id(0), 0.05));
        assertThatThrownBy(() -> LookMap.of(tints, mix, "clear", List.of(0.0), DEPTHS, WHITE))
                .isInstanceOf(TintRefusedException.class)
                .hasMessage("All loadings can't be multiplied by 0.0; give a number above 0.");
        assertThatThrownBy(() -> LookMap.of(tints, mix, "clear", FACTORS, List.of(-1.0), WHITE))
                .hasMessage("A depth of -1.0 mm can't be looked through; give one above 0.");
    }
}
