package pigmentbook.book;

import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;

/**
 * A pigment: what the maker says of the product. A lot may override density, strength and drop mass.
 *
 * @param id the file's name
 * @param name what people call it
 * @param kind what it is
 * @param density its density, or null when not stated
 * @param topLoading the most of it, percent of mixed resin, or null
 * @param dropMass the mass of one drop, or null
 * @param carrier the liquid it comes in, or null for none
 * @param contains what a concentrate holds, or null
 * @param notes words
 */
public record Pigment(
        String id,
        String name,
        Kind kind,
        @Nullable Density density,
        @Nullable Percent topLoading,
        @Nullable Mass dropMass,
        @Nullable Carrier carrier,
        @Nullable Contains contains,
        String notes) {

    /** What a pigment is. */
    public enum Kind {
        PASTE,
        POWDER,
        MICA,
        DYE,
        INK,
        GLOW,
        CONCENTRATE,
        OTHER
    }

    /**
     * The liquid a pigment comes in.
     *
     * @param isPartA whether it counts as part A (else it is a liquid that does not cure)
     * @param share its share of the pigment's mass, 0 % to 100 %
     */
    public record Carrier(boolean isPartA, Percent share) {
        public Carrier {
            if (share.percent() > 100) {
                throw new IllegalArgumentException("A carrier's share of " + share.written() + " is above 100 %.");
            }
        }
    }

    /**
     * What a concentrate holds.
     *
     * @param pigmentId the pure pigment's id
     * @param share its share of the concentrate's mass, above 0 %, at most 100 %
     */
    public record Contains(String pigmentId, Percent share) {
        public Contains {
            if (share.percent() <= 0 || share.percent() > 100) {
                throw new IllegalArgumentException(
                        "A concentrate's share of " + share.written() + " must be above 0 % and at most 100 %.");
            }
        }
    }
}
