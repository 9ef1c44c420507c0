package pigmentbook.tint;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pigment;
import pigmentbook.book.Resin;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/**
 * What the book's readings tell of its pigments, and what any mix of them will look like. Immutable.
 *
 * <p>All resins count as one clear one, but for those of which the book has a reading without pigments.
 */
public final class Tints {

    private static final int U = Priors.UNKNOWNS;

    /** However well the readings agree, a fresh one is off by this much in each part of ΔE00. */
    private static final double LEAST_OFF = Spread.LEAST_SCATTER;

    /**
     * How far the theory fails in mixes it was never tried on, in units of how far it fails, beyond the usual scatter,
     * where it was. Own choice, no source.
     */
    private static final double UNTRIED = 4;

    /** Percent. Own choice, no source. */
    private static final double USUAL_TOP = 5;

    /** A top loading met to the last bit is not passed. */
    private static final double LAST_BITS = 1 + 1e-9;

    private static final double LN_3 = Math.log(3);
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;
    private static final int SECTIONS = 24;

    private final Book book;
    private final Samples samples;
    private final BookReadings read;
    private final double[] theta;
    private final double[] exp;
    private final Spread spread;
    private final Residuals residuals;

    /** For each two rows how often, and how evenly, they were read in one mix. */
    private final double[][] together;

    private Tints(Book book, Samples samples, BookReadings read, double[] theta) {
        this.book = book;
        this.samples = samples;
        this.read = read;
        this.theta = theta;
        exp = Normal.exponentials(theta);
        spread = Spread.of(samples, theta);
        residuals = new Residuals(samples, exp, spread.distances, spread.scatter.inDe00());
        together = new double[samples.rows][samples.rows];
        for (int i = 0; i < samples.size(); i++) {
            int[] rows = samples.row[i];
            double[] shares = Company.shares(exp, rows, samples.loading[i]);
            for (int p = 1; p < rows.length; p++) {
                for (int q = 1; q < rows.length; q++) {
                    together[rows[p]][rows[q]] += samples.weight[i] * Math.min(1, 8 * shares[p] * shares[q]);
                }
            }
        }
    }

    /**
     * Fits the tints of a book to its readings.
     *
     * @param book the book
     * @param earlier the tints of an earlier state of the book, to begin from; quicker, and the same to 0.01 ΔE00
     */
    public static Tints fit(Book book, Optional<Tints> earlier) {
        BookReadings read = BookReadings.of(book);
        Samples samples = new Samples(read.readings());
        double[] theta = earlier.map(tints -> tints.startFor(samples))
                .filter(start -> start.length > 0)
                .map(start -> Fit.from(samples, start))
                .orElseGet(() -> Fit.of(samples));
        return new Tints(book, samples, read, theta);
    }

    /** Returns these tints' unknowns in the rows of other samples, or nothing where those have other rows. */
    private double[] startFor(Samples other) {
        return other.pigmentRows.equals(samples.pigmentRows) && other.resinRows.equals(samples.resinRows)
                ? theta
                : new double[0];
    }

    /** Returns the readings that could not be used, and why. */
    public List<SetAside> setAside() {
        return read.setAside();
    }

    /**
     * Returns the pairs of readings that can't both be right: the same pigments within 5 % of each loading and of the
     * depth, over the same backing, and farther apart than readings scatter. The farthest apart come first. All of them
     * still count in the fit, a wild one for little.
     */
    public List<Contradiction> contradictions() {
        return Contradictions.of(read.readings(), spread.scatter.inDe00(), samples.looks(exp));
    }

    /** Returns the ids of the pigments with a reading. */
    public SortedSet<String> known() {
        return Collections.unmodifiableSortedSet(new TreeSet<>(samples.pigmentRows.keySet()));
    }

    /**
     * Returns what a mix will look like.
     *
     * @param loadings what is in it, percent of mixed resin; none is clear resin
     * @param resinId the resin
     * @param depthMm the depth, mm, above 0
     * @param backing what lies behind, bare and matte
     * @throws TintRefusedException if a pigment has no reading, or the depth or the backing can't be
     */
    public Look look(List<Loading> loadings, String resinId, double depthMm, Backing backing) {
        checkDepth(depthMm);
        Mix mix = mix(loadings, resinId);
        return look(mix, depthMm, Bands.reflectance(Xyz.of(labOf(backing))));
    }

    static void checkDepth(double depthMm) {
        if (!(depthMm > 0) || !(depthMm < 1e5)) {
            throw new TintRefusedException("A depth of " + depthMm + " mm can't be looked through; give one above 0.");
        }
    }

