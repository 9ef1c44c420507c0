package pigmentbook.quantity;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.hipparchus.fraction.BigFraction;
import org.jspecify.annotations.Nullable;

/** Finds the unit that a name stands for: {@code in}, {@code sq ft}, {@code cm3}, {@code lb/imp gal}. */
final class UnitNames {

    /** Small letters would make another unit of these: M is mega and m is milli, T a tesla and t a tonne. */
    private static final Set<String> CASE_MATTERS = Set.of("M", "Mm", "Mg", "Ml", "T", "k");

    private static final BigFraction ML_PER_CUBIC_MM = new BigFraction(1, 1000);
    private static final BigFraction SQUARE_MM_PER_M2 = new BigFraction(1_000_000);

    private static final Map<String, Scale> EXACT = new HashMap<>();
    private static final Map<String, Scale> SMALL = new HashMap<>();

    static {
        for (Unit unit : Unit.values()) {
            Scale scale = new Scale(unit.kind(), unit.factor(), unit.offset());
            for (String name : unit.names()) {
                EXACT.put(name, scale);
                SMALL.put(small(name), scale);
            }
        }
    }

    private UnitNames() {}

    /**
     * How an amount in a unit becomes one in its kind's own unit: times the factor, plus the offset.
     *
     * @param kind what the unit measures
     * @param factor own units in one of this unit
     * @param offset 0 but for temperatures
     */
    record Scale(Kind kind, BigFraction factor, BigFraction offset) {}

    /** Returns the unit of that name, or null where there is none. */
    static @Nullable Scale find(String written) {
        String name = unified(written);
        int slash = name.indexOf('/');
        return slash < 0 ? simple(name) : quotient(simple(name.substring(0, slash)), simple(name.substring(slash + 1)));
    }

    /**
     * Returns the unit of that name in a text.
     *
     * @throws BadAmountException if there is no name, no unit of that name, or it is of another kind
     */
    static Scale ofKind(String name, String text, Kind kind) {
        if (name.isEmpty()) {
            throw Refusal.noUnit(text, kind);
        }
        Scale unit = find(name);
        if (unit == null) {
            throw Refusal.badUnit(text, name, kind);
        }
        if (unit.kind != kind) {
            throw Refusal.otherKind(text, unit.kind, kind);
        }
        return unit;
    }

    private static @Nullable Scale quotient(@Nullable Scale mass, @Nullable Scale room) {
        if (mass == null || room == null || mass.kind != Kind.MASS) {
            return null;
        }
        BigFraction each = mass.factor.divide(room.factor);
        return switch (room.kind) {
            case VOLUME -> new Scale(Kind.DENSITY, each, BigFraction.ZERO);
            case AREA -> new Scale(Kind.COVERAGE, each.multiply(SQUARE_MM_PER_M2), BigFraction.ZERO);
            default -> null;
        };
    }

    private static @Nullable Scale simple(String name) {
        Scale found = named(name);
        if (found != null) {
            return found;
        }
        String small = small(name);
        if (small.startsWith("sq ") || small.startsWith("square ")) {
            return power(name.substring(name.indexOf(' ') + 1), 2);
        }
        if (small.startsWith("cu ") || small.startsWith("cubic ")) {
            return power(name.substring(name.indexOf(' ') + 1), 3);
        }
        return name.endsWith("2")
                ? power(name.substring(0, name.length() - 1), 2)
                : name.endsWith("3") ? power(name.substring(0, name.length() - 1), 3) : null;
    }

    private static @Nullable Scale power(String lengthName, int exponent) {
        Scale length = named(lengthName);
        if (length == null || length.kind != Kind.LENGTH) {
            return null;
        }
        BigFraction factor = length.factor.pow(exponent);
        return exponent == 2
                ? new Scale(Kind.AREA, factor, BigFraction.ZERO)
                : new Scale(Kind.VOLUME, factor.multiply(ML_PER_CUBIC_MM), BigFraction.ZERO);
    }

    private static @Nullable Scale named(String name) {
        Scale exact = EXACT.get(name);
        return exact != null || CASE_MATTERS.contains(name) ? exact : SMALL.get(small(name));
    }

    /** Returns the name with one way of writing spaces, dots, powers, "per", degrees and "imperial". */
    private static String unified(String written) {
        String name = written.replace(".", " ").replace("^", "").replace("°", " °");
        name = name.strip();
        while (name.contains("  ")) {
            name = name.replace("  ", " ");
        }
        name = name.replace(" per ", "/").replace(" /", "/").replace("/ ", "/").replace("° ", "°");
        name = name.replace("U S ", "US ").replace("u s ", "us ");
        return name.replace("imperial ", "imp ").replace("Imperial ", "imp ").replace("UK ", "imp ");
    }

    private static String small(String name) {
        return name.toLowerCase(Locale.ROOT);
    }
}
