package pigmentbook.mold;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Water against {@code water_density.csv}: Tanaka 2001, and the balance factor derived there. */
class WaterDensityTest {

    private static final double PRINTED_KG_PER_M3 = 0.000_051;
    private static final double PRINTED_ML_PER_G = 0.000_000_51;

    @ParameterizedTest(name = "{0} °C")
    @CsvFileSource(resources = "/mold/water_density.csv", useHeadersInDisplayName = true)
    void matchesTanaka2001AndTheBalanceFactor(
            double celsius,
            double tanaka,
            String saturated,
            String iapws,
            String jones,
            String kell,
            double mlPerGramTrue,
            double mlPerGramOnABalance) {
        assertThat(WaterDensity.kgPerM3(celsius)).isCloseTo(tanaka, within(PRINTED_KG_PER_M3));
        assertThat(WaterDensity.millilitersOf(1, celsius)).isCloseTo(mlPerGramOnABalance, within(PRINTED_ML_PER_G));
    }

    @Test
    void waterOutsideTheFitIsRefused() {
        assertThatThrownBy(() -> WaterDensity.kgPerM3(40.1))
                .hasMessage("Water of 40.1 °C can't be used to measure; 0 to 40 °C is expected.");
        assertThatThrownBy(() -> WaterDensity.kgPerM3(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }
}
