package pigmentbook.sheet;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Amount;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;

/** What people type into a cell whose unit stands in its head: a bare number, or an amount with a unit of its own. */
final class Typed {

    /** Enough to weigh by on any scale, and short enough to read in a file. */
    private static final MathContext WRITTEN = new MathContext(9);

    private static final String SIGNS_OF_UNITS = "%°'\"′″";

    private Typed() {}

    /**
     * Reads an amount; a bare number is in the unit of the cell's head.
     *
     * @throws BadAmountException if it is none, is ambiguous, or is negative where it may not be
     */
    static <A> A amount(String text, String unit, Function<String, A> parse) {
        return parse.apply(hasUnit(text) ? text : text + " " + unit);
    }

    private static boolean hasUnit(String text) {
        return text.chars().anyMatch(sign -> Character.isLetter(sign) || SIGNS_OF_UNITS.indexOf(sign) >= 0);
    }

    /**
     * Reads an amount and returns it as a record writes it: a bare number with a dot and its unit, else as it was
     * typed.
     *
     * @throws BadAmountException if it is none, is ambiguous, or is negative where it may not be
     */
    static String written(String text, String unit, Function<String, ? extends Amount> parse) {
        String typed = amount(text, unit, parse).written();
        return hasUnit(text) ? typed : Numbers.plain(Numbers.nearest(Numbers.parse(text))) + " " + unit;
    }

    /** Returns a mass in g as a pour writes it: {@code 210.4 g}. */
    static String grams(double grams) {
        BigDecimal rounded = new BigDecimal(Numbers.plain(grams)).round(WRITTEN);
        return Mass.ofGrams(rounded.doubleValue()).written();
    }

    /** Returns a whole number from {@code least} to {@code most}, or null where the text is none. */
    static @Nullable Integer whole(String text, int least, int most) {
        try {
            double value = Numbers.nearest(Numbers.parse(text));
            return value == Math.rint(value) && value >= least && value <= most ? (Integer) (int) value : null;
        } catch (BadAmountException e) {
            return null;
        }
    }
}
