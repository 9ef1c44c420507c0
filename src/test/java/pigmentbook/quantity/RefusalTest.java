package pigmentbook.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.hipparchus.fraction.BigFraction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is no amount, and what the person who wrote it is told. */
class RefusalTest {

    private static void refused(ThrowingCallable reading, String message) {
        assertThatThrownBy(reading)
                .isExactlyInstanceOf(BadAmountException.class)
                .hasMessage(message);
    }

    private static void massRefused(String text, String message) {
        refused(() -> Mass.parse(text), message);
    }

    @Test
    void aCommaBeforeThreeDigitsNamesBothReadings() {
        massRefused("1,500 g", "\"1,500 g\" is ambiguous: write 1.5 g or 1500 g.");
        massRefused("0,500 kg", "\"0,500 kg\" is ambiguous: write 0.5 kg or 500 kg.");
        massRefused("1,500", "\"1,500\" is ambiguous: write 1.5 or 1500.");
        massRefused(",500 g", "\",500 g\" is ambiguous: write 0.5 g or 500 g.");
        refused(() -> Ratio.parse("1,000:1"), "\"1,000:1\" is ambiguous: write 1 or 1000.");
        refused(() -> Money.parse("1,500", "EUR"), "\"1,500\" is ambiguous: write 1.5 or 1500.");
        assertThat(Mass.parse("1,5000 g").grams()).isEqualTo(1.5);
        assertThat(Mass.parse("1.500 g").grams()).isEqualTo(1.5);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "1 500 g",
                "1\u00a0500 g",
                "1.500,5 g",
                "1,234.5 g",
                "1.234.567 g",
                "1,234,567 g",
                "1'500 g",
                "1’500 g",
                "8 5 g",
                "5. g",
                "1.2.3 g",
                "½ ½ g",
                "8½5 g"
            })
    void groupedDigits(String text) {
        massRefused(
                text,
                "\"" + text + "\" has gaps or marks between its digits; write them together with at most one decimal"
                        + " mark, such as 1500.5.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"8-10 g", "8 - 10 g", "8–10 g", "8 1/2-9 g"})
    void aRange(String text) {
        massRefused(
                text,
                "\"" + text + "\" has two numbers; write one of them: a mass is expected, such as 250 g or 1 lb 3 oz.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e400 g", "1e3 g", "1E-3 g", "2.5e+3 g"})
    void anExponent(String text) {
        massRefused(
                text,
                "\"" + text
                        + "\" has an exponent. Write the number in full; a mass is expected, such as 250 g or 1 lb 3"
                        + " oz.");
    }

    @Test
    void divisionByZero() {
        massRefused("1/0 g", "\"1/0 g\" divides by zero; a mass is expected, such as 250 g or 1 lb 3 oz.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"8 3/2 g", "1.5/2 g", "1.5 1/2 g"})
    void aFractionThatIsNone(String text) {
        massRefused(
                text,
                "\"" + text + "\" has no proper fraction; after a whole number write one below 1, such as 8 1/2.");
    }

    @Test
    void noUnitNamesTheAcceptedOnes() {
        refused(() -> Length.parse("8 1/2"), "\"8 1/2\" has no unit; write mm, cm, m, in or ft after the number.");
        massRefused("250", "\"250\" has no unit; write g, kg, oz or lb after the number.");
        refused(() -> Percent.parse("1.2"), "\"1.2\" has no unit; write % after the number.");
        refused(() -> Volume.parse("2"), "\"2\" has no unit; write mL, L, cm3, fl oz or gal after the number.");
        refused(() -> Area.parse("2"), "\"2\" has no unit; write mm2, cm2, m2, in2 or ft2 after the number.");
        refused(() -> Density.parse("1.1"), "\"1.1\" has no unit; write g/mL, kg/m3 or lb/gal after the number.");
        refused(() -> Coverage.parse("120"), "\"120\" has no unit; write g/m2 or oz/ft2 after the number.");
        refused(() -> Temperature.parse("21"), "\"21\" has no unit; write C, F or K after the number.");
        refused(() -> Duration.parse("1 h 30"), "\"1 h 30\" has no unit; write min, h, d or wk after the number.");
    }

    @Test
    void aUnitOfAnotherKind() {
        massRefused("8 in", "\"8 in\" is a length; a mass is expected, such as 250 g or 1 lb 3 oz.");
        massRefused("250 mL", "\"250 mL\" is a volume; a mass is expected, such as 250 g or 1 lb 3 oz.");
        refused(() -> Volume.parse("12 oz"), "\"12 oz\" is a mass; a volume is expected, such as 250 mL or 12 fl oz.");
        refused(() -> Length.parse("5 mm2"), "\"5 mm2\" is an area; a length is expected, such as 210 mm or 8 1/2 in.");
        refused(
                () -> Duration.parse("90 m"),
                "\"90 m\" is a length; a time is expected, such as 40 min or 1 h 30 min.");
        refused(
                () -> Density.parse("120 g/m2"),
                "\"120 g/m2\" is a mass for each area; a density is expected, such as 1.15 g/mL.");
        refused(
                () -> Coverage.parse("1.15 g/mL"),
                "\"1.15 g/mL\" is a density; a mass for each area is expected, such as 120 g/m2.");
        refused(() -> Percent.parse("21 C"), "\"21 C\" is a temperature; a percentage is expected, such as 1.2 %.");
        refused(() -> Area.parse("7 d"), "\"7 d\" is a time; an area is expected, such as 0.02 m2.");
        refused(
                () -> Temperature.parse("2 %"),
                "\"2 %\" is a percentage; a temperature is expected, such as 21 C or 70 F.");
    }

    @Test
    void aUnitThatNobodyKnows() {
        massRefused("5 blob", "\"blob\" in \"5 blob\" is not a known unit; write g, kg, oz or lb.");
        massRefused("1_000 g", "\"_\" in \"1_000 g\" is not a known unit; write g, kg, oz or lb.");
        massRefused("10² g", "\"² g\" in \"10² g\" is not a known unit; write g, kg, oz or lb.");
        refused(() -> Density.parse("1 g/m"), "\"g/m\" in \"1 g/m\" is not a known unit; write g/mL, kg/m3 or lb/gal.");
        refused(() -> Area.parse("1 g2"), "\"g2\" in \"1 g2\" is not a known unit; write mm2, cm2, m2, in2 or ft2.");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            3 Mm | Mm | mm
            3 M  | M  | m
            3 Mg | Mg | mg
            3 Ml | Ml | ml
            3 T  | T  | t
            3 k  | k  | K
            3 Mm2 | Mm2 | mm2
            3 kg/M3 | kg/M3 | kg/m3
            """)
    void capitalsThatChangeTheMeaning(String text, String unit, String meant) {
        massRefused(
                text,
                "\"" + unit + "\" in \"" + text + "\" changes its meaning with its capital letters; write " + meant
                        + " if that is meant.");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            5 gr   | gr   | g or grain
            2 tons | tons | t or short ton
            2 cup  | cup  | US cup or mL
            2 tbsp | tbsp | US tbsp or metric tbsp
            2 tsp  | tsp  | US tsp or metric tsp
            21°    | °    | C or F
            5 dr   | dr   | dram or fl dr
            """)
    void aNameWithTwoMeanings(String text, String unit, String instead) {
        massRefused(text, "\"" + unit + "\" in \"" + text + "\" can mean two things; write " + instead + ".");
    }

    @ParameterizedTest
    @ValueSource(strings = {"3 oz 2 lb", "5 g 3 g", "1.5 lb 3 oz"})
    void unitsInNoOrder(String text) {
        massRefused(
                text,
                "\"" + text
                        + "\" is not one amount: whole larger units come before smaller ones; a mass is expected, such"
                        + " as 250 g or 1 lb 3 oz.");
    }

    @Test
    void onePercentageOnly() {
        refused(
                () -> Percent.parse("1 % 2 %"),
                "\"1 % 2 %\" is not one amount; a percentage is expected, such as 1.2 %.");
    }

    @Test
    void belowZero() {
        massRefused("-5 g", "\"-5 g\" is below zero; a mass is 0 or more.");
        massRefused("−5 g", "\"−5 g\" is below zero; a mass is 0 or more.");
        refused(() -> Length.parse("-1/2 in"), "\"-1/2 in\" is below zero; a length is 0 or more.");
        refused(() -> Percent.of(-1), "\"-1 %\" is below zero; a percentage is 0 or more.");
        refused(() -> Money.parse("-5", "EUR"), "\"-5\" is below zero; a price is 0 or more.");
    }

    @Test
    void aDensityOfNothing() {
        String message = "\"0 g/mL\" is not above zero; a density is expected, such as 1.15 g/mL.";
        refused(() -> Density.parse("0 g/mL"), message);
        refused(() -> Density.ofGramsPerMl(0), message);
    }

    @Test
    void belowAbsoluteZero() {
        refused(
                () -> Temperature.parse("-300 C"),
                "\"-300 C\" is below absolute zero, -273.15 C; a temperature is expected, such as 21 C or 70 F.");
        refused(
                () -> Temperature.parse("-1 K"),
                "\"-1 K\" is below absolute zero, -273.15 C; a temperature is expected, such as 21 C or 70 F.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "\u00a0"})
    void nothing(String text) {
        massRefused(text, "There is nothing here; a mass is expected, such as 250 g or 1 lb 3 oz.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"null", "NaN", "Infinity", "n/a", "-", "g", "about 5 g", "+-5 g", "٣ g"})
    void noNumber(String text) {
        massRefused(text, "\"" + text + "\" can't be read; a mass is expected, such as 250 g or 1 lb 3 oz.");
    }

    @Test
    void tenThousandDigits() {
        massRefused(
                "7".repeat(10_000) + " g",
                "\"" + "7".repeat(40)
                        + "…\" is 10002 characters long; a mass is expected, such as 250 g or 1 lb 3 oz.");
    }

    @Test
    void charactersThatCannotBeSeen() {
        massRefused(
                "5\u0007 g",
                "\"5\\u0007 g\" has a character that cannot be seen. Type it again; a mass is expected, such as 250 g"
                        + " or 1 lb 3 oz.");
        massRefused(
                "5\u200b g\n",
                "\"5\\u200B g\\u000A\" has a character that cannot be seen. Type it again; a mass is expected, such as"
                        + " 250 g or 1 lb 3 oz.");
    }

    @Test
    void ratiosThatAreNone() {
        refused(() -> Ratio.parse("2"), "\"2\" can't be read; a ratio is expected, such as 2:1 or 100:47.");
        refused(() -> Ratio.parse("2:1:1"), "\"2:1:1\" can't be read; a ratio is expected, such as 2:1 or 100:47.");
        refused(() -> Ratio.parse("-2:1"), "\"-2:1\" can't be read; a ratio is expected, such as 2:1 or 100:47.");
        refused(() -> Ratio.parse("0:1"), "A ratio of \"0:1\" has a part that is not above zero; write it like 2:1.");
    }

    @Test
    void aPlainNumberHasNoUnit() {
        refused(() -> Numbers.parse("5 g"), "\"5 g\" can't be read; a plain number is expected, such as 1.5.");
        assertThat(Numbers.parse("-1,25")).isEqualTo(new BigFraction(-5, 4));
        assertThat(Numbers.parse("1 1/2")).isEqualTo(new BigFraction(3, 2));
    }

    @Test
    void moneyThatIsNone() {
        refused(
                () -> Money.parse("a lot", "EUR"),
                "\"a lot\" can't be read; an amount of money is expected, such as 62.00.");
        refused(() -> Money.parse("5", "euros"), "\"EUROS\" is no currency; write its three letters, such as EUR.");
    }

    @Test
    void aStepOfNothing() {
        refused(() -> WeighingStep.parse("0 g"), "A scale's step of \"0 g\" is not above zero; write it like 0.01 g.");
    }

    @Test
    void aResultThatIsNoNumber() {
        refused(
                () -> Mass.ofGrams(Double.NaN),
                "\"NaN g\" is no number that can be worked with; write a plain amount.");
        refused(
                () -> Percent.of(Double.POSITIVE_INFINITY),
                "\"Infinity\" is no number that can be worked with; write a plain amount.");
    }
}
