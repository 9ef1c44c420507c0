package pigmentbook.quantity;

import org.hipparchus.fraction.BigFraction;
import org.jspecify.annotations.Nullable;

/**
 * An amount written the plain way, {@code 210.4 g}: read without making anything but two numbers, since a book has
 * hundreds of thousands of them. It is numerator/denominator of its kind's own unit. Both are below 2^53 and so exact
 * as doubles, and one division of exact doubles is correctly rounded (IEEE 754): the same double as the exact way
 * gives.
 */
record PlainAmount(long numerator, long denominator) {

    private static final int MOST_DIGITS = 15;
    private static final long EXACT = 1L << 53;
    private static final long[] POWERS_OF_TEN = new long[MOST_DIGITS + 1];

    static {
        POWERS_OF_TEN[0] = 1;
        for (int i = 1; i <= MOST_DIGITS; i++) {
            POWERS_OF_TEN[i] = 10 * POWERS_OF_TEN[i - 1];
        }
    }

    /** Returns the amount, or null where it is not written the plain way and takes the long way. */
    static @Nullable PlainAmount read(String text, Kind kind) {
        long digits = 0;
        int point = -1;
        int at = 0;
        while (at < text.length() && at <= MOST_DIGITS + 1) {
            char sign = text.charAt(at);
            if (sign >= '0' && sign <= '9') {
                digits = digits * 10 + (sign - '0');
            } else if (sign == '.' && point < 0) {
                point = at;
            } else {
                break;
            }
            at++;
        }
        int decimals = point < 0 ? 0 : at - point - 1;
        int count = point < 0 ? at : at - 1;
        if (count == 0 || count > MOST_DIGITS || point == 0 || point == at - 1) {
            return null;
        }
        return at < text.length() && text.charAt(at) == ' '
                ? of(digits, decimals, text, at + 1, kind)
                : of(digits, decimals, text, at, kind);
    }

    private static @Nullable PlainAmount of(long digits, int decimals, String text, int unitAt, Kind kind) {
        int length = text.length() - unitAt;
        for (Unit unit : Unit.of(kind)) {
            if (unit.symbol().length() == length && text.startsWith(unit.symbol(), unitAt)) {
                boolean fits = unit.offset().signum() == 0
                        && digits <= EXACT / unit.numerator()
                        && POWERS_OF_TEN[decimals] <= EXACT / unit.denominator();
                return fits
                        ? new PlainAmount(digits * unit.numerator(), POWERS_OF_TEN[decimals] * unit.denominator())
                        : null;
            }
        }
        return null;
    }

    double nearest() {
        return (double) numerator / denominator;
    }

    BigFraction exact() {
        return new BigFraction(numerator, denominator);
    }
}
