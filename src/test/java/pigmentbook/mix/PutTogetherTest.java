package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Lot;
import pigmentbook.book.Pigment;
import pigmentbook.quantity.Mass;

/** Two lots stirred into one: masses and money add up, strength follows mass, density follows volume. By hand. */
class PutTogetherTest {

    private final Studio studio = new Studio();

    private Lot together(String first, String grams, String second, String more) {
        return PutTogether.of(
                studio.book(),
                "NEW",
                Studio.DAY,
                new Lot.Share(first, Mass.parse(grams)),
                new Lot.Share(second, Mass.parse(more)));
    }

    private void resinLot(String id, @Nullable String expires, @Nullable String price, @Nullable String density) {
        studio.lot(id, "A", "2 kg", expires, price, null, density, null);
    }

    /** 400 g at 100 % and 600 g at 90 %: 40 + 54 = 94 %. 1 kg of each cost 50 and 40: 20 + 24 = 44. */
    @Test
    void strengthAndPriceFollowTheGrams() {
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", "1.2 g/mL");
        studio.lot("L1", "amber", "1 kg", "2027-05-01", "50.00", null, null, null);
        studio.lot("L2", "amber", "1 kg", "2027-03-01", "40.00", "90 %", null, null);
        Lot lot = together("L1", "400 g", "L2", "600 g");
        assertThat(lot.quantity().grams()).isEqualTo(1000);
        assertThat(lot.strengthFactor()).isCloseTo(0.94, within(1e-12));
        assertThat(Objects.requireNonNull(lot.price()).amount().doubleValue()).isCloseTo(44, within(1e-12));
        assertThat(lot.expires()).isEqualTo(LocalDate.of(2027, 3, 1));
        assertThat(lot.shares()).extracting(Lot.Share::lotId).containsExactly("L1", "L2");
    }

    /** The product states 1.10: 1100 g are 1000 mL; 900 g at 0.90 are 1000 mL more. 2000 g in 2000 mL. */
    @Test
    void densityFollowsTheVolumesAlsoWhereOneLotLeavesItToTheProduct() {
        resinLot("A1", null, null, null);
        resinLot("A2", null, null, "0.90 g/mL");
        Lot lot = together("A1", "1100 g", "A2", "900 g");
        assertThat(Objects.requireNonNull(lot.density()).gramsPerMl()).isCloseTo(1.0, within(1e-12));
        assertThat(lot.part()).isEqualTo(Lot.Part.A);
    }

    @Test
    void whatNoLotStatesIsLeftToTheProductAndAPriceHalfKnownIsUnknown() {
        resinLot("A1", null, "50.00", null);
        resinLot("A2", "2027-01-01", null, null);
        Lot lot = together("A1", "1 g", "A2", "1 g");
        assertThat(lot.density()).isNull();
        assertThat(lot.strength()).isNull();
        assertThat(lot.price()).isNull();
        assertThat(lot.expires()).isEqualTo(LocalDate.of(2027, 1, 1));
    }

    @Test
    void somethingOfEachLotGoesIn() {
        resinLot("A1", null, null, null);
        resinLot("A2", null, null, null);
        assertThatThrownBy(() -> together("A1", "0 g", "A2", "1 g"))
                .isInstanceOf(MixRefusedException.class)
                .hasMessage("Something of each lot goes in; type the grams of both.");
        assertThatThrownBy(() -> together("A1", "1 g", "A3", "1 g"))
                .isInstanceOf(MixRefusedException.class)
                .hasMessage("There is no lot A3 on the shelf.");
    }
}
