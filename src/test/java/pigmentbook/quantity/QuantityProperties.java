package pigmentbook.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.hipparchus.fraction.BigFraction;

/** Laws of reading, writing and rounding amounts. */
class QuantityProperties {

    private static String decimal(long digits, int decimals) {
        return BigDecimal.valueOf(digits, decimals).toPlainString();
    }

    /** The quick way is only quick: it gives the very double and fraction that the exact way gives. */
    @Property(tries = 3000)
    void theQuickWayGivesWhatTheExactWayGives(
            @ForAll Unit unit,
            @ForAll @LongRange(max = 999_999_999_999_999L) long digits,
            @ForAll @IntRange(max = 12) int decimals,
            @ForAll boolean space) {
        String text = decimal(digits, decimals) + (space ? " " : "") + unit.symbol();
        PlainAmount quick = PlainAmount.read(text, unit.kind());
        Assume.that(quick != null);
        BigFraction exact = AmountParser.theLongWay(text, unit.kind());
        assertThat(quick.exact()).isEqualTo(exact);
        assertThat(quick.nearest()).isEqualTo(Numbers.nearest(exact));
    }

    @Property
    void commonAmountsTakeTheQuickWay(
            @ForAll @LongRange(max = 9_999_999) long digits, @ForAll @IntRange(max = 3) int decimals) {
        String number = decimal(digits, decimals);
        assertThat(PlainAmount.read(number + " g", Kind.MASS)).isNotNull();
        assertThat(PlainAmount.read(number + " mm", Kind.LENGTH)).isNotNull();
        assertThat(PlainAmount.read(number + " in", Kind.LENGTH)).isNotNull();
        assertThat(PlainAmount.read(number + " %", Kind.PERCENT)).isNotNull();
    }

    /** Java's own reading of decimals is correctly rounded, so ours must give the same. */
    @Property
    void gramsAreReadAsJavaReadsDecimals(@ForAll("decimals") String number) {
        assertThat(Mass.parse(number + " g").grams()).isEqualTo(Double.parseDouble(number));
        assertThat(Numbers.nearest(AmountParser.theLongWay(number + " g", Kind.MASS)))
                .isEqualTo(Double.parseDouble(number));
    }

    @Provide
    Arbitrary<String> decimals() {
        Arbitrary<String> digits =
                Arbitraries.strings().numeric().ofMinLength(1).ofMaxLength(40);
        return Combinators.combine(digits, digits).as((whole, rest) -> whole + "." + rest);
    }

    /** However it is written, it is the same amount. */
    @Property
    void waysOfWritingOneAmount(
            @ForAll @LongRange(max = 9_999_999) long digits, @ForAll @IntRange(min = 4, max = 6) int decimals) {
        String number = decimal(digits, decimals);
        BigFraction mm = Length.parse(number + " mm").exactMm();
        StringBuilder wide = new StringBuilder();
        number.chars().forEach(sign -> wide.append((char) (sign - '!' + '\uff01')));
        assertThat(Length.parse(number.replace('.', ',') + "mm").exactMm()).isEqualTo(mm);
        assertThat(Length.parse(number + "\u00a0mm").exactMm()).isEqualTo(mm);
        assertThat(Length.parse(wide + "\u3000ｍｍ").exactMm()).isEqualTo(mm);
        assertThat(Length.parse(" " + number + " MM ").exactMm()).isEqualTo(mm);
        assertThat(Length.parse(digits + "/" + BigInteger.TEN.pow(decimals) + " mm")
                        .exactMm())
                .isEqualTo(mm);
    }

