package pigmentbook.quantity;

/**
 * A density.
 *
 * @param gramsPerMl the value in g/mL, above 0
 * @param written the text it was read from
 */
public record Density(double gramsPerMl, String written) implements Amount {

    public Density {
        AmountParser.requireFinite(gramsPerMl, written);
        if (gramsPerMl <= 0) {
            throw Refusal.notPositive(written, Kind.DENSITY);
        }
    }

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "1.15 g/mL"}
     * @throws BadAmountException if the text is none, is ambiguous, lacks its unit or is not above zero
     */
    public static Density parse(String text) {
        return new Density(AmountParser.parsePositive(text, Kind.DENSITY), text);
    }

    /** Makes an amount from a number that a calculation gave. */
    public static Density ofGramsPerMl(double gramsPerMl) {
        return new Density(gramsPerMl, Numbers.plain(gramsPerMl) + " g/mL");
    }
}
