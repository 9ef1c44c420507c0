package pigmentbook.quantity;

/**
 * An area.
 *
 * @param mm2 the value, in the unit that the name says
 * @param written the text it was read from
 */
public record Area(double mm2, String written) implements Amount {

    public Area {
        AmountParser.requireFinite(mm2, written);
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "0.02 m2"}
     * @throws BadAmountException if the text is none, is ambiguous, lacks its unit or is negative
     */
    public static Area parse(String text) {
        return new Area(AmountParser.parse(text, Kind.AREA), text);
    }

    /** Makes an amount from a number that a calculation gave. */
    public static Area ofMm2(double mm2) {
        return new Area(mm2, Numbers.plain(mm2) + " mm2");
    }
}
