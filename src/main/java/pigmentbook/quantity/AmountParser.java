package pigmentbook.quantity;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Locale;
import org.hipparchus.fraction.BigFraction;
import org.jspecify.annotations.Nullable;

/**
 * Reads amounts as people write them: exactly, and rounded once where a double is wanted.
 *
 * <p>A dot or a comma is the decimal mark; a comma before just three digits is refused, because it groups digits
 * elsewhere. An amount without its unit is refused, since nobody knows afterwards what was meant.
 */
final class AmountParser {

    private static final String NUMBER = "a plain number is expected, such as 1.5";
    private static final String RATIO = "a ratio is expected, such as 2:1 or 100:47";
    private static final String MONEY = "an amount of money is expected, such as 62.00";

    private AmountParser() {}

    /** Returns the double nearest to an amount of 0 or more, in its kind's own unit. */
    static double parse(String text, Kind kind) {
        PlainAmount plain = PlainAmount.read(text, kind);
        return plain != null ? plain.nearest() : Numbers.nearest(notNegative(text, kind));
    }

    /** Returns the double nearest to an amount above 0. */
    static double parsePositive(String text, Kind kind) {
        double value = parse(text, kind);
        if (value <= 0) {
            throw Refusal.notPositive(text, kind);
        }
        return value;
    }

    /** Returns the double nearest to an amount that may be below 0. */
    static double parseSigned(String text, Kind kind) {
        PlainAmount plain = PlainAmount.read(text, kind);
        return plain != null ? plain.nearest() : Numbers.nearest(theLongWay(text, kind));
    }

    /** Returns an amount of 0 or more. */
    static BigFraction parseExact(String text, Kind kind) {
        PlainAmount plain = PlainAmount.read(text, kind);
        return plain != null ? plain.exact() : notNegative(text, kind);
    }

    /** Returns an amount that may be below 0. */
    static BigFraction parseExactSigned(String text, Kind kind) {
        PlainAmount plain = PlainAmount.read(text, kind);
        return plain != null ? plain.exact() : theLongWay(text, kind);
    }

    private static BigFraction notNegative(String text, Kind kind) {
        BigFraction value = theLongWay(text, kind);
        if (value.signum() < 0) {
            throw Refusal.negative(text, kind.noun());
        }
        return value;
    }

    /** Reads an amount in any way of writing it; it may be negative. */
    static BigFraction theLongWay(String text, Kind kind) {
        AmountScanner scanner = new AmountScanner(text, kind.expected());
        boolean minus = scanner.minus();
        BigFraction sum = BigFraction.ZERO;
        BigFraction number = BigFraction.ZERO;
        UnitNames.@Nullable Scale last = null;
        UnitNames.Scale unit;
        do {
            boolean lastIsWhole = number.getDenominator().equals(BigInteger.ONE);
            number = scanner.number();
            unit = UnitNames.ofKind(scanner.unit(), text, kind);
            if (last != null && !(kind.addsUp() && lastIsWhole && unit.factor().compareTo(last.factor()) < 0)) {
                throw Refusal.notOne(text, kind);
            }
            sum = sum.add(number.multiply(unit.factor()));
            last = unit;
        } while (scanner.more(unit.factor().equals(Unit.FOOT.factor())));
        return (minus ? sum.negate() : sum).add(unit.offset());
    }

    static BigFraction parseNumber(String text) {
        AmountScanner scanner = new AmountScanner(text, NUMBER);
        boolean minus = scanner.minus();
        BigFraction number = scanner.number();
        scanner.end();
        return minus ? number.negate() : number;
    }

    static Ratio parseRatio(String text) {
        AmountScanner scanner = new AmountScanner(text, RATIO);
        BigFraction a = scanner.number();
        if (!scanner.word(":", "to")) {
            throw Refusal.noAmount(text, RATIO);
        }
        BigFraction b = scanner.number();
        scanner.end();
        return new Ratio(a, b, text);
    }

    static Money parseMoney(String amount, String currency) {
        AmountScanner scanner = new AmountScanner(amount, MONEY);
        if (scanner.minus()) {
            throw Refusal.negative(amount, "a price");
        }
        BigDecimal value = scanner.decimal();
        scanner.end();
        return new Money(value, currency.strip().toUpperCase(Locale.ROOT));
    }

    static void requireFinite(double value, String written) {
        if (!Double.isFinite(value)) {
            throw new BadAmountException(
                    Refusal.quoted(written) + " is no number that can be worked with; write a plain amount.");
        }
    }
}
