package pigmentbook.quantity;

/**
 * A mass.
 *
 * @param grams the value, in the unit that the name says
 * @param written the text it was read from
 */
public record Mass(double grams, String written) implements Amount {

    public Mass {
        AmountParser.requireFinite(grams, written);
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "1 lb 3 oz"}
     * @throws BadAmountException if the text is none, is ambiguous, lacks its unit or is negative
     */
    public static Mass parse(String text) {
        return new Mass(AmountParser.parse(text, Kind.MASS), text);
    }

    /** Makes an amount from a number that a calculation gave. */
    public static Mass ofGrams(double grams) {
        return new Mass(grams, Numbers.plain(grams) + " g");
    }

    /**
     * Reads a change of mass, which may be negative: {@code "-50 g"}.
     *
     * @throws BadAmountException if the text is no mass
     */
    public static Mass parseChange(String text) {
        return new Mass(AmountParser.parseSigned(text, Kind.MASS), text);
    }
}
