package pigmentbook.tint;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Pigment;
import pigmentbook.book.Resin;
import pigmentbook.colour.Xyz;

/**
 * How a mix looks at more or less of all its pigments and at other depths.
 *
 * @param factors by how much every loading is multiplied, one for each row
 * @param depthsMm the depths, mm, one for each column
 * @param rows a row of cells for each factor
 */
public record LookMap(List<Double> factors, List<Double> depthsMm, List<List<Cell>> rows) {

    /** A top loading met to the last bit is not passed. */
    private static final double LAST_BITS = 1e-9;

    /**
     * A place on the map.
     *
     * @param factor by how much every loading is multiplied
     * @param depthMm the depth, mm
     * @param look what it looks like there, or null above a top loading
     * @param above which pigment is above its top loading, the first of several by id; empty where it is all of them
     *     together or none
     */
    public record Cell(
            double factor, double depthMm, @Nullable Look look, String above) {

        /** Returns whether a top loading is passed here. */
        public boolean isAboveTop() {
            return look == null;
        }
    }

    /**
     * Maps a mix.
     *
     * @param loadings what is in it, percent of mixed resin
     * @param resinId the resin
     * @param factors by how much to multiply every loading, each above 0
     * @param depthsMm depths, mm, each above 0
     * @param backing what lies behind
     * @throws TintRefusedException if a factor can't be, or as {@link Tints#look}
     */
    public static LookMap of(
            Tints tints,
            List<Loading> loadings,
            String resinId,
            List<Double> factors,
            List<Double> depthsMm,
            Backing backing) {
        for (double factor : factors) {
            if (!(factor > 0) || !(factor < 1e5)) {
                throw new TintRefusedException(
                        "All loadings can't be multiplied by " + factor + "; give a number above 0.");
            }
        }
        double[] bands = Bands.reflectance(Xyz.of(tints.labOf(backing)));
        List<List<Cell>> rows = new ArrayList<>();
        for (double factor : factors) {
            List<Loading> scaled = loadings.stream()
                    .map(each -> new Loading(each.pigmentId(), each.percent() * factor))
                    .toList();
            Tints.Mix mix = tints.mix(scaled, resinId);
            String above = above(tints, scaled);
            boolean passed = !above.isEmpty() || isTooMuch(tints, scaled, resinId);
            List<Cell> row = new ArrayList<>();
            for (double depthMm : depthsMm) {
                Tints.checkDepth(depthMm);
                row.add(new Cell(factor, depthMm, passed ? null : tints.look(mix, depthMm, bands), above));
            }
            rows.add(List.copyOf(row));
        }
        return new LookMap(List.copyOf(factors), List.copyOf(depthsMm), List.copyOf(rows));
    }

    private static String above(Tints tints, List<Loading> loadings) {
        return loadings.stream()
                .filter(each -> {
                    Pigment pigment = tints.book().pigments().get(each.pigmentId());
                    return pigment != null
                            && pigment.topLoading() != null
                            && each.percent() > pigment.topLoading().percent() * (1 + LAST_BITS);
                })
                .map(Loading::pigmentId)
                .sorted()
                .findFirst()
                .orElse("");
    }

    private static boolean isTooMuch(Tints tints, List<Loading> loadings, String resinId) {
        Resin resin = tints.book().resins().get(resinId);
        double sum = loadings.stream().mapToDouble(Loading::percent).sum();
        return resin != null
                && resin.topLoading() != null
                && sum > resin.topLoading().percent() * (1 + LAST_BITS);
    }
}
