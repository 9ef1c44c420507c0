package pigmentbook.tint;

import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.Lab;

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
        @Nullable Double cost) {}
