package pigmentbook.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.hipparchus.fraction.BigFraction;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What people type, and what it means. Figures follow by hand from the definitions: 1 in = 25.4 mm, 1 lb = 453.59237 g,
 * 1 US gal = 231 in³, 1 imp gal = 4.54609 L, °C = (°F − 32) × 5/9.
 */
class ParsingTest {

    private final Locale before = Locale.getDefault();

    @AfterEach
    void putTheLocaleBack() {
        Locale.setDefault(before);
    }

    @ParameterizedTest(name = "{0} is {1}/{2} mm")
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            210mm         | 210   | 1
            210 mm        | 210   | 1
            0 mm          | 0     | 1
            +5 mm         | 5     | 1
            2.5 cm        | 25    | 1
            0,75 m        | 750   | 1
            8 1/2 in      | 2159  | 10
            8½"           | 2159  | 10
            8-1/2 in      | 2159  | 10
            8.5 inches    | 2159  | 10
            17/2 in       | 2159  | 10
            8½″           | 2159  | 10
            8 1⁄2 in      | 2159  | 10
            8''           | 1016  | 5
            ½ in          | 127   | 10
            ¼ in          | 127   | 20
            ¾"            | 381   | 20
            1⅛ in         | 1143  | 40
            ⅓ in          | 127   | 15
            1 ft 2 1/2 in | 3683  | 10
            1 ft 2-1/2 in | 3683  | 10
            1' 2 1/2"     | 3683  | 10
            1'-2½"        | 3683  | 10
            1′ 2½″        | 3683  | 10
            1ft2in        | 1778  | 5
            1 ft. 2 in.   | 1778  | 5
            2 yd          | 9144  | 5
            10 mil        | 127   | 500
            1 m 20 cm     | 1200  | 1
            """)
    void lengthsAreExact(String written, long numerator, long denominator) {
        assertThat(Length.parse(written).exactMm()).isEqualTo(new BigFraction(numerator, denominator));
    }

    @ParameterizedTest(name = "{0} is {1} g")
    @CsvSource(delimiter = '|', textBlock = """
            210.4 g   | 210.4
            1,5 kg    | 1500
            1.5 kg    | 1500
            .5 g      | 0.5
            250 mg    | 0.25
            1 lb      | 453.59237
            1 oz      | 28.349523125
            2 lb 3 oz | 992.233309375
            2 lbs 3oz | 992.233309375
            1/8 oz    | 3.543690390625
            1 t       | 1000000
            1 oz t    | 31.1034768
            -0 g      | 0
            """)
    void masses(String written, double grams) {
        assertThat(Mass.parse(written).grams()).isEqualTo(grams);
    }

    @ParameterizedTest(name = "{0} is {1} g")
    @CsvSource({"-50 g, -50", "−50 g, -50", "- 50 g, -50", "+50 g, 50", "-1 lb 8 oz, -680.388555"})
    void aChangeOfMassMayBeNegative(String written, double grams) {
        assertThat(Mass.parseChange(written).grams()).isEqualTo(grams);
    }

    @Test
    void aPlaceOnADrawingMayBeNegative() {
        assertThat(Length.parseCoordinate("-1/2 in").exactMm()).isEqualTo(new BigFraction(-127, 10));
        assertThat(Length.parseCoordinate("12 mm").exactMm()).isEqualTo(new BigFraction(12));
    }

    @ParameterizedTest(name = "{0} is {1} mL")
    @CsvSource(delimiter = '|', textBlock = """
            2 l           | 2000
            2 L           | 2000
            250 ml        | 250
            250 mL        | 250
            5 cm3         | 5
            5 cm³         | 5
            5 cm^3        | 5
            5 cc          | 5
            5 cu cm       | 5
            1 dm3         | 1000
            2 dL          | 200
            1 in3         | 16.387064
            1 cu in       | 16.387064
            1 cubic inch  | 16.387064
            12 fl oz      | 354.88235475
            12 fl. oz.    | 354.88235475
            12 US fl oz   | 354.88235475
            12 imp fl oz  | 340.95675
            12 Imperial fl oz | 340.95675
            1 gal         | 3785.411784
            1 US gal      | 3785.411784
            1 U.S. gal    | 3785.411784
            1 imp gal     | 4546.09
            1 qt          | 946.352946
            1 imp qt      | 1136.5225
            1 pt          | 473.176473
            1 imp pt      | 568.26125
            1 gal 2 qt    | 5678.117676
            1 metric tbsp | 15
            """)
    void volumesAreUsUnlessImpStandsBefore(String written, double milliliters) {
        assertThat(Volume.parse(written).milliliters()).isEqualTo(milliliters);
    }

    @ParameterizedTest(name = "{0} is {1} mm²")
    @CsvSource(delimiter = '|', textBlock = """
            0.02 m2       | 20000
            0,02 m²       | 20000
            5 cm²         | 500
            7 mm2         | 7
            2 in2         | 1290.32
            2 in²         | 1290.32
            2 sq. in.     | 1290.32
            1 sq ft       | 92903.04
            1 square foot | 92903.04
            1 ft2         | 92903.04
            """)
    void areas(String written, double mm2) {
        assertThat(Area.parse(written).mm2()).isEqualTo(mm2);
    }

    @ParameterizedTest(name = "{0} is {1} °C")
    @CsvSource(delimiter = '|', textBlock = """
            21 C       | 21
            21 °C      | 21
            21°C       | 21
            21 ℃       | 21
            21 deg C   | 21
            21 celsius | 21
            -5 C       | -5
            −5 °C      | -5
            212 °F     | 100
            32 F       | 0
            -40 F      | -40
            72 F       | 22.22222222222222222
            294.15 K   | 21
            0 K        | -273.15
            """)
    void temperatures(String written, double celsius) {
        assertThat(Temperature.parse(written).celsius()).isEqualTo(celsius);
    }

    @ParameterizedTest(name = "{0} is {1} %")
    @CsvSource(delimiter = '|', textBlock = """
            1.2%        | 6 | 5
            1.2 %       | 6 | 5
            1,2 %       | 6 | 5
            1.2 ％       | 6 | 5
            1 1/2 %     | 3 | 2
            0 %         | 0 | 1
            100 percent | 100 | 1
            """)
    void percentsAreExact(String written, long numerator, long denominator) {
        assertThat(Percent.parse(written).exactPercent()).isEqualTo(new BigFraction(numerator, denominator));
    }

    @ParameterizedTest(name = "{0} is {1} min")
    @CsvSource(delimiter = '|', textBlock = """
            90 min     | 90
            1 h 30 min | 90
            1h30min    | 90
            1 1/2 hr   | 90
            45 s       | 0.75
            7 d        | 10080
            2 wk       | 20160
            1 day      | 1440
            """)
    void times(String written, double minutes) {
        assertThat(Duration.parse(written).minutes()).isEqualTo(minutes);
    }

    /** lb/gal from units.csv, where it is an exact fraction rounded to 17 digits. */
    @ParameterizedTest(name = "{0} is {1} g/mL")
    @CsvSource(delimiter = '|', textBlock = """
            1.15 g/mL    | 1.15
            1,15 g/ml    | 1.15
            1.15 g / mL  | 1.15
            1.15 g/cm3   | 1.15
            1.15 g/cm³   | 1.15
            1.15 g/cc    | 1.15
            1.15 kg/L    | 1.15
            1150 kg/m3   | 1.15
            1150 kg/m³   | 1.15
            1150 g/L     | 1.15
            1 lb/gal     | 0.11982642731689663
            1 lb per gal | 0.11982642731689663
            1 lb/imp gal | 0.0997763726631017
            """)
    void densities(String written, double gramsPerMl) {
        assertThat(Density.parse(written).gramsPerMl()).isEqualTo(gramsPerMl);
    }

    /** 1 oz/ft² = 28.349523125 g / 0.09290304 m². */
    @ParameterizedTest(name = "{0} is {1} g/m²")
    @CsvSource({"120 g/m2, 120", "120 g/m², 120", "0.12 kg/sq m, 120", "1 oz/ft2, 305.15172727394066"})
    void coverages(String written, double gramsPerM2) {
        assertThat(Coverage.parse(written).gramsPerM2()).isEqualTo(gramsPerM2);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            2:1        | 2   | 1
            2 : 1      | 2   | 1
            2 to 1     | 2   | 1
            2 TO 1     | 2   | 1
            100:47     | 100 | 47
            200 : 95,0 | 200 | 95
            1 1/2:1    | 3   | 2
            2：1        | 2   | 1
            """)
    void ratios(String written, int a, int b) {
        Ratio ratio = Ratio.parse(written);
        assertThat(ratio.a().multiply(b)).isEqualTo(ratio.b().multiply(a));
        assertThat(ratio.quotient()).isEqualTo((double) a / b);
        assertThat(ratio.shareOfA()).isEqualTo((double) a / (a + b));
    }

    @Test
    void aRatioKeepsItsPartsExact() {
        assertThat(Ratio.parse("100 : 47,5").b()).isEqualTo(new BigFraction(95, 2));
    }

    @Test
    void moneyKeepsItsDecimals() {
        assertThat(Money.parse("62.00", "EUR").written()).isEqualTo("62.00 EUR");
        assertThat(Money.parse("62,5", "usd").written()).isEqualTo("62.5 USD");
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"3 mm", "3 MM", "3mm", "3\u00a0mm", "3\u2009mm", "3\u202fmm", "3\u3000mm", "３ｍｍ", " 3 mm "})
    void spacesAndCapitalsThatMeanNothingMakeNoDifference(String written) {
        assertThat(Length.parse(written).mm()).isEqualTo(3);
        assertThat(Length.parse(written).written()).isEqualTo(written);
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"2 kg", "2 Kg", "2 KG", "2 kG", "2 Kilograms"})
    void kilogramsInAnyCase(String written) {
        assertThat(Mass.parse(written).grams()).isEqualTo(2000);
    }

    /** In Turkish a small I has no dot; in German a comma is the decimal mark; Arabic may have digits of its own. */
    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"de-DE", "ar-EG-u-nu-arab", "tr-TR"})
    void aMachineOfAnyLanguageReadsAndWritesTheSame(String language) {
        Locale.setDefault(Locale.forLanguageTag(language));
        assertThat(Length.parse("12 IN").mm()).isEqualTo(304.8);
        assertThat(Duration.parse("2 MIN").minutes()).isEqualTo(2);
        assertThat(Mass.parse("1,25 KILO").grams()).isEqualTo(1250);
        assertThat(Money.parse("1.5", "inr").written()).isEqualTo("1.5 INR");
        assertThat(Ratio.parse("2 TO 1").quotient()).isEqualTo(2);
        assertThat(Mass.ofGrams(1234.5).written()).isEqualTo("1234.5 g");
        assertThat(Numbers.fixed(1234.5, 2)).isEqualTo("1234.50");
        assertThat(InUnit.length(12.7, "in")).isEqualTo("1/2 in");
    }
}
