package pigmentbook.tint;

import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Numbers;

/**
 * A mix that comes near to a colour, to pour a sample of.
 *
 * @param loadings what is in it, by pigment id
 * @param lab how it will look
 * @param dE00 how far that is from the colour wanted
 * @param spreadDe00 nine of ten fresh readings lie within this of {@code lab}
 * @param cost what it costs, or null where a price is missing
 */
public record MatchAnswer(
        List<Loading> loadings,
        Lab lab,
        double dE00,
        double spreadDe00,
        @Nullable Double cost) {

    /** A colour farther off than this, in ΔE00, is another one at a glance. Own choice, no source. */
    private static final double REACHED_DE00 = 2;

    /**
     * Says that the colour wanted can't be reached, should this be the nearest; empty where it can.
     *
     * @param where the depth and the backing, in words
     */
    public String hindrance(String where) {
        return dE00 <= REACHED_DE00
                ? ""
                : "This colour can’t be reached with these pigments " + where
                        + "; the nearest that can is shown first, ΔE00 " + Numbers.fixed(dE00, 1) + " away.";
    }
}
