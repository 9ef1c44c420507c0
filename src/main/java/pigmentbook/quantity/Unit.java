package pigmentbook.quantity;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.fraction.BigFraction;

/**
 * The units that have names of their own, with their exact factors. Squares and cubes of the lengths, densities and
 * coverages are put together from these by {@link UnitNames}.
 *
 * <p>Our own small table, because loading a general library of units takes a quarter of the time that the program has
 * for starting; the tests hold it against one. Each factor is built from its definition: the international yard and
 * pound (1959), 1 yd = 0.9144 m and 1 lb = 0.45359237 kg; the US gallon, 231 in³ (NIST Handbook 44, appendix C); the
 * imperial gallon, 4.54609 L (UK Units of Measurement Regulations 1995); the metric household spoons (21 CFR
 * 101.9(b)(5)(viii)); the degree Fahrenheit and the kelvin (NIST SP 811, appendix B).
 *
 * <p>The first unit of a kind is the one that amounts of it are kept in, and the commonest come first, because a plain
 * amount is looked up in this order.
 */
@SuppressWarnings("ImmutableEnumChecker") // fractions and these lists are immutable; the checker can't know
enum Unit {
    MILLIMETER(Kind.LENGTH, of(1), "mm", "millimeter", "millimeters", "millimetre", "millimetres"),
    INCH(Kind.LENGTH, of(254, 10), "in", "inch", "inches", "\"", "''"),
    CENTIMETER(Kind.LENGTH, of(10), "cm", "centimeter", "centimeters", "centimetre", "centimetres"),
    METER(Kind.LENGTH, of(1000), "m", "meter", "meters", "metre", "metres"),
    FOOT(Kind.LENGTH, INCH.times(12), "ft", "foot", "feet", "'"),
    YARD(Kind.LENGTH, FOOT.times(3), "yd", "yard", "yards"),
    DECIMETER(Kind.LENGTH, of(100), "dm"),
    MICROMETER(Kind.LENGTH, of(1, 1000), "µm", "um"),
    MIL(Kind.LENGTH, INCH.parts(1000), "mil", "mils", "thou"),

    GRAM(Kind.MASS, of(1), "g", "gram", "grams", "gramme", "grammes"),
    KILOGRAM(Kind.MASS, of(1000), "kg", "kilogram", "kilograms", "kilo", "kilos"),
    POUND(Kind.MASS, of(45_359_237, 100_000), "lb", "lbs", "pound", "pounds"),
    OUNCE(Kind.MASS, POUND.parts(16), "oz", "ounce", "ounces"),
    MILLIGRAM(Kind.MASS, of(1, 1000), "mg", "milligram", "milligrams"),
    TONNE(Kind.MASS, of(1_000_000), "t", "tonne", "tonnes"),
    DRAM(Kind.MASS, OUNCE.parts(16), "dram", "drams"),
    GRAIN(Kind.MASS, POUND.parts(7000), "grain", "grains"),
    TROY_OUNCE(Kind.MASS, GRAIN.times(480), "oz t", "ozt", "troy oz", "troy ounce", "troy ounces"),
    STONE(Kind.MASS, POUND.times(14), "st", "stone", "stones"),
    SHORT_TON(Kind.MASS, POUND.times(2000), "short ton", "short tons"),

    MILLILITER(Kind.VOLUME, of(1), "mL", "ml", "cc", "ccm", "milliliter", "milliliters", "millilitre", "millilitres"),
    LITER(Kind.VOLUME, of(1000), "L", "l", "liter", "liters", "litre", "litres"),
    CENTILITER(Kind.VOLUME, of(10), "cL", "cl"),
    DECILITER(Kind.VOLUME, of(100), "dL", "dl"),
    MICROLITER(Kind.VOLUME, of(1, 1000), "µL", "µl", "uL"),
    US_GALLON(
            Kind.VOLUME,
            INCH.cubeInMl().multiply(231),
            "gal",
            "gallon",
            "gallons",
            "US gal",
            "US gallon",
            "US gallons"),
    US_QUART(Kind.VOLUME, US_GALLON.parts(4), "qt", "qts", "quart", "quarts", "US qt", "US quart", "US quarts"),
    US_PINT(Kind.VOLUME, US_GALLON.parts(8), "pt", "pts", "pint", "pints", "US pt", "US pint", "US pints"),
    US_FLUID_OUNCE(
            Kind.VOLUME,
            US_GALLON.parts(128),
            "fl oz",
            "floz",
            "fluid ounce",
            "fluid ounces",
            "US fl oz",
            "US floz",
            "US fluid ounce",
            "US fluid ounces"),
    US_CUP(Kind.VOLUME, US_FLUID_OUNCE.times(8), "US cup", "US cups"),
    US_GILL(Kind.VOLUME, US_FLUID_OUNCE.times(4), "US gi", "US gill", "US gills"),
    US_TABLESPOON(Kind.VOLUME, US_FLUID_OUNCE.parts(2), "US tbsp", "US tablespoon", "US tablespoons"),
    US_TEASPOON(Kind.VOLUME, US_FLUID_OUNCE.parts(6), "US tsp", "US teaspoon", "US teaspoons"),
    US_FLUID_DRAM(Kind.VOLUME, US_FLUID_OUNCE.parts(8), "US fl dr", "fl dr"),
    IMPERIAL_GALLON(Kind.VOLUME, of(454_609, 100), "imp gal", "imp gallon", "imp gallons"),
    IMPERIAL_QUART(Kind.VOLUME, IMPERIAL_GALLON.parts(4), "imp qt", "imp quart", "imp quarts"),
    IMPERIAL_PINT(Kind.VOLUME, IMPERIAL_GALLON.parts(8), "imp pt", "imp pint", "imp pints"),
    IMPERIAL_FLUID_OUNCE(
            Kind.VOLUME, IMPERIAL_GALLON.parts(160), "imp fl oz", "imp floz", "imp fluid ounce", "imp fluid ounces"),
    METRIC_TABLESPOON(Kind.VOLUME, of(15), "metric tbsp", "metric tablespoon", "metric tablespoons"),
    METRIC_TEASPOON(Kind.VOLUME, of(5), "metric tsp", "metric teaspoon", "metric teaspoons"),
    BOARD_FOOT(Kind.VOLUME, INCH.cubeInMl().multiply(144), "bd ft", "board foot", "board feet"),

