package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Duration;

/** When what is done. The minutes for a cup are common practice, no source; the hours are the data sheet's. */
final class Times {

    private static final double STIR_MIN = 3;
    private static final double REST_MIN = 2;
    private static final double POUR_MIN = 2;
    private static final double PASS_EVERY_MIN = 5;
    private static final int MOST_PASSES = 4;

    /** One person's minutes for a cup: stir, change cup and stir again, rest, pour. */
    static final double CUP_MIN = 2 * STIR_MIN + REST_MIN + POUR_MIN;

    private Times() {}

    static Timeline of(Resin resin, List<Mix.Layer> layers, @Nullable Double workingTimeMin) {
        int cups = 1;
        for (Mix.Layer layer : layers) {
            cups = Math.max(cups, layer.cups().size());
        }
        List<Timeline.CupTimes> cupTimes = new ArrayList<>(cups);
        for (int i = 0; i < cups; i++) {
            double start = i * CUP_MIN;
            double rest = start + 2 * STIR_MIN;
            cupTimes.add(new Timeline.CupTimes(
                    i + 1, start, start + STIR_MIN, rest, rest + REST_MIN, rest + REST_MIN + POUR_MIN));
        }
        List<Double> passes = new ArrayList<>(MOST_PASSES);
        for (int i = 1; i <= MOST_PASSES && workingTimeMin != null; i++) {
            double at = cups * CUP_MIN + i * PASS_EVERY_MIN;
            if (at < workingTimeMin) {
                passes.add(at);
            }
        }
        List<Timeline.LayerTimes> layerTimes = new ArrayList<>(layers.size());
        for (Mix.Layer layer : layers) {
            boolean last = layer.number() == layers.size();
            layerTimes.add(new Timeline.LayerTimes(
                    layer.number(),
                    layer.startHours(),
                    last ? null : hours(resin.recoat().least(), layer.startHours()),
                    last ? null : hours(resin.recoat().most(), layer.startHours())));
        }
        return new Timeline(
                cupTimes, workingTimeMin, passes, layerTimes, hours(resin.demold(), 0), hours(resin.fullCure(), 0));
    }

    private static @Nullable Double hours(@Nullable Duration duration, double after) {
        return duration == null ? null : (Double) (after + duration.minutes() / 60);
    }
}