    /**
     * Returns by how much to multiply every loading so that a mix looks at another depth as near as can be to what it
     * does at its own.
     *
     * @param loadings what is in it, percent of mixed resin
     * @param fromMm its own depth, mm
     * @param toMm the other depth, mm
     * @throws TintRefusedException as {@link #look}
     */
    public double factorKeepingTheLook(
            List<Loading> loadings, String resinId, double fromMm, double toMm, Backing backing) {
        Lab wanted = look(loadings, resinId, fromMm, backing).lab();
        double low = Math.log(fromMm / toMm) - LN_3;
        double high = Math.log(fromMm / toMm) + LN_3;
        // A golden section of the logarithm: loading × depth is where to look, and the resin's own tint shifts it.
        for (int i = 0; i < SECTIONS; i++) {
            double left = high - (high - low) * GOLDEN;
            double right = low + (high - low) * GOLDEN;
            if (off(loadings, resinId, toMm, backing, wanted, left)
                    <= off(loadings, resinId, toMm, backing, wanted, right)) {
                high = right;
            } else {
                low = left;
            }
        }
        return Math.exp((low + high) / 2);
    }

    private double off(
            List<Loading> loadings, String resinId, double depthMm, Backing backing, Lab wanted, double factor) {
        List<Loading> scaled = loadings.stream()
                .map(each -> new Loading(each.pigmentId(), each.percent() * Math.exp(factor)))
                .toList();
        return Ciede2000.between(look(scaled, resinId, depthMm, backing).lab(), wanted);
    }

    /** Returns the colour of a backing. */
    Lab labOf(Backing backing) {
        Lab lab = BookReadings.lab(book.settings(), backing);
        if (lab == null) {
            throw new TintRefusedException("There is no backing \"" + backing.name()
                    + "\" in the book's settings. Name white, black or wood, or give its L,a,b.");
        }
        return lab;
    }

    /** A mix by rows, its resin first, and how much of each: 1 for the resin, else percent. */
    static final class Mix {
        final int[] rows;
        final double[] loadings;

        Mix(int[] rows, double[] loadings) {
            this.rows = rows;
            this.loadings = loadings;
        }
    }

    /** Returns the rows of a mix, by pigment id whatever the order it was written in. */
    Mix mix(List<Loading> loadings, String resinId) {
        Map<String, Double> sorted = new TreeMap<>();
        for (Loading each : loadings) {
            if (!(each.percent() >= 0) || !(each.percent() < 1e5)) {
                throw new TintRefusedException("A loading of " + each.percent() + " % of " + each.pigmentId()
                        + " can't be; give a percent of mixed resin, 0 or more.");
            }
            if (each.percent() > 0) {
                sorted.merge(each.pigmentId(), each.percent(), Double::sum);
            }
        }
        List<Loading> list = new ArrayList<>();
        for (Map.Entry<String, Double> each : sorted.entrySet()) {
            if (!samples.pigmentRows.containsKey(each.getKey())) {
                throw new TintRefusedException("The pigment \"" + each.getKey()
                        + "\" has no reading yet, so nobody knows its colour. Pour a chip of it and read it over white"
                        + " and black." + NearIds.hint(each.getKey(), samples.pigmentRows.keySet()));
            }
            list.add(new Loading(each.getKey(), each.getValue()));
        }
        return new Mix(samples.rowsOf(resinId, list), Samples.loadingsOf(list));
    }

    /** A look with all that is known of how far off it may be. */
    static final class Foreseen {
        final Lab lab;

        /** Variances and covariances of the parts of ΔE00, 3 × 3. */
        final double[] variances;

        /** What of them comes from the unknowns. */
        final Uncertain.Leaning leaning;

        private Foreseen(Lab lab, double[] variances, Uncertain.Leaning leaning) {
            this.lab = lab;
            this.variances = variances;
            this.leaning = leaning;
        }
    }

    Look look(Mix mix, double depthMm, double[] backing) {
        Foreseen foreseen = foresee(mix, depthMm, backing);
        return new Look(foreseen.lab, Spread.bound(foreseen.variances));
    }

    Foreseen foresee(Mix mix, double depthMm, double[] backing) {
        Mixed mixed = new Mixed();
        mixed.of(exp, mix.rows, mix.loadings);
        Optics optics = new Optics();
        Common common = Common.of(exp);
        optics.lookWithSlopes(mixed.k, mixed.s, depthMm, backing, common);
        Residuals.Carried carried = residuals.at(exp, mix.rows, mix.loadings, depthMm, backing);
        Lab lab = Optics.clipped(
                optics.lab[0] + carried.lab[0], optics.lab[1] + carried.lab[1], optics.lab[2] + carried.lab[2]);
        double[][] slopes = new double[3][U + Common.COUNT];
        Normal.weighted(Ciede2000.metric(lab), optics, common, slopes);
        Uncertain.Leaning leaning = spread.unknowns.leaning(mix.rows, mix.loadings, slopes);
        double[] variances = spread.unknowns.between(leaning, leaning);
        Company.addTo(variances, spread.inCompany * (1 - carried.told), exp, mix.rows, mix.loadings, slopes);
        addOff(variances, mix, carried.told, Ciede2000.metric(lab));
        return new Foreseen(lab, variances, leaning);
    }

