package pigmentbook.quantity;

/**
 * A volume.
 *
 * @param milliliters the value, in the unit that the name says
 * @param written the text it was read from
 */
public record Volume(double milliliters, String written) implements Amount {

    public Volume {
        AmountParser.requireFinite(milliliters, written);
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "12 imp fl oz"}
     * @throws BadAmountException if the text is none, is ambiguous, lacks its unit or is negative
     */
    public static Volume parse(String text) {
        return new Volume(AmountParser.parse(text, Kind.VOLUME), text);
    }

    /** Makes an amount from a number that a calculation gave. */
    public static Volume ofMilliliters(double milliliters) {
        return new Volume(milliliters, Numbers.plain(milliliters) + " mL");
    }
}
