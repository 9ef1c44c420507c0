package pigmentbook.tint;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.ObjIntConsumer;
import java.util.stream.IntStream;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/**
 * Readings as the fit wants them: numbers in lists, each pigment and each resin a row.
 *
 * <p>Rows 0 to {@code resins − 1} are resins, the rest pigments by id. Row 0 is any resin that has no reading of its
 * own without pigments: to tell two clear resins apart takes a clear chip of each.
 */
final class Samples {

    final Map<String, Integer> resinRows = new TreeMap<>();
    final Map<String, Integer> pigmentRows = new TreeMap<>();
    final int resins;
    final int rows;

    /** For each reading the rows in it, the resin first, and how much of each: 1 for the resin, else percent. */
    final int[][] row;

    final double[][] loading;
    final double[] depthMm;
    final double[][] backing;
    final double[][] lab;
    final double[][] metric;
    final double[] weight;

    /** How many readings are of more than one pigment, by weight. */
    final double mixes;

    /** What is expected of the detour: this far from none. */
    final double detourWidth;

    Samples(List<BookReadings.Sample> readings) {
        TreeSet<String> clear = new TreeSet<>();
        TreeSet<String> pigments = new TreeSet<>();
        for (BookReadings.Sample each : readings) {
            if (each.loadings().isEmpty() && !each.resinId().isEmpty()) {
                clear.add(each.resinId());
            }
            each.loadings().forEach(loading -> pigments.add(loading.pigmentId()));
        }
        for (String resin : clear) {
            resinRows.put(resin, 1 + resinRows.size());
        }
        resins = 1 + resinRows.size();
        for (String pigment : pigments) {
            pigmentRows.put(pigment, resins + pigmentRows.size());
        }
        rows = resins + pigmentRows.size();
        int n = readings.size();
        row = new int[n][];
        loading = new double[n][];
        depthMm = new double[n];
        backing = new double[n][];
        lab = new double[n][];
        metric = new double[n][];
        weight = new double[n];
        Map<Lab, double[]> backings = new HashMap<>();
        double mixed = 0;
        for (int i = 0; i < n; i++) {
            BookReadings.Sample each = readings.get(i);
            row[i] = rowsOf(each.resinId(), each.loadings());
            loading[i] = loadingsOf(each.loadings());
            depthMm[i] = each.depthMm();
            // Readings over one backing share its list, which tells at a glance that they do.
            backing[i] = backings.computeIfAbsent(each.backing(), own -> Bands.reflectance(Xyz.of(own)));
            lab[i] = new double[] {each.lab().l(), each.lab().a(), each.lab().b()};
            metric[i] = Ciede2000.metric(each.lab());
            weight[i] = each.weight();
            mixed += row[i].length > 2 ? weight[i] : 0;
        }
        mixes = mixed;
        detourWidth = Priors.detourWidth(mixes);
    }

    /** Returns the rows of a mix, its resin first. */
    int[] rowsOf(String resinId, List<Loading> loadings) {
        int[] rowsOf = new int[loadings.size() + 1];
        rowsOf[0] = resinRows.getOrDefault(resinId, 0);
        for (int i = 0; i < loadings.size(); i++) {
            rowsOf[i + 1] = pigmentRows.getOrDefault(loadings.get(i).pigmentId(), -1);
        }
        return rowsOf;
    }

    /** Returns how much of each row is in a mix. */
    static double[] loadingsOf(List<Loading> loadings) {
        double[] of = new double[loadings.size() + 1];
        of[0] = 1;
        for (int i = 0; i < loadings.size(); i++) {
            of[i + 1] = loadings.get(i).percent();
        }
        return of;
    }

    /** Returns the theory's colour of each reading. */
    List<Lab> looks(double[] exp) {
        List<Lab> looks = new ArrayList<>();
        forEachLook(exp, (optics, i) -> looks.add(optics.asLab()));
        return looks;
    }

    /** Looks at every reading's mix as the theory has it; what is handed over holds until the next one. */
    void forEachLook(double[] exp, ObjIntConsumer<Optics> taker) {
        Mixed mixed = new Mixed();
        Optics optics = new Optics();
        Common common = Common.of(exp);
        for (int i = 0; i < size(); i++) {
            mixed.of(exp, row[i], loading[i]);
            optics.look(mixed.k, mixed.s, depthMm[i], backing[i], common);
            taker.accept(optics, i);
        }
    }

    int size() {
        return weight.length;
    }

    /** Returns the readings that have this row in them. */
    IntStream with(int wanted) {
        return IntStream.range(0, size()).filter(i -> Arrays.stream(row[i]).anyMatch(each -> each == wanted));
    }

    /** Returns the resin's row that most readings have, the first of several. */
    int usualResin() {
        int[] count = new int[resins];
        int usual = 0;
        for (int[] rows : row) {
            count[rows[0]]++;
            usual = count[rows[0]] > count[usual] ? rows[0] : usual;
        }
        return usual;
    }

    /** Returns the readings of nothing but these rows. */
    int[] of(int resinRow, int pigmentRow) {
        List<Integer> of = new ArrayList<>();
        for (int i = 0; i < size(); i++) {
            boolean alone = pigmentRow < 0
                    ? row[i].length == 1 && row[i][0] == resinRow
                    : row[i].length == 2 && row[i][1] == pigmentRow;
            if (alone) {
                of.add(i);
            }
        }
        return of.stream().mapToInt(i -> i).toArray();
    }
}
