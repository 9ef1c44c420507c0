package pigmentbook.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import org.hipparchus.fraction.BigFraction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Plain numbers, written. */
class NumbersTest {

    /** 2^-44 is one that Java before 19 writes with a digit too many; 2e23 was, too (JDK-4511638). */
    @ParameterizedTest(name = "{0} is written {1}")
    @CsvSource({
        "0, 0",
        "-0.0, 0",
        "0.1, 0.1",
        "1e15, 1000000000000000",
        "1500, 1500",
        "-1500.25, -1500.25",
        "1e21, 1000000000000000000000",
        "2e23, 200000000000000000000000",
        "1e-7, 0.0000001",
        "0.002, 0.002",
        "5.684341886080802E-14, 0.00000000000005684341886080802",
        "0.30000000000000004, 0.30000000000000004",
        "NaN, NaN",
        "-Infinity, -Infinity"
    })
    void theShortestDecimalThatReadsBack(double value, String written) {
        assertThat(Numbers.plain(value)).isEqualTo(written);
    }

    @Test
    void theEndsOfTheRange() {
        assertThat(Numbers.plain(Double.MIN_VALUE)).isEqualTo("0." + "0".repeat(323) + "5");
        assertThat(Numbers.plain(Double.MAX_VALUE)).isEqualTo("17976931348623157" + "0".repeat(292));
    }

    @ParameterizedTest(name = "{0} with {1} decimals is {2}")
    @CsvSource({
        "1.005, 2, 1.01",
        "-1.005, 2, -1.01",
        "2.5, 0, 3",
        "-0.001, 2, 0.00",
        "-0.0, 1, 0.0",
        "1e21, 1, 1000000000000000000000.0",
        "1e-300, 3, 0.000",
        "12, 3, 12.000",
        "NaN, 2, NaN"
    })
    void justSoManyDecimals(double value, int decimals, String written) {
        assertThat(Numbers.fixed(value, decimals)).isEqualTo(written);
    }

    @Test
    void theFractionOfADoubleIsThatOfItsShortestDecimal() {
        assertThat(Numbers.exact(0.1)).isEqualTo(new BigFraction(1, 10));
        assertThat(Numbers.exact(-2.5)).isEqualTo(new BigFraction(-5, 2));
        assertThat(Numbers.exact(1e30)).isEqualTo(new BigFraction(BigInteger.TEN.pow(30)));
        assertThat(Numbers.exact(-0.0)).isEqualTo(BigFraction.ZERO);
        assertThatThrownBy(() -> Numbers.exact(Double.NaN))
                .isExactlyInstanceOf(BadAmountException.class)
                .hasMessage("\"NaN\" is no number that can be worked with; write a plain amount.");
    }

    @Test
    void aFractionBeyondTheDoublesIsInfinite() {
        assertThat(Numbers.nearest(new BigFraction(BigInteger.TEN.pow(400)))).isInfinite();
    }

    @ParameterizedTest(name = "{0} mm is {2}")
    @CsvSource({
        "12.7, in, 1/2 in",
        "215.9, in, 8 1/2 in",
        "25.4, in, 1 in",
        "0, in, 0 in",
        "25, in, 63/64 in",
        "-12.7, in, -1/2 in",
        "12.7, mm, 12.7 mm",
        "1234.5678, mm, 1235 mm",
        "12345.678, mm, 12346 mm",
        "0.12345, mm, 0.1235 mm",
        "304.8, cm, 30.48 cm",
        "1000, mm, 1000 mm"
    })
    void aLengthInAUnitOfChoice(double mm, String unit, String shown) {
        assertThat(InUnit.length(mm, unit)).isEqualTo(shown);
    }

    @Test
    void otherAmountsInAUnitOfChoice() {
        assertThat(InUnit.mass(1250, "kg")).isEqualTo("1.25 kg");
        assertThat(InUnit.mass(-50, "g")).isEqualTo("-50 g");
        assertThat(InUnit.mass(453.59237, "oz")).isEqualTo("16 oz");
        assertThat(InUnit.volume(354.88235475, "fl oz")).isEqualTo("12 fl oz");
        assertThat(InUnit.volume(0, "mL")).isEqualTo("0 mL");
        assertThat(InUnit.temperature(21, "F")).isEqualTo("69.8 F");
        assertThatThrownBy(() -> InUnit.mass(5, "mL"))
                .isExactlyInstanceOf(BadAmountException.class)
                .hasMessage("\"mL\" is a volume; a mass is expected, such as 250 g or 1 lb 3 oz.");
        assertThatThrownBy(() -> InUnit.mass(5, "blob"))
                .isExactlyInstanceOf(BadAmountException.class)
                .hasMessage("\"blob\" is not a known unit; write g, kg, oz or lb.");
    }
}
