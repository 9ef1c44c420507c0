package pigmentbook.quantity;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.math.BigDecimal;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import javax.measure.Quantity;
import org.hipparchus.fraction.BigFraction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.MethodSource;
import systems.uom.common.Imperial;
import systems.uom.common.USCustomary;
import tech.units.indriya.unit.Units;

/** The factors, held against published definitions and against a general library of units. */
class UnitsTest {

    /** What the table calls a unit, and what it is called here because its short name could mean two things. */
    private static final Map<String, String> CALLED_HERE = Map.of(
            "dr", "dram",
            "gr", "grain",
            "ton", "short ton",
            "tbsp(15 mL)", "metric tbsp",
            "tsp(5 mL)", "metric tsp");

    private static UnitNames.Scale scale(String name) {
        return requireNonNull(UnitNames.find(name), name);
    }

    /** Sources are in the head of units.csv: NIST SP 811, NIST Handbook 44, the UK regulations of 1995. */
    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "/quantity/units.csv", useHeadersInDisplayName = true)
    void matchesNistSp811AndHandbook44(
            String name, String symbol, String quantity, String value, String siUnit, String status) {
        UnitNames.Scale ours = scale(CALLED_HERE.getOrDefault(symbol, symbol));
        BigFraction theirs =
                Numbers.fraction(new BigDecimal(value)).multiply(scale(siUnit).factor());
        assertThat(ours.kind().name()).isEqualToIgnoringCase(quantity);
        if (status.equals("exact")) {
            assertThat(ours.factor()).isEqualTo(theirs);
        } else {
            assertThat(ours.factor().divide(theirs).doubleValue()).isCloseTo(1, within(1e-14));
        }
    }

    static Stream<Arguments> unitsOfAGeneralLibrary() {
        return Stream.of(
                arguments("in", USCustomary.INCH, Units.METRE, "m"),
                arguments("ft", USCustomary.FOOT, Units.METRE, "m"),
                arguments("yd", USCustomary.YARD, Units.METRE, "m"),
                arguments("lb", USCustomary.POUND, Units.KILOGRAM, "kg"),
                arguments("oz", USCustomary.OUNCE, Units.KILOGRAM, "kg"),
                arguments("short ton", USCustomary.TON, Units.KILOGRAM, "kg"),
                arguments("st", Imperial.STONE, Units.KILOGRAM, "kg"),
                arguments("sq ft", USCustomary.SQUARE_FOOT, Units.SQUARE_METRE, "m2"),
                arguments("in3", USCustomary.CUBIC_INCH, Units.CUBIC_METRE, "m3"),
                arguments("ft3", USCustomary.CUBIC_FOOT, Units.CUBIC_METRE, "m3"),
                arguments("gal", USCustomary.GALLON_LIQUID, Units.CUBIC_METRE, "m3"),
                arguments("fl oz", USCustomary.FLUID_OUNCE, Units.CUBIC_METRE, "m3"),
                arguments("imp gal", Imperial.GALLON_UK, Units.CUBIC_METRE, "m3"),
                arguments("imp fl oz", Imperial.FLUID_OUNCE, Units.CUBIC_METRE, "m3"),
                arguments("imp pt", Imperial.PINT, Units.CUBIC_METRE, "m3"),
                arguments("imp qt", Imperial.QUART, Units.CUBIC_METRE, "m3"),
                arguments("L", Units.LITRE, Units.CUBIC_METRE, "m3"),
                arguments("h", Units.HOUR, Units.MINUTE, "min"),
                arguments("d", Units.DAY, Units.MINUTE, "min"),
                arguments("wk", Units.WEEK, Units.MINUTE, "min"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("unitsOfAGeneralLibrary")
    <Q extends Quantity<Q>> void agreesWithIndriyaAndSystemsCommon(
            String name, javax.measure.Unit<Q> theirs, javax.measure.Unit<Q> si, String siName) {
        double factor = theirs.getConverterTo(si).convert(1.0);
        BigFraction ours = scale(name).factor().divide(scale(siName).factor());
        assertThat(ours.doubleValue() / factor).isCloseTo(1, within(1e-14));
    }

    /** Indriya converts by doubles, so that a few units in the last place are its own. */
    @ParameterizedTest
    @MethodSource("temperatures")
    void fahrenheitAgreesWithSystemsCommon(int fahrenheit) {
        double theirs = USCustomary.FAHRENHEIT
                .getConverterTo(Units.CELSIUS)
                .convert(Double.valueOf(fahrenheit))
                .doubleValue();
        assertThat(Temperature.parse(fahrenheit + " F").celsius()).isCloseTo(theirs, within(1e-10));
    }

    static Stream<Integer> temperatures() {
        return Stream.of(-40, 0, 32, 72, 100, 212);
    }

    @Test
    void noNameStandsForTwoUnits() {
        Set<String> seen = new HashSet<>();
        for (Unit unit : Unit.values()) {
            Set<String> own = new HashSet<>();
            unit.names().forEach(name -> own.add(name.toLowerCase(java.util.Locale.ROOT)));
            assertThat(own).as(unit.name()).noneMatch(seen::contains);
            seen.addAll(own);
        }
    }

    @Test
    void everyKindsOwnUnitIsItsFirst() {
        for (Kind kind : Kind.values()) {
            if (!Unit.of(kind).isEmpty()) {
                assertThat(Unit.of(kind).get(0).factor()).isEqualTo(BigFraction.ONE);
            }
        }
        assertThat(scale("g/mL").factor()).isEqualTo(BigFraction.ONE);
        assertThat(scale("g/m2").factor()).isEqualTo(BigFraction.ONE);
        assertThat(scale("mm2").factor()).isEqualTo(BigFraction.ONE);
    }
}