    /** A whole number of inches with a fraction is the sum of the two. */
    @Property
    void fractionsAddUp(
            @ForAll @IntRange(max = 500) int feet,
            @ForAll @IntRange(max = 500) int inches,
            @ForAll @IntRange(max = 63) int parts) {
        BigFraction expected = new BigFraction(feet * 12 + inches)
                .add(new BigFraction(parts, 64))
                .multiply(new BigFraction(127, 5));
        String rest = inches + " " + parts + "/64";
        assertThat(Length.parse(feet + " ft " + rest + " in").exactMm()).isEqualTo(expected);
        assertThat(Length.parse(feet + "' " + rest + "\"").exactMm()).isEqualTo(expected);
        assertThat(Length.parse(feet + "'-" + inches + "-" + parts + "/64\"").exactMm())
                .isEqualTo(expected);
    }

    /** What an amount writes is read as the same amount. */
    @Property
    void writtenAndReadAgain(@ForAll @DoubleRange(max = 1e9) double value) {
        assertThat(Mass.parse(Mass.ofGrams(value).written()).grams()).isEqualTo(value);
        assertThat(Mass.parseChange(Mass.ofGrams(-value).written()).grams()).isEqualTo(0 - value);
        assertThat(Volume.parse(Volume.ofMilliliters(value).written()).milliliters())
                .isEqualTo(value);
        assertThat(Length.parse(Length.ofMm(value).written())).isEqualTo(Length.ofMm(value));
        assertThat(Area.parse(Area.ofMm2(value).written()).mm2()).isEqualTo(value);
        assertThat(Percent.parse(Percent.of(value).written())).isEqualTo(Percent.of(value));
        assertThat(Duration.parse(Duration.ofMinutes(value).written()).minutes())
                .isEqualTo(value);
        assertThat(Temperature.parse(Temperature.ofCelsius(value).written()).celsius())
                .isEqualTo(value);
        assertThat(Coverage.parse(Coverage.ofGramsPerM2(value).written()).gramsPerM2())
                .isEqualTo(value);
        assertThat(Density.parse(Density.ofGramsPerMl(value + 0.5).written()).gramsPerMl())
                .isEqualTo(value + 0.5);
    }

    /** From one unit to another and back nothing is lost. */
    @Property
    void thereAndBackBetweenUnits(@ForAll Unit from, @ForAll Unit to, @ForAll @IntRange(max = 1_000_000) int number) {
        Assume.that(from.kind() == to.kind());
        Kind kind = from.kind();
        BigFraction own = AmountParser.theLongWay(number + " " + from.symbol(), kind);
        BigFraction other = own.subtract(to.offset()).divide(to.factor());
        Assume.that(other.signum() >= 0);
        String text = other.getNumerator() + "/" + other.getDenominator() + " " + to.symbol();
        assertThat(AmountParser.theLongWay(text, kind)).isEqualTo(own);
    }

    /** Whatever is typed, the answer is an amount or a short letter without signs that cannot be seen. */
    @Property(tries = 3000)
    void anyTextIsReadOrRefused(@ForAll("texts") String text, @ForAll Kind kind) {
        try {
            assertThat(AmountParser.parse(text, kind)).isNotNegative().isFinite();
        } catch (BadAmountException refusal) {
            assertThat(refusal.getMessage()).hasSizeBetween(20, 220);
            assertThat(refusal.getMessage().codePoints()).noneMatch(Refusal::cannotBeSeen);
        }
    }

    @Provide
    Arbitrary<String> texts() {
        Arbitrary<String> pieces = Arbitraries.of(
                        "1", "2", "3", "500", ".", ",", "-", "/", " ", "½", "'", "\"", "in", "ft", "m", "g", "kg",
                        "fl oz", "%", "C", "°", "e", "\u0000", "\u00a0", "²", "imp ", "gal", "E5", ":", "to", "\ud800",
                        "🙂")
                .list()
                .ofMaxSize(12)
                .map(list -> String.join("", list));
        return Arbitraries.oneOf(pieces, Arbitraries.strings().ofMaxLength(300));
    }

