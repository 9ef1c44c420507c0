package pigmentbook.book;

import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Coverage;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Duration;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;

/**
 * A two-part resin, as its data sheet states it. What a data sheet does not say is null.
 *
 * @param id the file's name
 * @param name what people call it
 * @param ratio the ratio of part A to part B, or null when not stated
 * @param ratioAlso a second statement of the ratio, only ever compared with the first
 * @param densityA density of part A
 * @param densityB density of part B
 * @param density density of the mix, when stated
 * @param layer the least and the most depth of one layer
 * @param batchMost the most mixed resin in one cup
 * @param workingTime the working time at {@code workingTimeAt} in a mass of {@code workingTimeMass}
 * @param workingTimeAt the temperature the working time is stated for
 * @param workingTimeMass the mass the working time is stated for
 * @param recoat when the next layer may follow, from the last one: {@code least} from, {@code most} to
 * @param demold when the piece may leave the mold
 * @param fullCure when it is fully cured
 * @param temperature the accepted room temperature
 * @param humidityMost the highest accepted relative humidity
 * @param topLoading the most pigment altogether, percent of mixed resin
 * @param shrinkage volume lost on cure
 * @param soak what bare wood drinks, mixed resin for each square metre
 * @param notes words
 */
public record Resin(
        String id,
        String name,
        @Nullable MixRatio ratio,
        @Nullable MixRatio ratioAlso,
        @Nullable Density densityA,
        @Nullable Density densityB,
        @Nullable Density density,
        Range<Length> layer,
        @Nullable Mass batchMost,
        @Nullable Duration workingTime,
        @Nullable Temperature workingTimeAt,
        @Nullable Mass workingTimeMass,
        Range<Duration> recoat,
        @Nullable Duration demold,
        @Nullable Duration fullCure,
        Range<Temperature> temperature,
        @Nullable Percent humidityMost,
        @Nullable Percent topLoading,
        @Nullable Percent shrinkage,
        @Nullable Coverage soak,
        String notes) {}
