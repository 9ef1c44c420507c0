package pigmentbook.quantity;

/**
 * A temperature.
 *
 * @param celsius the value in °C, not below absolute zero
 * @param written the text it was read from
 */
public record Temperature(double celsius, String written) implements Amount {

    private static final double ABSOLUTE_ZERO_CELSIUS = -273.15;

    public Temperature {
        AmountParser.requireFinite(celsius, written);
        if (celsius < ABSOLUTE_ZERO_CELSIUS) {
            throw new BadAmountException(Refusal.quoted(written) + " is below absolute zero, -273.15 C; "
                    + Kind.TEMPERATURE.expected() + ".");
        }
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
