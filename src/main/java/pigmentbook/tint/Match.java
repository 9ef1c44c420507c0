package pigmentbook.tint;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.NearIds;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Xyz;

/**
 * The mixes that match a colour.
 *
 * <p>Where there are few pigments every set of them is tried. Else sets grow from the best smaller ones, each begun
 * from what was found for those: with 40 pigments all sets of four are 91 390, and nearly all of them hopeless.
 */
public final class Match {

    private static final double[] STARTS = {0.02, 0.25};

    /** A pigment below this, percent, is none. */
    private static final double LEAST = 2e-4;

    private static final double LOWEST = 1e-4;

    /** So many tries at most with every set of pigments; above that sets grow from the best smaller ones. */
    private static final int ALL_SETS = 4000;

    private static final int PARENTS = 60;

    /** So many sets are looked at in full: with what readings near them say, and how sure it is. */
    private static final int LOOKED_AT = 240;

    private static final int MENDED = 40;
    private static final int MOST = 6;

    /** A pigment more has to bring at least this, in ΔE00 or in spread. */
    private static final double WORTH_A_PIGMENT = 0.05;

    /** ΔE00 counts in steps of this. */
    private static final double STEP = 0.5;

    private final Tints tints;
    private final MatchRequest request;
    private final int[] rows;
    private final double[] top;
    private final String[] ids;
    private final Aim aim;
    private final double[] backing;
    private final int resinRow;

    /** A set of pigments, by their places, and the best loadings found for it. */
    private static final class Found {
        final int[] set;
        final double[] percents;
        final double miss;

        Found(int[] set, double[] percents, double miss) {
            this.set = set;
            this.percents = percents;
            this.miss = miss;
        }
    }

    private Match(Tints tints, MatchRequest request) {
        this.tints = tints;
        this.request = request;
        Book book = tints.book();
        ids = pigments(tints, request);
        rows = new int[ids.length];
        top = new double[ids.length];
        for (int i = 0; i < ids.length; i++) {
            rows[i] = tints.samples().pigmentRows.getOrDefault(ids[i], -1);
            top[i] = Tints.topPercent(book.pigments().get(ids[i]));
        }
        resinRow = tints.samples().resinRows.getOrDefault(request.resinId(), 0);
        backing = Bands.reflectance(Xyz.of(tints.labOf(request.backing())));
        aim = new Aim(tints.figures(), resinRow, request.depthMm(), backing, tints.sumMost(request.resinId()));
        aim.at(request.target().l(), request.target().a(), request.target().b(), request.target());
    }

    /**
     * Finds mixes that match a colour, within each top loading (5 % where none is stated) and the resin's: best first,
     * by ΔE00 in steps of 0.5, then by spread, then by cost; a different set of pigments each.
     *
     * @throws TintRefusedException if there is nothing to match with, a pigment has no reading, or a figure can't be
     */
    public static List<MatchAnswer> find(Tints tints, MatchRequest request) {
        if (!(request.depthMm() > 0) || !(request.depthMm() < 1e5)) {
            throw new TintRefusedException(
                    "A depth of " + request.depthMm() + " mm can't be looked through; give one above 0.");
        }
        if (request.most() < 1 || request.most() > MOST || request.count() < 1) {
            throw new TintRefusedException("At most " + request.most() + " pigments in " + request.count()
                    + " answers can't be; 1 to " + MOST + " pigments and at least 1 answer were expected.");
        }
        return new Match(tints, request).answers();
    }

    private static String[] pigments(Tints tints, MatchRequest request) {
        TreeSet<String> known = new TreeSet<>(tints.known());
        TreeSet<String> wanted = new TreeSet<>(request.pigmentIds().isEmpty() ? known : request.pigmentIds());
        for (String id : wanted) {
            if (!known.contains(id)) {
                throw new TintRefusedException("The pigment \"" + id
                        + "\" has no reading yet, so nobody knows its colour. Pour a chip of it and read it over white"
                        + " and black." + NearIds.hint(id, known));
            }
        }
        if (wanted.isEmpty()) {
            throw new TintRefusedException(
                    "No pigment has a reading yet, so there is nothing to match with. Pour chips of single pigments and"
                            + " read them over white and black.");
        }
        // What may not be used at all is no pigment to match with.
        wanted.removeIf(id -> !(Tints.topPercent(tints.book().pigments().get(id)) > LEAST));
        return wanted.toArray(String[]::new);
    }

