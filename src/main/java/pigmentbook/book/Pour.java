package pigmentbook.book;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;

/**
 * The record of what was really done.
 *
 * @param id the file's name
 * @param recipeId the recipe's id
 * @param revision the revision's number
 * @param moldId the mold's id, or null
 * @param kind a piece or a sample
 * @param started when it began, local time, or null
 * @param by who did it
 * @param temperature the room's temperature, or null
 * @param humidity the room's relative humidity, or null
 * @param layers the layers, lowest first
 * @param thrown what was weighed into cups that were thrown away: it left the stock and is in no layer
 * @param left what was left over in the cups, or null
 * @param result how it came out, or null
 * @param readings the colours measured on it
 * @param photos the names of its photos
 * @param sheetId the id of the mix sheet it was read back from, or null
 */
public record Pour(
        String id,
        String recipeId,
        int revision,
        @Nullable String moldId,
        Kind kind,
        @Nullable LocalDateTime started,
        String by,
        @Nullable Temperature temperature,
        @Nullable Percent humidity,
        List<Layer> layers,
        List<Weighed> thrown,
        @Nullable Mass left,
        @Nullable Result result,
        List<Reading> readings,
        List<String> photos,
        @Nullable String sheetId) {

    /** Makes the record of a pour of which nothing was thrown away, and that no sheet tells of. */
    public Pour(
            String id,
            String recipeId,
            int revision,
            @Nullable String moldId,
            Kind kind,
            @Nullable LocalDateTime started,
            String by,
            @Nullable Temperature temperature,
            @Nullable Percent humidity,
            List<Layer> layers,
            @Nullable Mass left,
            @Nullable Result result,
            List<Reading> readings,
            List<String> photos) {
        this(
                id,
                recipeId,
                revision,
                moldId,
                kind,
                started,
                by,
                temperature,
                humidity,
                layers,
                List.of(),
                left,
                result,
                readings,
                photos,
                null);
    }

    /** Returns whether it was only begun: nothing weighed, read, seen or said of it. */
    public boolean isBlank() {
        return thrown.isEmpty()
                && result == null
                && readings.isEmpty()
                && photos.isEmpty()
                && layers.stream()
                        .flatMap(layer -> layer.cups().stream())
                        .allMatch(cup -> cup.weighed().isEmpty());
    }

    /** The lot that nobody knows any more. */
    public static final String UNKNOWN_LOT = "unknown";

    /** What was made. */
    public enum Kind {
        PIECE,
        SAMPLE
    }

    /**
     * One layer.
     *
     * @param depth its depth, or null
     * @param cups the cups it took
     */
    public record Layer(@Nullable Length depth, List<Cup> cups) {}

    /**
     * One mixed container.
     *
     * @param weighed what went in, in order
     */
    public record Cup(List<Weighed> weighed) {}

    /**
     * One weighing.
     *
     * @param item what was weighed
     * @param lot the lot's id, {@value Pour#UNKNOWN_LOT}, or null when not written down
     * @param target what should have been weighed, or null
     * @param actual what was weighed, or null
     */
    public record Weighed(
            Item item,
            @Nullable String lot,
            @Nullable Mass target,
            @Nullable Mass actual) {

        /** Returns what counts: the actual mass, else the target, else 0, in g. */
        public double grams() {
            return actual != null ? actual.grams() : target != null ? target.grams() : 0;
        }
    }

    /**
     * How it came out.
     *
     * @param rating 1 to 5, or null
     * @param faults words such as {@code bubbles}
     * @param text words
     * @param next what to change next time
     */
    public record Result(@Nullable Integer rating, List<String> faults, String text, String next) {}

    /**
     * One colour measured on the pour.
     *
     * @param lab the colour
     * @param depth the depth of resin it was read through, or null
     * @param backing what lay behind, or null
     * @param how how it was measured
     * @param date the day, or null
     * @param glossIncluded whether the gloss was read too
     */
    public record Reading(
            Lab lab,
            @Nullable Length depth,
            @Nullable Backing backing,
            String how,
            @Nullable LocalDate date,
            boolean glossIncluded) {}
}
