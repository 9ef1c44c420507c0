package pigmentbook.quantity;

/**
 * How much of something an area takes up: mass for each square metre.
 *
 * @param gramsPerM2 the value, in the unit that the name says
 * @param written the text it was read from
 */
public record Coverage(double gramsPerM2, String written) implements Amount {

    public Coverage {
        AmountParser.requireFinite(gramsPerM2, written);
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "120 g/m2"}
     * @throws BadAmountException if the text is none, is ambiguous, lacks its unit or is negative
     */
    public static Coverage parse(String text) {
        return new Coverage(AmountParser.parse(text, Kind.COVERAGE), text);
    }

    /** Makes an amount from a number that a calculation gave. */
    public static Coverage ofGramsPerM2(double gramsPerM2) {
        return new Coverage(gramsPerM2, Numbers.plain(gramsPerM2) + " g/m2");
    }
}