    private List<MatchAnswer> answers() {
        List<Found> found = new ArrayList<>();
        int most = Math.min(request.most(), ids.length);
        List<Found> before = List.of(new Found(new int[0], new double[0], Double.MAX_VALUE));
        boolean all = tries(ids.length, most) <= ALL_SETS;
        for (int size = 1; size <= most; size++) {
            List<Found> grown = all || size <= 2 ? everySet(size) : grown(before);
            grown.sort(Comparator.comparingDouble(each -> each.miss));
            found.addAll(grown);
            before = grown.subList(0, Math.min(PARENTS, grown.size()));
        }
        found.sort(Comparator.comparingDouble(each -> each.miss));
        return best(found);
    }

    /** Counts the tries that every set of up to so many pigments takes. */
    private static double tries(int pigments, int most) {
        double tries = 0;
        double sets = 1;
        for (int size = 1; size <= most; size++) {
            sets *= (pigments - size + 1.0) / size;
            tries += sets * (1 << size);
        }
        return tries;
    }

    private List<Found> everySet(int size) {
        List<Found> found = new ArrayList<>();
        int[] set = new int[size];
        for (int i = 0; i < size; i++) {
            set[i] = i;
        }
        while (size <= ids.length) {
            found.add(fromEveryStart(set));
            int at = size - 1;
            while (at >= 0 && set[at] == ids.length - size + at) {
                at--;
            }
            if (at < 0) {
                break;
            }
            set[at]++;
            for (int i = at + 1; i < size; i++) {
                set[i] = set[i - 1] + 1;
            }
        }
        return found;
    }

    private Found fromEveryStart(int[] set) {
        Found best = null;
        for (int start = 0; start < 1 << set.length; start++) {
            double[] percents = new double[set.length];
            for (int i = 0; i < set.length; i++) {
                percents[i] = STARTS[start >> i & 1] * top[set[i]];
            }
            Found found = improved(set, percents);
            best = best == null || found.miss < best.miss ? found : best;
        }
        return best == null ? improved(set, new double[0]) : best;
    }

    private Found improved(int[] set, double[] percents) {
        double[] least = new double[set.length];
        double[] most = new double[set.length];
        int[] own = new int[set.length];
        Arrays.fill(least, LOWEST);
        for (int i = 0; i < set.length; i++) {
            most[i] = top[set[i]];
            own[i] = rows[set[i]];
        }
        double miss = aim.improve(own, percents, least, most, 0);
        return new Found(set.clone(), percents, miss);
    }

    /** Adds each pigment to each of the sets, begun from what was found for them. */
    private List<Found> grown(List<Found> parents) {
        Map<List<Integer>, Found> grown = new HashMap<>();
        for (Found parent : parents) {
            for (int pigment = 0; pigment < ids.length; pigment++) {
                int more = pigment;
                if (Arrays.stream(parent.set).anyMatch(each -> each == more)) {
                    continue;
                }
                int[] set = new int[parent.set.length + 1];
                double[] percents = new double[set.length];
                int at = 0;
                while (at < parent.set.length && parent.set[at] < pigment) {
                    at++;
                }
                for (int i = 0; i < set.length; i++) {
                    set[i] = i < at ? parent.set[i] : i == at ? pigment : parent.set[i - 1];
                    percents[i] =
                            i < at ? parent.percents[i] : i == at ? STARTS[0] * top[pigment] : parent.percents[i - 1];
                }
                List<Integer> key = Arrays.stream(set).boxed().toList();
                Found other = grown.get(key);
                if (other == null || other.miss > STEP / 2) {
                    Found found = improved(set, percents);
                    if (other == null || found.miss < other.miss) {
                        grown.put(key, found);
                    }
                }
            }
        }
        List<Found> list = new ArrayList<>(grown.values());
        // A hash has no order of its own; equal misses shall not depend on it.
        list.sort((a, b) -> Arrays.compare(a.set, b.set));
        return list;
    }

