package pigmentbook.quantity;

import org.hipparchus.fraction.BigFraction;

/**
 * A length, exact: {@code 8 1/2 in} is 2159/10 mm and not a {@code double} near it, so that 1/2 in by 1/4 in is two
 * layers and not three.
 *
 * @param exactMm the length in mm
 * @param written the text it was read from
 */
public record Length(BigFraction exactMm, String written) implements Amount {

    /**
     * Reads what a person wrote.
     *
     * @param text such as {@code "8 1/2 in"}, {@code "210mm"}, {@code "1 ft 2-1/2 in"}
     * @throws BadAmountException if the text is no length, is ambiguous, lacks its unit or is negative
     */
    public static Length parse(String text) {
        return new Length(AmountParser.parseExact(text, Kind.LENGTH), text);
    }

    /**
     * Reads a place on a drawing, which may lie below or left of its origin: {@code "-12 mm"}.
     *
     * @throws BadAmountException if the text is no length
     */
    public static Length parseCoordinate(String text) {
        return new Length(AmountParser.parseExactSigned(text, Kind.LENGTH), text);
    }

    /** Makes a length from a number of mm that a calculation gave. */
    public static Length ofMm(double mm) {
        return new Length(Numbers.exact(mm), Numbers.plain(mm) + " mm");
    }

    /** Returns the length in mm. */
    public double mm() {
        return Numbers.nearest(exactMm);
    }
}
