package pigmentbook.mix;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;
import pigmentbook.quantity.WeighingStep;

/**
 * What a person wants mixed.
 *
 * @param size what drives the amounts
 * @param layers how many layers, or null for as few as the resin allows
 * @param layerDepths the depth of each layer, lowest first; empty when not given
 * @param allowance added to a mix by volume, or null for the book's
 * @param cup the most that goes into one cup, or null for the book's
 * @param cupResidue what stays in each cup, or null for the book's
 * @param step the resin scale's step, or null for the book's
 * @param fineStep the fine scale's step, or null for the book's
 * @param roomTemperature the room's temperature, or null for the book's
 * @param humidity the room's relative humidity, or null for the book's
 * @param lotIds the lots to take, whatever their stock or age
 * @param on the day used for expiry
 */
public record MixRequest(
        Size size,
        @Nullable Integer layers,
        List<Length> layerDepths,
        @Nullable Percent allowance,
        @Nullable Mass cup,
        @Nullable Mass cupResidue,
        @Nullable WeighingStep step,
        @Nullable WeighingStep fineStep,
        @Nullable Temperature roomTemperature,
        @Nullable Percent humidity,
        List<String> lotIds,
        LocalDate on) {

    /** Returns a request for a size with all else as the book has it. */
    public static MixRequest of(Size size, LocalDate on) {
        return new MixRequest(size, null, List.of(), null, null, null, null, null, null, null, List.of(), on);
    }

    /** The one figure that drives all others. */
    public sealed interface Size {}

    /**
     * As much as a mold takes.
     *
     * @param moldId the mold's id
     * @param fill the height to fill to, or null for the mold's own
     */
    public record ForMold(String moldId, @Nullable Length fill) implements Size {}

    /**
     * As much as fills a volume.
     *
     * @param volume the volume
     */
    public record ForVolume(Volume volume) implements Size {}

    /**
     * So much weighed in all, pigments included.
     *
     * @param mass the sum of everything weighed
     */
    public record ForTotal(Mass mass) implements Size {}

    /**
     * So much mixed resin, pigments on top.
     *
     * @param mass part A and part B, with the part A that pigments carry
     */
    public record ForResin(Mass mass) implements Size {}

    /**
     * As much as one item's mass makes.
     *
     * @param item the item; part A is the plain part A to weigh
     * @param mass its mass
     */
    public record ForItem(Item item, Mass mass) implements Size {}

    /** As much as the stock allows. */
    public record ForShelf() implements Size {}
}
