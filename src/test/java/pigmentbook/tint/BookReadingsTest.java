package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Range;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Ratio;

/** What stands behind a reading: the loadings weighed, depth, backing, gloss, lot. */
class BookReadingsTest {

    private static final Lab LAB = new Lab(40, 20, 30);
    private final List<Pour> pours = new ArrayList<>();

    private Book book() {
        Pigment amber = pigment("amber", new Pigment.Carrier(true, Percent.of(60)), null);
        Pigment ink = pigment("ink", new Pigment.Carrier(false, Percent.of(90)), null);
        Pigment soot = pigment("soot", null, null);
        Pigment diluted = pigment(
                "soot-in-a", new Pigment.Carrier(true, Percent.of(90)), new Pigment.Contains("soot", Percent.of(10)));
        Resin resin = new Resin(
                "slow",
                "Slow",
                new MixRatio(MixRatio.By.WEIGHT, Ratio.parse("100:25"), null),
                null,
                null,
                null,
                null,
                Range.open(),
                null,
                null,
                null,
                null,
                Range.open(),
                null,
                null,
                Range.open(),
                null,
                null,
                null,
                null,
                "");
        Recipe.Revision revision = new Recipe.Revision(
                1,
                null,
                "slow",
                Recipe.PercentOf.PART_A,
                List.of(new Recipe.PigmentLoading("amber", Percent.of(2))),
                "");
        return new Book(
                Settings.unstated(),
                List.of(resin),
                List.of(amber, ink, soot, diluted),
                List.of(lot("AM-1", 80), lot("AM-2", 100), lot("AM-3", 100)),
                List.of(),
                List.of(new Recipe("lamp", "Lamp", List.of(), List.of(revision), List.of(), null, "")),
                pours);
    }

    private static Pigment pigment(String id, Pigment.@Nullable Carrier carrier, Pigment.@Nullable Contains contains) {
        return new Pigment(id, id, Pigment.Kind.PASTE, null, null, null, carrier, contains, "");
    }

    private static Lot lot(String id, double strength) {
        return new Lot(
                id,
                "amber",
                null,
                "",
                null,
                null,
                null,
                Mass.ofGrams(500),
                null,
                null,
                Percent.of(strength),
                null,
                List.of(),
                List.of());
    }

    private static Pour.Weighed weighed(String item, @Nullable String lot, @Nullable Double target, double actual) {
        return new Pour.Weighed(
                Item.of(item),
                lot,
                target == null ? null : Mass.ofGrams(target),
                actual < 0 ? null : Mass.ofGrams(actual));
    }

    private static Pour.Reading reading(@Nullable String depth, @Nullable String backing) {
        return new Pour.Reading(
                LAB,
                depth == null ? null : Length.parse(depth),
                backing == null ? null : new Backing(backing, null),
                "",
                null,
                false);
    }

    private void pour(String id, String recipe, int day, List<Pour.Weighed> weighed, Pour.Reading... readings) {
        pours.add(new Pour(
                id,
                recipe,
                1,
                null,
                Pour.Kind.SAMPLE,
                LocalDateTime.of(2026, 3, day, 10, 0),
                "",
                null,
                null,
                List.of(new Pour.Layer(null, List.of(new Pour.Cup(weighed)))),
                null,
                null,
                List.of(readings),
                List.of()));
    }

    @Test
    void loadingsAreThoseWeighedOverAllResinCarriedPartIncluded() {
        pour(
                "p",
                "lamp",
                1,
                List.of(
                        weighed("part A", null, 100.0, 99),
                        weighed("amber", "AM-1", 2.0, 2.5),
                        weighed("ink", null, 0.4, -1),
                        weighed("part B", null, 25.0, 25)),
                reading("6 mm", "white"));
        List<Loading> loadings = BookReadings.of(book()).readings().get(0).loadings();
        // 99 + 25 + 60 % of 2.5 is 125.5; the ink's target stands in, its liquid is no part A; the lot has 80 %.
        assertThat(loadings).extracting(Loading::pigmentId).containsExactly("amber", "ink");
        assertThat(loadings.get(0).percent()).isCloseTo(100 * 2.5 * 0.8 / 125.5, within(1e-12));
        assertThat(loadings.get(1).percent()).isCloseTo(100 * 0.4 / 125.5, within(1e-12));
    }

