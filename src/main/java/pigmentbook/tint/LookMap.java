package pigmentbook.tint;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import pigmentbook.book.Backing;
import pigmentbook.colour.Xyz;

/**
 * How a mix looks at more or less of all its pigments and at other depths.
 *
 * @param rows a row of cells for each factor, a cell for each depth; an empty one where a stated top loading is passed
 */
public record LookMap(List<List<Optional<Look>>> rows) {

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
        List<List<Optional<Look>>> rows = new ArrayList<>();
        for (double factor : factors) {
            List<Loading> scaled = loadings.stream()
                    .map(each -> new Loading(each.pigmentId(), each.percent() * factor))
                    .toList();
            Tints.Mix mix = tints.mix(scaled, resinId);
            boolean passed = tints.isAboveTop(scaled, resinId);
            List<Optional<Look>> row = new ArrayList<>();
            for (double depthMm : depthsMm) {
                Tints.checkDepth(depthMm);
                row.add(passed ? Optional.empty() : Optional.of(tints.look(mix, depthMm, bands)));
            }
            rows.add(List.copyOf(row));
        }
        return new LookMap(List.copyOf(rows));
    }
}
