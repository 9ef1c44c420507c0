package pigmentbook.tint;

import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.colour.Lab;

/**
 * A colour to be matched.
 *
 * @param target the colour
 * @param depthMm the depth it is to be seen at, mm
 * @param backing what lies behind
 * @param resinId the resin
 * @param pigmentIds the pigments that may be used; empty for all that have a reading
 * @param most the most pigments in one answer, 1 to 6
 * @param count how many answers at most, at least 1
 * @param cost what a mix costs, or null where a price is missing; asked for the answers alone
 */
public record MatchRequest(
        Lab target,
        double depthMm,
        Backing backing,
        String resinId,
        List<String> pigmentIds,
        int most,
        int count,
        Function<List<Loading>, @Nullable Double> cost) {}
