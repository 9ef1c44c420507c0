package pigmentbook.quantity;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import org.hipparchus.fraction.BigFraction;

/**
 * Amounts shown in a unit that a person chose, rounded for reading: four digits or whole units, whichever is more, and
 * inches as a ruler shows them, to the nearest 1/64. For screens and paper; what is calculated goes on unrounded.
 */
public final class InUnit {

    private static final int DIGITS = 4;
    private static final int INCH_PARTS = 64;

    private InUnit() {}

    /**
     * Shows a length: 12.7 mm as {@code "1/2 in"}.
     *
     * @param mm the length in mm, finite
     * @param unit a unit of length
     * @throws BadAmountException if that is no unit of length
     */
    public static String length(double mm, String unit) {
        BigFraction value = converted(mm, unit, Kind.LENGTH);
        return scale(unit, Kind.LENGTH).factor().equals(Unit.INCH.factor())
                ? ruler(value) + " " + unit
                : rounded(value) + " " + unit;
    }

    /**
     * Shows a mass: 1234.56 g as {@code "1.235 kg"}.
     *
     * @param grams the mass in g, finite
     * @param unit a unit of mass
     * @throws BadAmountException if that is no unit of mass
     */
    public static String mass(double grams, String unit) {
        return rounded(converted(grams, unit, Kind.MASS)) + " " + unit;
    }

    /**
     * Shows a volume: 355 mL as {@code "12 fl oz"}.
     *
     * @param milliliters the volume in mL, finite
     * @param unit a unit of volume
     * @throws BadAmountException if that is no unit of volume
     */
    public static String volume(double milliliters, String unit) {
        return rounded(converted(milliliters, unit, Kind.VOLUME)) + " " + unit;
    }

    /**
     * Shows a temperature: 21 °C as {@code "69.8 F"}.
     *
     * @param celsius the temperature in °C, finite
     * @param unit a unit of temperature
     * @throws BadAmountException if that is no unit of temperature
     */
    public static String temperature(double celsius, String unit) {
        return rounded(converted(celsius, unit, Kind.TEMPERATURE)) + " " + unit;
    }

    private static BigFraction converted(double value, String unit, Kind kind) {
        UnitNames.Scale scale = scale(unit, kind);
        return Numbers.exact(value).subtract(scale.offset()).divide(scale.factor());
    }

    private static UnitNames.Scale scale(String unit, Kind kind) {
        return UnitNames.ofKind(unit, unit, kind);
    }

    private static String rounded(BigFraction value) {
        BigDecimal first = value.bigDecimalValue(DIGITS + 16, RoundingMode.HALF_EVEN);
        int decimals = Math.max(0, Math.min(DIGITS + 2, DIGITS - first.precision() + first.scale()));
        BigDecimal shown = value.bigDecimalValue(decimals, RoundingMode.HALF_UP).stripTrailingZeros();
        return (shown.scale() < 0 ? shown.setScale(0) : shown).toPlainString();
    }

    private static String ruler(BigFraction inches) {
        BigInteger parts = inches.multiply(INCH_PARTS)
                .bigDecimalValue(0, RoundingMode.HALF_UP)
                .toBigIntegerExact();
        BigInteger[] whole = parts.abs().divideAndRemainder(BigInteger.valueOf(INCH_PARTS));
        BigFraction rest = new BigFraction(whole[1], BigInteger.valueOf(INCH_PARTS));
        String sign = parts.signum() < 0 ? "-" : "";
        if (rest.signum() == 0) {
            return sign + whole[0];
        }
        String fraction = rest.getNumerator() + "/" + rest.getDenominator();
        return sign + (whole[0].signum() == 0 ? fraction : whole[0] + " " + fraction);
    }
}
