package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.store.BookFolder;

/**
 * What was poured and the level it reached measure a mold; a lot's trail ends at its stock; planned pours tell what to
 * buy.
 */
class MeasuredRoomTest {

    private static Book book;

    @BeforeAll
    static void open() throws Exception {
        book = new BookFolder(Path.of("recipes")).open().book();
    }

    /** There and back: a mold filled by a mix of its own, to its own fill, measures as it was worked out. */
    @Test
    void aMoldFilledByItsOwnMixMeasuresAsItWasWorkedOut() {
        Recipe recipe = Objects.requireNonNull(book.recipes().get("ember"));
        MixRequest request = new MixRequest(
                new MixRequest.ForMold("lamp-panel", null),
                null,
                List.of(),
                pigmentbook.quantity.Percent.of(0),
                null,
                Mass.ofGrams(0),
                null,
                null,
                null,
                null,
                List.of(),
                LocalDate.of(2026, 11, 25));
        Mix mix = Mixer.mix(book, recipe, recipe.current(), request);
        List<Pour.Weighed> weighed = new java.util.ArrayList<>();
        for (Item item : List.of(Item.PART_A, Item.PART_B)) {
            weighed.add(
                    new Pour.Weighed(item, null, null, Mass.ofGrams(mix.totals().grams(item))));
        }
        mix.totals()
                .pigmentGrams()
                .forEach((item, grams) -> weighed.add(new Pour.Weighed(item, null, null, Mass.ofGrams(grams))));
        Pour pour = pour(weighed, null);
        MeasuredRoom room = Objects.requireNonNull(MeasuredRoom.of(book, pour, Length.parse("1/2 in")));
        assertThat(room.error()).isCloseTo(0, within(2e-3));
        MeasuredRoom lower = Objects.requireNonNull(MeasuredRoom.of(book, pour, Length.parse("3/8 in")));
        assertThat(lower.ml()).isGreaterThan(room.ml());
        Pour halfLeft = pour(weighed, Mass.ofGrams(mix.totals().totalGrams() / 2));
        assertThat(Objects.requireNonNull(MeasuredRoom.of(book, halfLeft, Length.parse("1/2 in")))
                        .ml())
                .isLessThan(room.ml() * 0.52);
        assertThat(MeasuredRoom.of(book, pour, Length.parse("2 in"))).isNull();
    }

    private static Pour pour(List<Pour.Weighed> weighed, Mass left) {
        return new Pour(
                "2026-11-25-ember-9",
                "ember",
                4,
                "lamp-panel",
                Pour.Kind.PIECE,
                null,
                "",
                null,
                null,
                List.of(new Pour.Layer(null, List.of(new Pour.Cup(weighed)))),
                left,
                null,
                List.of(),
                List.of());
    }

    @Test
    void aTrailEndsAtTheStock() {
        for (Lot lot : book.lots().values()) {
            List<StockTrail.Step> trail = StockTrail.of(book, lot);
            assertThat(trail.get(trail.size() - 1).leftGrams())
                    .as(lot.id())
                    .isCloseTo(book.leftGrams(lot), within(1e-9));
        }
    }

    @Test
    void whatGoodLotsLackIsToBuy() {
        Lot lot = Objects.requireNonNull(book.lots().get("AP-07"));
        Shopping.Product paste = new Shopping.Product("slow-cast", Item.of(lot.of()));
        double all = book.lotsOf("", Item.of(lot.of())).stream()
                .filter(each -> each.isGoodOn(LocalDate.of(2026, 11, 25)))
                .mapToDouble(each -> Math.max(0, book.leftGrams(each)))
                .sum();
        assertThat(Shopping.of(book, java.util.Map.of(paste, all), LocalDate.of(2026, 11, 25)))
                .isEmpty();
        List<Shopping.Line> lacks = Shopping.of(book, java.util.Map.of(paste, all + 12), LocalDate.of(2026, 11, 25));
        assertThat(lacks).hasSize(1);
        assertThat(lacks.get(0).lacksGrams()).isCloseTo(12, within(1e-9));
    }
}
