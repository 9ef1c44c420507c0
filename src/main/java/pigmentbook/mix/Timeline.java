package pigmentbook.mix;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When what is done. Minutes count from the moment part B goes into the layer's first cup; hours from the first pour.
 *
 * @param cupsMin what is done to each cup of a layer with the most cups, in minutes
 * @param pourByMin the working time, or null where none is stated
 * @param surfacePassesMin when to pass over the surface for bubbles, in minutes
 * @param layersHours each layer's pour and the window of the next one, in hours
 * @param demoldHours when the piece may leave the mold, in hours after the last pour; null where not stated
 * @param fullCureHours when it is fully cured, in hours after the last pour; null where not stated
 */
public record Timeline(
        List<CupTimes> cupsMin,
        @Nullable Double pourByMin,
        List<Double> surfacePassesMin,
        List<LayerTimes> layersHours,
        @Nullable Double demoldHours,
        @Nullable Double fullCureHours) {

    /**
     * What is done to one cup, in minutes: common practice, no source.
     *
     * @param number the cup
     * @param stirFrom part B goes in and stirring begins
     * @param secondStirFrom it is changed into a clean cup and stirred again
     * @param restFrom it rests, so that bubbles rise
     * @param pourFrom it is poured
     * @param end it is empty
     */
    public record CupTimes(
            int number, double stirFrom, double secondStirFrom, double restFrom, double pourFrom, double end) {}

    /**
     * One layer's times, in hours after the first pour.
     *
     * @param number the layer
     * @param start the earliest it is poured
     * @param nextFrom when the next layer may follow, or null for the last or where not stated
     * @param nextTo until when it may, or null
     */
    public record LayerTimes(
            int number,
            double start,
            @Nullable Double nextFrom,
            @Nullable Double nextTo) {}
}