    @Test
    void whereNothingWasWeighedTheRevisionsPercentsStand() {
        pour("p", "lamp", 1, List.of(), reading("6 mm", "white"));
        // 2 % of part A, which is 100 of 125.
        assertThat(BookReadings.of(book()).readings().get(0).loadings())
                .singleElement()
                .satisfies(loading -> assertThat(loading.percent()).isCloseTo(1.6, within(1e-12)));
    }

    @Test
    void aConcentrateCountsAsWhatItHolds() {
        pour(
                "p",
                "lamp",
                1,
                List.of(
                        weighed("part A", null, null, 91),
                        weighed("soot-in-a", null, null, 10),
                        weighed("part B", null, null, 25)),
                reading("6 mm", "white"));
        assertThat(BookReadings.of(book()).readings().get(0).loadings())
                .containsExactly(new Loading("soot", 100.0 * 1 / (91 + 25 + 9)));
    }

    @Test
    void aReadingThatLacksSomethingIsSetAsideWithTheReason() {
        List<Pour.Weighed> both = List.of(weighed("part A", null, null, 80), weighed("part B", null, null, 20));
        pour("a", "lamp", 1, both, reading(null, "white"), reading("6 mm", null), reading("6 mm", "slate"));
        pour("b", "lamp", 1, List.of(weighed("part A", null, null, 80)), reading("6 mm", "white"));
        pour("c", "nobody-knows", 1, List.of(), reading("6 mm", "white"));
        pour("d", "lamp", 1, both, reading("0 mm", "white"), reading("6 mm", "white"));
        BookReadings read = BookReadings.of(book());
        assertThat(read.readings()).extracting(BookReadings.Sample::pourId).containsExactly("d");
        assertThat(read.setAside())
                .containsExactly(
                        new SetAside("a", 0, "it has no depth"),
                        new SetAside("a", 1, "it has no backing"),
                        new SetAside("a", 2, "its backing is not in the book's settings"),
                        new SetAside("b", 0, "part A or part B was not weighed"),
                        new SetAside("c", 0, "nothing was weighed, and its recipe is not in the book"),
                        new SetAside("d", 0, "it has no depth"));
    }

    /** Colours that can't be never become readings: the record itself refuses them. */
    @Test
    void aColourThatCannotBeIsNoReading() {
        for (double l : new double[] {Double.NaN, -1, 101}) {
            assertThatThrownBy(() -> new Lab(l, 0, 0)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @Test
    void aReadingWithTheGlossInItIsTakenWithoutIt() {
        List<Pour.Weighed> both = List.of(weighed("part A", null, null, 80), weighed("part B", null, null, 20));
        Pour.Reading plain = reading("6 mm", "white");
        pour("a", "lamp", 1, both, new Pour.Reading(LAB, plain.depth(), plain.backing(), "", null, true));
        Lab without = BookReadings.of(book()).readings().get(0).lab();
        // ((1.55 − 1)/(1.55 + 1))² = 0.046520569 of white off Y: 0.112511 at L* 40 leaves 0.065990, L* 116 × 0.404103 −
        // 16.
        assertThat(without.l()).isCloseTo(30.876, within(0.001));
    }

    @Test
    void readingsOfAnOlderLotCountLess() {
        String[] lots = {"AM-1", "AM-2", "AM-3", "unknown"};
        for (int i = 0; i < lots.length; i++) {
            // Ids run against the days: the day tells which lot is older.
            pour(
                    "p" + (9 - i),
                    "lamp",
                    1 + i,
                    List.of(
                            weighed("part A", null, null, 80),
                            weighed("amber", lots[i], null, 1),
                            weighed("part B", null, null, 20)),
                    reading("6 mm", "white"));
        }
        assertThat(BookReadings.of(book()).readings())
                .extracting(BookReadings.Sample::weight)
                .containsExactly(1.0, 1.0, 0.5, 1.0 / 3);
    }
}
