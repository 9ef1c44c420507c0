package pigmentbook.tint;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;

/**
 * Readings that contradict each other: as good as the same loadings, depth and backing, and colours that neither the
 * scatter of the readings nor the little that differs explains.
 */
final class Contradictions {

    /** Loadings and depths this near, as a fraction, count as the same. */
    private static final double SAME = 0.05;

    /** What weighing within {@link #SAME} and a careful reading may differ by at least. */
    private static final double LEAST_DE00 = 3;

    /**
     * How many times the usual scatter two readings may lie apart. For three parts of ΔE00 normal alike, one pair in 2
     * 000 lies 6 standard deviations of a single reading apart: χ² with 3 degrees of freedom above 18.
     */
    private static final double SCATTERS = 6;

    private Contradictions() {}

    /**
     * Finds them.
     *
     * @param scatterDe00 the readings' scatter, as a standard deviation of each part of ΔE00
     * @param predicted the colour likely at each reading
     * @return those farthest apart first; at most as many as there are readings
     */
    static List<Contradiction> of(List<BookReadings.Sample> readings, double scatterDe00, List<Lab> predicted) {
        double most = Math.max(LEAST_DE00, SCATTERS * scatterDe00);
        Map<String, List<Integer>> alike = new HashMap<>();
        for (int i = 0; i < readings.size(); i++) {
            alike.computeIfAbsent(key(readings.get(i)), key -> new ArrayList<>())
                    .add(i);
        }
        List<Contradiction> found = new ArrayList<>();
        for (List<Integer> group : alike.values()) {
            for (int i = 0; i < group.size(); i++) {
                for (int j = 0; j < i; j++) {
                    BookReadings.Sample first = readings.get(group.get(j));
                    BookReadings.Sample second = readings.get(group.get(i));
                    if (isSame(first, second)) {
                        double apart = Ciede2000.between(first.lab(), second.lab());
                        if (apart > most) {
                            found.add(new Contradiction(
                                    side(first, predicted.get(group.get(j))),
                                    side(second, predicted.get(group.get(i))),
                                    apart));
                        }
                    }
                }
            }
        }
        found.sort(Comparator.comparingDouble((Contradiction each) -> -each.deltaE00())
                .thenComparing(each -> each.first().pourId())
                .thenComparing(each -> each.second().pourId())
                .thenComparing(each -> each.first().reading())
                .thenComparing(each -> each.second().reading()));
        return List.copyOf(found.subList(0, Math.min(found.size(), readings.size())));
    }

    private static Contradiction.Side side(BookReadings.Sample sample, Lab predicted) {
        return new Contradiction.Side(
                sample.pourId(), sample.index(), sample.lab(), predicted, Ciede2000.between(sample.lab(), predicted));
    }

    /** What must be the very same. */
    private static String key(BookReadings.Sample sample) {
        StringBuilder key = new StringBuilder(sample.resinId()).append('|').append(sample.backing());
        sample.loadings().forEach(each -> key.append('|').append(each.pigmentId()));
        return key.toString();
    }

    private static boolean isSame(BookReadings.Sample first, BookReadings.Sample second) {
        boolean same = isNear(first.depthMm(), second.depthMm());
        for (int p = 0; p < first.loadings().size(); p++) {
            same &= isNear(
                    first.loadings().get(p).percent(), second.loadings().get(p).percent());
        }
        return same;
    }

    private static boolean isNear(double one, double other) {
        return Math.abs(one - other) <= SAME * Math.max(one, other);
    }
}
