package pigmentbook.quantity;

/**
 * A temperature.
 *
 * @param celsius the value, in the unit that the name says
 * @param written the text it was read from
 */
public record Temperature(double celsius, String written) implements Amount {

    public Temperature {
        AmountParser.requireFinite(celsius, written);
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "72 F"}
     * @throws BadAmountException if the text is none, is ambiguous, lacks its unit or is below absolute zero
     */
    public static Temperature parse(String text) {
        return new Temperature(AmountParser.parseSigned(text, Kind.TEMPERATURE), text);
    }

    /** Makes an amount from a number that a calculation gave. */
    public static Temperature ofCelsius(double celsius) {
        return new Temperature(celsius, Numbers.plain(celsius) + " C");
    }
}
