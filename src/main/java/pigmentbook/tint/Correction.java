package pigmentbook.tint;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Backing;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/**
 * What to change in a mix after a sample of it was read: the loadings of the same pigments, moved no more than helps.
 *
 * @param changes every pigment's loading, as it was and as it should be
 * @param lab the colour expected then: the look, off by as much as the sample was
 * @param dE00 how far that is from the colour wanted
 * @param adding the same where nothing can be taken out, for a cup that is mixed already
 * @param labAdding the colour expected then
 * @param dE00Adding how far that is
 */
public record Correction(
        List<Change> changes, Lab lab, double dE00, List<Change> adding, Lab labAdding, double dE00Adding) {

    /** A logarithm moved by 1 counts as this much ΔE00, which settles mixes that look alike for the nearer one. */
    private static final double PULL = 0.03;

    /** Percent. Own choice, no source. */
    private static final double LEAST = 1e-4;

    /** ΔE00. Own choice, no source. */
    private static final double AS_GOOD = 0.25;

    /**
     * A pigment's change.
     *
     * @param pigmentId the pigment
     * @param fromPercent its loading now, percent of mixed resin
     * @param toPercent its loading then
     */
    public record Change(String pigmentId, double fromPercent, double toPercent) {}

    /** Returns whether adding alone comes about as near as changing freely. */
    public boolean isAddingEnough() {
        return dE00Adding <= dE00 + AS_GOOD;
    }

    /**
     * Works a correction out.
     *
     * @param loadings what was mixed, percent of mixed resin
     * @param depthMm the depth the sample was read at, mm
     * @param sample the sample's reading, gloss left out
     * @param target the colour wanted at the same depth over the same backing
     * @throws TintRefusedException if there is no pigment in it, or as {@link Tints#look}
     */
    public static Correction of(
            Tints tints,
            String resinId,
            List<Loading> loadings,
            double depthMm,
            Backing backing,
            Lab sample,
            Lab target) {
        Tints.Mix mix = tints.mix(loadings, resinId);
        Lab foretold = tints.look(loadings, resinId, depthMm, backing).lab();
        if (mix.rows.length < 2) {
            throw new TintRefusedException("There is no pigment in this mix to change. Add one that has a reading.");
        }
        double[] backingBands = Bands.reflectance(Xyz.of(tints.labOf(backing)));
        double[] carried = tints.carried(mix, depthMm, backingBands);
        Aim aim = new Aim(tints.figures(), mix.rows[0], depthMm, backingBands, tints.sumMost(resinId));
        // The theory is to reach what it foretold without the readings' say, moved by what the sample lacks.
        aim.at(
                target.l() - sample.l() + foretold.l() - carried[0],
                target.a() - sample.a() + foretold.a() - carried[1],
                target.b() - sample.b() + foretold.b() - carried[2],
                target);
        Side free = side(tints, mix, aim, false);
        Side adding = side(tints, mix, aim, true);
        Lab lab = moved(tints, free, resinId, depthMm, backing, sample, foretold);
        Lab labAdding = moved(tints, adding, resinId, depthMm, backing, sample, foretold);
        return new Correction(
                free.changes,
                lab,
                Ciede2000.between(lab, target),
                adding.changes,
                labAdding,
                Ciede2000.between(labAdding, target));
    }

    private record Side(List<Change> changes, List<Loading> loadings) {}

    private static Side side(Tints tints, Tints.Mix mix, Aim aim, boolean adding) {
        int n = mix.rows.length - 1;
        int[] rows = Arrays.copyOfRange(mix.rows, 1, n + 1);
        double[] percents = Arrays.copyOfRange(mix.loadings, 1, n + 1);
        double[] least = new double[n];
        double[] most = new double[n];
        String[] ids = new String[n];
        for (int i = 0; i < n; i++) {
            ids[i] = idOf(tints.samples().pigmentRows, rows[i]);
            least[i] = adding ? percents[i] : LEAST;
            most[i] = Math.max(
                    percents[i], Tints.topPercent(tints.book().pigments().get(ids[i])));
        }
        double[] before = percents.clone();
        aim.improve(rows, percents, least, most, PULL);
        List<Change> changes = new ArrayList<>();
        List<Loading> loadings = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            changes.add(new Change(ids[i], before[i], percents[i]));
            loadings.add(new Loading(ids[i], percents[i]));
        }
        return new Side(changes, loadings);
    }

    private static String idOf(Map<String, Integer> rows, int row) {
        return rows.entrySet().stream()
                .filter(each -> each.getValue() == row)
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
    }

    private static Lab moved(
            Tints tints, Side side, String resinId, double depthMm, Backing backing, Lab sample, Lab foretold) {
        Lab lab = tints.look(side.loadings, resinId, depthMm, backing).lab();
        return Optics.clipped(
                lab.l() + sample.l() - foretold.l(),
                lab.a() + sample.a() - foretold.a(),
                lab.b() + sample.b() - foretold.b());
    }
}