    /** No double lies nearer to the fraction. */
    @Property
    void nearestIsTheNearest(@ForAll("bigWholes") BigInteger numerator, @ForAll("bigWholes") BigInteger denominator) {
        BigFraction exact = new BigFraction(numerator, denominator);
        double nearest = Numbers.nearest(exact);
        BigFraction error = distance(nearest, exact);
        assertThat(error).isLessThanOrEqualTo(distance(Math.nextUp(nearest), exact));
        assertThat(error).isLessThanOrEqualTo(distance(Math.nextDown(nearest), exact));
        assertThat(Numbers.nearest(exact.negate())).isEqualTo(-nearest);
    }

    @Provide
    Arbitrary<BigInteger> bigWholes() {
        return Arbitraries.bigIntegers().between(BigInteger.ONE, BigInteger.TEN.pow(60));
    }

    private static BigFraction distance(double value, BigFraction exact) {
        return Numbers.fraction(new BigDecimal(value)).subtract(exact).abs();
    }

    /** The written number reads back, and no decimal with a digit less does. */
    @Property
    void plainIsTheShortest(@ForAll long bits) {
        double value = Double.longBitsToDouble(bits);
        Assume.that(Double.isFinite(value) && value != 0);
        isTheShortest(value);
    }

    /** Powers of two, whose neighbours lie at two distances. */
    @Property
    void plainIsTheShortestForAPowerOfTwo(@ForAll @IntRange(min = -1074, max = 1023) int exponent) {
        isTheShortest(Math.scalb(1.0, exponent));
    }

    private static void isTheShortest(double value) {
        String plain = Numbers.plain(value);
        assertThat(Double.parseDouble(plain)).isEqualTo(value);
        assertThat(plain).matches("-?(0|[1-9][0-9]*)(\\.[0-9]*[1-9])?");
        int digits = new BigDecimal(plain).stripTrailingZeros().precision();
        if (digits > 1) {
            BigDecimal exact = new BigDecimal(value);
            for (RoundingMode mode : new RoundingMode[] {RoundingMode.UP, RoundingMode.DOWN}) {
                BigDecimal shorter = exact.round(new MathContext(digits - 1, mode));
                assertThat(shorter.doubleValue()).isNotEqualTo(value);
            }
        }
    }

    /** A rounded mass is the double nearest to a multiple, no further than half a step off, and stays as it is. */
    @Property
    void roundedToTheStep(
            @ForAll("steps") WeighingStep step, @ForAll @DoubleRange(min = -1e6, max = 1e12) double grams) {
        double rounded = step.round(grams);
        BigFraction steps = Numbers.exact(rounded).divide(step.exactGrams());
        BigInteger count =
                new BigInteger(steps.bigDecimalValue(0, RoundingMode.HALF_UP).toPlainString());
        assertThat(rounded).isEqualTo(Numbers.nearest(step.exactGrams().multiply(count)));
        BigFraction off =
                step.exactGrams().multiply(count).subtract(Numbers.exact(grams)).divide(step.exactGrams());
        assertThat(off).isGreaterThan(new BigFraction(-1, 2));
        assertThat(off).isLessThanOrEqualTo(new BigFraction(1, 2).add(new BigFraction(1, 1_000_000_000)));
        assertThat(step.roundDown(grams)).isLessThanOrEqualTo(rounded);
        assertThat(step.roundUp(grams)).isGreaterThanOrEqualTo(rounded);
    }

    @Property
    void roundingTwiceIsRoundingOnce(@ForAll("steps") WeighingStep step, @ForAll @DoubleRange(max = 1e7) double grams) {
        double once = step.round(grams);
        assertThat(step.round(once)).isEqualTo(once);
        assertThat(step.roundDown(once)).isEqualTo(once);
        assertThat(step.roundUp(once)).isEqualTo(once);
    }

    @Provide
    Arbitrary<WeighingStep> steps() {
        return Arbitraries.of("0.001 g", "0.01 g", "0.05 g", "0.2 g", "1 g", "5 g", "1/8 oz")
                .map(WeighingStep::parse);
    }
}