    PERCENT(Kind.PERCENT, of(1), "%", "percent", "per cent", "pct"),

    MINUTE(Kind.DURATION, of(1), "min", "mins", "minute", "minutes"),
    HOUR(Kind.DURATION, MINUTE.times(60), "h", "hr", "hrs", "hour", "hours"),
    DAY(Kind.DURATION, HOUR.times(24), "d", "day", "days"),
    WEEK(Kind.DURATION, DAY.times(7), "wk", "wks", "week", "weeks"),
    SECOND(Kind.DURATION, MINUTE.parts(60), "s", "sec", "secs", "second", "seconds"),

    CELSIUS(Kind.TEMPERATURE, of(1), "C", "°C", "deg C", "degC", "degrees C", "celsius", "degrees celsius"),
    FAHRENHEIT(
            Kind.TEMPERATURE,
            of(5, 9),
            of(-160, 9),
            "F",
            "°F",
            "deg F",
            "degF",
            "degrees F",
            "fahrenheit",
            "degrees fahrenheit"),
    KELVIN(Kind.TEMPERATURE, of(1), of(-27_315, 100), "K", "kelvin");

    private static final Map<Kind, List<Unit>> BY_KIND = new EnumMap<>(Kind.class);

    static {
        for (Unit unit : values()) {
            List<Unit> known = BY_KIND.get(unit.kind);
            if (known == null) {
                known = new ArrayList<>();
                BY_KIND.put(unit.kind, known);
            }
            known.add(unit);
        }
    }

    private final Kind kind;
    private final BigFraction factor;
    private final BigFraction offset;
    private final List<String> names;
    private final String symbol;
    private final long numerator;
    private final long denominator;

    Unit(Kind kind, BigFraction factor, String... names) {
        this(kind, factor, of(0), names);
    }

    Unit(Kind kind, BigFraction factor, BigFraction offset, String... names) {
        this.kind = kind;
        this.factor = factor;
        this.offset = offset;
        this.names = List.of(names);
        this.symbol = names[0];
        this.numerator = factor.getNumerator().longValueExact();
        this.denominator = factor.getDenominator().longValueExact();
    }

    /** Returns the units of a kind, the commonest first; none for kinds that are put together. */
    static List<Unit> of(Kind kind) {
        List<Unit> units = BY_KIND.get(kind);
        return units == null ? List.of() : units;
    }

    Kind kind() {
        return kind;
    }

    /** Returns the name it is shown with. */
    String symbol() {
        return symbol;
    }

    /** Returns all its names as they are properly written. */
    List<String> names() {
        return names;
    }

    /** Returns how many of its kind's own unit it is: 127/5 for the inch. */
    BigFraction factor() {
        return factor;
    }

    /** Returns what is added after the factor: not 0 for °F and K alone. */
    BigFraction offset() {
        return offset;
    }

    /** Returns the factor's numerator, below 2^53. */
    long numerator() {
        return numerator;
    }

    /** Returns the factor's denominator, below 2^53. */
    long denominator() {
        return denominator;
    }

    private BigFraction times(int count) {
        return factor.multiply(count);
    }

    private BigFraction parts(int count) {
        return factor.divide(count);
    }

    private BigFraction cubeInMl() {
        return factor.pow(3).divide(1000);
    }

    private static BigFraction of(long whole) {
        return new BigFraction(whole);
    }

    private static BigFraction of(long numerator, long denominator) {
        return new BigFraction(numerator, denominator);
    }
}
