package pigmentbook.tint;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.colour.Lab;
import pigmentbook.colour.NearestColours;

/** The rounds of the benchmark of colours; here, since the made-up studio is. */
public final class TintRounds {

    private static final int WARM_UP = 3;
    private static final int ROUNDS = 9;
    private static final Backing WHITE = new Backing("white", null);

    private TintRounds() {}

    /** Prints each round's medians. */
    public static void print() {
        nearest();
        Simulated studio = new Simulated(5, 40);
        List<Simulated.Chip> chips = new ArrayList<>(studio.ladders(new double[] {0.1, 0.4, 1.5}, 3, 10));
        while (chips.size() < 2000) {
            chips.add(studio.mix(3));
        }
        List<Simulated.Read> read = studio.readings(chips, 0.5);
        Book book = studio.book(read);
        read.add(studio.read(studio.mix(3), 0.5));
        Book more = studio.book(read);
        round("fit, 40 pigments, 2000 readings", 1, i -> Tints.fit(book, Optional.empty()));
        Tints tints = Tints.fit(book, Optional.empty());
        round("fit again after one more reading", 1, i -> Tints.fit(more, Optional.of(tints)));
        List<Simulated.Chip> mixes = new ArrayList<>();
        for (int i = 0; i < 1000; i++) {
            mixes.add(studio.mix(3));
        }
        round(
                "look",
                mixes.size(),
                i -> tints.look(mixes.get(i).loadings(), "clear", mixes.get(i).depthMm(), WHITE));
        round(
                "match, at most 4 of 40 pigments",
                20,
                i -> Match.find(
                        tints,
                        new MatchRequest(
                                studio.look(mixes.get(i)),
                                mixes.get(i).depthMm(),
                                WHITE,
                                "clear",
                                List.of(),
                                4,
                                5,
                                loadings -> null)));
    }

    private static void nearest() {
        Random random = new Random(1);
        List<Lab> colours = new ArrayList<>();
        for (int i = 0; i < 100_000; i++) {
            colours.add(any(random));
        }
        NearestColours index = new NearestColours(colours);
        List<Lab> targets = new ArrayList<>();
        for (int i = 0; i < 500; i++) {
            targets.add(any(random));
        }
        round("nearest 5 of 100 000", targets.size(), i -> index.nearest(targets.get(i), 5));
        // Colours such as no resin has, far from everything: little can be passed over.
        round(
                "nearest 5 of 100 000, from far off",
                targets.size(),
                i -> index.nearest(new Lab(targets.get(i).l(), -80 + i % 20, -90), 5));
    }

    /** Warm colours, as a studio of amber and rust has them. */
    private static Lab any(Random random) {
        double chroma = 70 * Math.sqrt(random.nextDouble());
        double hue = Math.toRadians(65 + 30 * random.nextGaussian());
        return new Lab(5 + 90 * random.nextDouble(), chroma * Math.cos(hue), chroma * Math.sin(hue));
    }

    private interface Work {
        Object at(int i);
    }

    private static void round(String name, int times, Work work) {
        double[] wall = new double[ROUNDS];
        double[] own = new double[ROUNDS];
        int kept = 0;
        for (int round = -WARM_UP; round < ROUNDS; round++) {
            long start = System.nanoTime();
            long startOwn = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
            for (int i = 0; i < times; i++) {
                kept += work.at(i).hashCode() & 1;
            }
            if (round >= 0) {
                wall[round] = (System.nanoTime() - start) / 1e6 / times;
                own[round] = (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - startOwn) / 1e6 / times;
            }
        }
        Arrays.sort(wall);
        Arrays.sort(own);
        System.out.println(name + ": median " + shown(wall[ROUNDS / 2]) + " ms, this thread's own time "
                + shown(own[ROUNDS / 2]) + " ms" + (kept < 0 ? "!" : ""));
    }

    private static double shown(double value) {
        return Math.round(value * 1000) / 1000.0;
    }
}