    private List<MatchAnswer> best(List<Found> found) {
        List<MatchAnswer> looked = new ArrayList<>();
        Set<Set<String>> sets = new HashSet<>();
        for (Found each : found) {
            if (looked.size() == LOOKED_AT) {
                break;
            }
            Map<String, Double> percents = percents(each);
            if (!percents.isEmpty() && sets.add(percents.keySet())) {
                looked.add(looked(percents));
            }
        }
        looked.sort(ORDER);
        int mended = Math.min(MENDED + request.count(), looked.size());
        for (int i = 0; i < mended; i++) {
            looked.set(i, mended(looked.get(i)));
        }
        looked.sort(ORDER);
        return withoutIdle(looked).stream()
                .limit(request.count())
                .map(each -> new MatchAnswer(
                        each.loadings(),
                        each.lab(),
                        each.dE00(),
                        each.spreadDe00(),
                        request.cost().apply(each.loadings())))
                .sorted(ORDER)
                .toList();
    }

    private static final Comparator<MatchAnswer> ORDER = Comparator.<MatchAnswer>comparingDouble(
                    each -> Math.ceil(each.dE00() / STEP))
            .thenComparingDouble(MatchAnswer::spreadDe00)
            .thenComparing(MatchAnswer::cost, Comparator.nullsLast(Comparator.<Double>naturalOrder()));

    private Map<String, Double> percents(Found found) {
        Map<String, Double> percents = new TreeMap<>();
        for (int i = 0; i < found.set.length; i++) {
            if (found.percents[i] >= LEAST) {
                percents.put(ids[found.set[i]], found.percents[i]);
            }
        }
        return percents;
    }

    private MatchAnswer looked(Map<String, Double> percents) {
        List<Loading> loadings = new ArrayList<>();
        percents.forEach((id, percent) -> loadings.add(new Loading(id, percent)));
        Look look = tints.look(tints.mix(loadings, request.resinId()), request.depthMm(), backing);
        @Nullable Double noCost = null;
        return new MatchAnswer(
                loadings, look.lab(), Ciede2000.between(request.target(), look.lab()), look.spreadDe00(), noCost);
    }

    /** Aims beside the colour by as much as the readings near the mix say that the theory is off there. */
    private MatchAnswer mended(MatchAnswer answer) {
        MatchAnswer best = answer;
        for (int i = 0; i < 2; i++) {
            double[] carried = tints.carried(tints.mix(best.loadings(), request.resinId()), request.depthMm(), backing);
            aim.at(
                    request.target().l() - carried[0],
                    request.target().a() - carried[1],
                    request.target().b() - carried[2],
                    request.target());
            int[] set = best.loadings().stream()
                    .mapToInt(each -> Arrays.binarySearch(ids, each.pigmentId()))
                    .toArray();
            double[] percents =
                    best.loadings().stream().mapToDouble(Loading::percent).toArray();
            Map<String, Double> mended = percents(improved(set, percents));
            if (mended.size() < best.loadings().size()) {
                break;
            }
            MatchAnswer again = looked(mended);
            if (again.dE00() >= best.dE00()) {
                break;
            }
            best = again;
        }
        return best;
    }

    /** Leaves out sets with a pigment that brings nothing over the same set without it. */
    private static List<MatchAnswer> withoutIdle(List<MatchAnswer> answers) {
        List<MatchAnswer> kept = new ArrayList<>();
        for (MatchAnswer each : answers) {
            Set<String> own = idsOf(each);
            boolean idle = false;
            for (MatchAnswer other : answers) {
                idle |= other.loadings().size() < own.size()
                        && other.dE00() <= each.dE00() + WORTH_A_PIGMENT
                        && other.spreadDe00() <= each.spreadDe00() + WORTH_A_PIGMENT
                        && own.containsAll(idsOf(other));
            }
            if (!idle) {
                kept.add(each);
            }
        }
        return Collections.unmodifiableList(kept);
    }

    private static Set<String> idsOf(MatchAnswer answer) {
        Set<String> ids = new HashSet<>();
        answer.loadings().forEach(each -> ids.add(each.pigmentId()));
        return ids;
    }
}
