package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Lot;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;

/** Two lots put together. The figures are worked by hand: 120 g of 1.20 g/mL are 100 mL, 150 g of 1.00 g/mL 150 mL. */
class IntermixTest {

    private static Lot lot(
            String id, String of, String strength, @Nullable String density, @Nullable LocalDate expires) {
        return new Lot(
                id,
                of,
                null,
                "",
                null,
                null,
                expires,
                Mass.parse("1 kg"),
                null,
                density == null ? null : Density.parse(density),
                Percent.parse(strength),
                null,
                List.of());
    }

    private static final LocalDate SPRING = LocalDate.of(2027, 4, 30);
    private static final LocalDate AUTUMN = LocalDate.of(2027, 10, 31);

    @Test
    void strengthFollowsTheMassAndDensityTheVolumes() {
        Intermix mixed = Intermix.of(
                lot("P-1", "amber-paste", "90 %", "1.20 g/mL", AUTUMN),
                Mass.parse("120 g"),
                lot("P-2", "amber-paste", "108 %", "1.00 g/mL", SPRING),
                Mass.parse("150 g"));
        assertThat(mixed.grams()).isEqualTo(270);
        assertThat(mixed.strengthFactor()).isCloseTo(1, within(1e-12));
        assertThat(mixed.gramsPerMl()).isCloseTo(270 / 250.0, within(1e-12));
        assertThat(mixed.expires()).isEqualTo(SPRING);
    }

    @Test
    void whatOneOfThemDoesNotStateIsNotMadeUp() {
        Intermix mixed = Intermix.of(
                lot("P-1", "amber-paste", "100 %", null, null),
                Mass.parse("120 g"),
                lot("P-2", "amber-paste", "100 %", "1.00 g/mL", AUTUMN),
                Mass.parse("150 g"));
        assertThat(mixed.gramsPerMl()).isNull();
        assertThat(mixed.expires()).isEqualTo(AUTUMN);
    }

    @Test
    void twoProductsOrNothingOfOneAreRefused() {
        Lot amber = lot("P-1", "amber-paste", "100 %", null, null);
        Lot rust = lot("R-1", "rust-paste", "100 %", null, null);
        Mass some = Mass.parse("10 g");
        assertThatThrownBy(() -> Intermix.of(amber, some, rust, some))
                .isInstanceOf(MixRefusedException.class)
                .hasMessageStartingWith("Two different lots of one product are put together");
        assertThatThrownBy(() -> Intermix.of(amber, some, amber, some)).isInstanceOf(MixRefusedException.class);
        assertThatThrownBy(() ->
                        Intermix.of(amber, some, lot("P-2", "amber-paste", "100 %", null, null), Mass.parse("0 g")))
                .isInstanceOf(MixRefusedException.class)
                .hasMessageStartingWith("Something of each lot goes in");
    }
}
