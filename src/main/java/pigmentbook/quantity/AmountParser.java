package pigmentbook.quantity;

import java.math.BigDecimal;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hipparchus.fraction.BigFraction;

/** Reads amounts: for now a plain decimal and a metric unit. */
final class AmountParser {

    private static final Pattern PLAIN = Pattern.compile("\\s*(-?\\d+(?:\\.\\d+)?)\\s*([^\\d\\s].*)?");
    private static final Map<Kind, Map<String, String>> UNITS = Map.of(
            Kind.AREA, Map.of("m2", "1000000", "mm2", "1"),
            Kind.COVERAGE, Map.of("g/m2", "1"),
            Kind.DENSITY, Map.of("g/mL", "1"),
            Kind.DURATION, Map.of("min", "1", "h", "60", "d", "1440"),
            Kind.LENGTH, Map.of("mm", "1", "cm", "10", "in", "25.4"),
            Kind.MASS, Map.of("g", "1", "kg", "1000"),
            Kind.PERCENT, Map.of("%", "1"),
            Kind.TEMPERATURE, Map.of("C", "1"),
            Kind.VOLUME, Map.of("mL", "1", "L", "1000"));

    private AmountParser() {}

    static double parse(String text, Kind kind) {
        return parseExact(text, kind).doubleValue();
    }

    static double parsePositive(String text, Kind kind) {
        return parse(text, kind);
    }

    static double parseSigned(String text, Kind kind) {
        return parse(text, kind);
    }

    static BigFraction parseExact(String text, Kind kind) {
        Matcher found = PLAIN.matcher(text);
        Map<String, String> units = UNITS.getOrDefault(kind, Map.of());
        if (!found.matches()
                || found.group(2) == null
                || !units.containsKey(found.group(2).strip())) {
            throw new BadAmountException("\"" + text + "\" is no amount.");
        }
        String factor = units.getOrDefault(found.group(2).strip(), "1");
        return fraction(found.group(1)).multiply(fraction(factor));
    }

    static BigFraction parseNumber(String text) {
        return fraction(text.strip());
    }

    static Ratio parseRatio(String text) {
        int colon = text.indexOf(':');
        return new Ratio(parseNumber(text.substring(0, colon)), parseNumber(text.substring(colon + 1)), text);
    }

    static Money parseMoney(String amount, String currency) {
        return new Money(new BigDecimal(amount), currency);
    }

    static void requireFinite(double value, String written) {
        if (!Double.isFinite(value)) {
            throw new BadAmountException(
                    "\"" + written + "\" is no number that can be worked with; write a plain amount.");
        }
    }

    private static BigFraction fraction(String decimal) {
        BigDecimal exact = new BigDecimal(decimal);
        return new BigFraction(exact.unscaledValue(), java.math.BigInteger.TEN.pow(exact.scale()));
    }
}
