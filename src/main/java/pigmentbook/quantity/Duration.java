package pigmentbook.quantity;

/**
 * A length of time.
 *
 * @param minutes the value, in the unit that the name says
 * @param written the text it was read from
 */
public record Duration(double minutes, String written) implements Amount {

    public Duration {
        AmountParser.requireFinite(minutes, written);
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "1 h 30 min"}
     * @throws BadAmountException if the text is none, is ambiguous, lacks its unit or is negative
     */
    public static Duration parse(String text) {
        return new Duration(AmountParser.parse(text, Kind.DURATION), text);
    }

    /** Makes an amount from a number that a calculation gave. */
    public static Duration ofMinutes(double minutes) {
        return new Duration(minutes, Numbers.plain(minutes) + " min");
    }
}
