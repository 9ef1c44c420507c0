package pigmentbook.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a scale's display can show: multiples of its step, halves up; all by hand. */
class WeighingStepTest {

    @ParameterizedTest(name = "{1} g on {0} shows {2} g")
    @CsvSource({
        "0.01 g, 1.005, 1.01",
        "0.01 g, 1.0049, 1.00",
        "0.01 g, 2.675, 2.68",
        "0.01 g, 0.005, 0.01",
        "0.01 g, 0.00499, 0",
        "0.01 g, 210.4, 210.4",
        "0.05 g, 1.02, 1.00",
        "0.05 g, 1.025, 1.05",
        "0.05 g, 0.15, 0.15",
        "0.2 g, 0.29, 0.2",
        "0.2 g, 0.3, 0.4",
        "0.2 g, 0.6, 0.6",
        "1 g, 2.5, 3",
        "1 g, 2.4999, 2",
        "5 g, 12.5, 15",
        "5 g, 12.4, 10",
        "1/8 oz, 1.7718451953125, 3.543690390625",
        "1/8 oz, 1.77184, 0",
        "1/8 oz, 28.349523125, 28.349523125",
        "0.01 g, -1.005, -1.00",
        "1 g, -2.6, -3"
    })
    void theNearestMultipleHalvesUp(String step, double grams, double shown) {
        assertThat(WeighingStep.parse(step).round(grams)).isEqualTo(shown);
    }

    @Test
    void withinABillionthOfAStepOfAHalfIsAHalf() {
        WeighingStep step = WeighingStep.parse("0.01 g");
        assertThat(step.round(1.004_999_999_995)).isEqualTo(1.01);
        assertThat(step.round(1.004_999_999_980)).isEqualTo(1.00);
        assertThat(step.round(0.1 + 0.2 - 0.295 + 0.01)).isEqualTo(0.02);
    }

    @Test
    void aTonneIsRoundedAsWellAsAGram() {
        WeighingStep step = WeighingStep.parse("0.01 g");
        assertThat(step.round(1e12)).isEqualTo(1e12);
        assertThat(step.round(1_000_000_000_000.005)).isEqualTo(1_000_000_000_000.01);
        assertThat(step.round(1_000_000_000_000.004)).isEqualTo(1_000_000_000_000.00);
        assertThat(step.round(1e300)).isEqualTo(1e300);
    }

    @ParameterizedTest(name = "{1} g on {0} lies between {2} g and {3} g")
    @CsvSource({
        "0.01 g, 1.005, 1.00, 1.01",
        "0.01 g, 0.29, 0.29, 0.29",
        "0.05 g, 0.15, 0.15, 0.15",
        "0.2 g, 0.6, 0.6, 0.6",
        "5 g, 12.5, 10, 15",
        "1 g, 2.9999999999, 3, 3",
        "1 g, 3.0000000001, 3, 3",
        "1 g, -2.5, -3, -2"
    })
    void downAndUp(String step, double grams, double down, double up) {
        assertThat(WeighingStep.parse(step).roundDown(grams)).isEqualTo(down);
        assertThat(WeighingStep.parse(step).roundUp(grams)).isEqualTo(up);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"0.001 g, 3", "0.01 g, 2", "0.05 g, 2", "0.2 g, 1", "1 g, 0", "5 g, 0", "1/8 oz, 4", "0.1 mg, 4"})
    void decimalsThatShowItInFull(String step, int decimals) {
        assertThat(WeighingStep.parse(step).decimals()).isEqualTo(decimals);
    }

    @Test
    void noNumberIsNotRounded() {
        assertThatThrownBy(() -> WeighingStep.parse("1 g").round(Double.NaN))
                .isExactlyInstanceOf(BadAmountException.class)
                .hasMessage("\"NaN\" is no number that can be worked with; write a plain amount.");
    }
}