    /** Adds the variance of a fresh reading that is not the unknowns' own: scatter, and where the theory fails. */
    private void addOff(double[] variances, Mix mix, double told, double[] metric) {
        double all = spread.scatter.inDe00() * spread.scatter.inDe00();
        double theory = residuals.share * all;
        double failing = Math.max(0, all - Normal.SCATTER * Normal.SCATTER);
        double off = theory + UNTRIED * UNTRIED * failing * untried(mix);
        off *= 1 - told;
        double[] scatter = spread.scatter.at(metric);
        double trace = (1 - residuals.share) * (scatter[0] + scatter[4] + scatter[8]) / 3;
        off = Math.max(off, LEAST_OFF * LEAST_OFF - trace);
        for (int i = 0; i < 9; i++) {
            variances[i] += (1 - residuals.share) * scatter[i] + (i % 4 == 0 ? off : 0);
        }
    }

    /** Returns how much of a mix is of pigments that were never read together: 0 for one alone to 1. */
    private double untried(Mix mix) {
        double[] shares = Company.shares(exp, mix.rows, mix.loadings);
        double untried = 0;
        for (int p = 1; p < mix.rows.length; p++) {
            for (int q = 1; q < p; q++) {
                double known = 1 + together[mix.rows[p]][mix.rows[q]];
                untried += 4 * shares[p] * shares[q] / (known * known);
            }
        }
        return Math.min(1, untried);
    }

    /** Returns what is known of each pigment that has a reading, by id. */
    public List<PigmentTint> pigments() {
        NextReadings next = new NextReadings(this, spread);
        List<PigmentTint> pigments = new ArrayList<>();
        samples.pigmentRows.forEach((id, row) -> {
            double[] own = samples.with(row)
                    .mapToDouble(i -> spread.distances[i])
                    .sorted()
                    .toArray();
            Pigment pigment = book.pigments().get(id);
            NextReadings.Best best = next.of(row, topPercent(pigment));
            pigments.add(new PigmentTint(
                    id,
                    own.length,
                    (own[(own.length - 1) / 2] + own[own.length / 2]) / 2,
                    own[own.length - 1],
                    best.spreadDe00(),
                    best.next(),
                    best.thenDe00(),
                    values(row * U),
                    values(row * U + U / 2)));
        });
        return pigments;
    }

    /** Returns the readings of a pigment, alone and in mixes, in the order of pours and readings. */
    public List<Learnt> learntOf(String pigmentId) {
        List<Learnt> learnt = new ArrayList<>();
        for (int i = 0; i < read.readings().size(); i++) {
            BookReadings.Sample each = read.readings().get(i);
            if (each.loadings().stream().anyMatch(loading -> loading.pigmentId().equals(pigmentId))) {
                Lab workedOut = look(mix(each.loadings(), each.resinId()), each.depthMm(), samples.backing[i])
                        .lab();
                learnt.add(new Learnt(
                        each.pourId(),
                        each.index(),
                        each.loadings(),
                        each.lab(),
                        workedOut,
                        Ciede2000.between(each.lab(), workedOut)));
            }
        }
        return learnt;
    }

    private List<Double> values(int from) {
        return Arrays.stream(exp, from, from + U / 2).boxed().toList();
    }

    /** Returns up to what loading a pigment is tried: its top loading, 5 % where none is stated. */
    static double topPercent(@Nullable Pigment pigment) {
        return pigment == null || pigment.topLoading() == null
                ? USUAL_TOP
                : pigment.topLoading().percent();
    }

    /** Returns the most pigment that a resin takes in all, percent; no limit where none is stated. */
    double sumMost(String resinId) {
        Resin resin = book.resins().get(resinId);
        return resin == null || resin.topLoading() == null
                ? Double.MAX_VALUE
                : resin.topLoading().percent();
    }

    /**
     * Returns whether a stated top loading is passed, a pigment's or the resin's; an unstated one never is, for no
     * caution speaks of it either.
     */
    boolean isAboveTop(List<Loading> loadings, String resinId) {
        double sum = 0;
        boolean above = false;
        for (Loading each : loadings) {
            Pigment pigment = book.pigments().get(each.pigmentId());
            sum += each.percent();
            above |= pigment != null
                    && pigment.topLoading() != null
                    && each.percent() > pigment.topLoading().percent() * LAST_BITS;
        }
        return above || sum > sumMost(resinId) * LAST_BITS;
    }

    /** Returns what the readings near a look add to L*, a*, b*. */
    double[] carried(Mix mix, double depthMm, double[] backing) {
        return residuals.at(exp, mix.rows, mix.loadings, depthMm, backing).lab;
    }

    /** Returns K and S of every row, the common figures last. */
    double[] figures() {
        return exp;
    }

    Book book() {
        return book;
    }

    Samples samples() {
        return samples;
    }

    /** Returns the readings' scatter about the theory, as a standard deviation of each part of ΔE00. */
    double scatterDe00() {
        return spread.scatter.inDe00();
    }

    /** Returns how much of that is the theory's own failing, 0 to 1. */
    double theoryShare() {
        return residuals.share;
    }

    /** Returns the ΔE00 of each usable reading to the theory, in the order of pours and readings. */
    double[] distances() {
        return spread.distances.clone();
    }
}
