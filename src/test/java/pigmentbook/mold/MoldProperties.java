package pigmentbook.mold;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import pigmentbook.quantity.Length;

/** Laws that hold for every shape. */
class MoldProperties {

    private static Length mm(double mm) {
        return Length.ofMm(mm);
    }

    private static Shape shape(int kind, double a, double b, double c, double d, double depth, double scale) {
        Length w = mm(a * scale);
        Length x = mm(b * scale);
        Length y = mm(c * scale);
        Length z = mm(d * scale);
        Length h = mm(depth * scale);
        return switch (kind) {
            case 0 -> new Shape.Box(w, x, h);
            case 1 -> new Shape.TaperedBox(w, x, y, z, h);
            case 2 -> new Shape.Cylinder(w, h);
            case 3 -> new Shape.Cone(w, x, h);
            case 4 -> new Shape.Dome(w, h);
            case 5 -> new Shape.Stations(mm(20 * scale), List.of(w, x, y, z), List.of(z, y, x, w), h);
            default ->
                new Shape.Outline(
                        List.of(point(0, 0), point(a * scale, 0), point(a * scale, b * scale), point(0, c * scale)),
                        List.of(),
                        h);
        };
    }

    private static Shape.Point point(double x, double y) {
        return new Shape.Point(mm(x), mm(y));
    }

    record Case(Shape shape, Shape twice) {}

    @Provide
    Arbitrary<Case> shapes() {
        Arbitrary<Double> size = Arbitraries.doubles().between(1, 1000).ofScale(2);
        return Combinators.combine(Arbitraries.integers().between(0, 6), size, size, size, size, size)
                .as((kind, a, b, c, d, depth) ->
                        new Case(shape(kind, a, b, c, d, depth, 1), shape(kind, a, b, c, d, depth, 2)));
    }

    @Property
    void slicesAddUpToTheWhole(
            @ForAll("shapes") Case each,
            @ForAll @DoubleRange(max = 1) double low,
            @ForAll @DoubleRange(max = 1) double high) {
        Cavity cavity = new Cavity(each.shape, null, List.of(), null);
        double depth = each.shape.depth().mm();
        double from = depth * Math.min(low, high);
        double to = depth * Math.max(low, high);
        double sum = cavity.between(0, from).volumeMl()
                + cavity.between(from, to).volumeMl()
                + cavity.between(to, depth).volumeMl();
        double whole = cavity.whole().volumeMl();
        assertThat(sum).isCloseTo(whole, within(whole * 1e-12));
    }

    @Property
    void higherHoldsMore(@ForAll("shapes") Case each, @ForAll @DoubleRange(max = 1) double share) {
        double depth = each.shape.depth().mm();
        double below = each.shape.volumeMm3To(depth * share);
        assertThat(below).isBetween(0.0, each.shape.volumeMm3To(depth) * (1 + 1e-12));
    }

    @Property
    void theAreaIsTheVolumesGrowth(
            @ForAll("shapes") Case each, @ForAll @DoubleRange(min = 0.01, max = 0.99) double share) {
        double depth = each.shape.depth().mm();
        double height = depth * share;
        double step = depth * 1e-4;
        double growth = (each.shape.volumeMm3To(height + step) - each.shape.volumeMm3To(height - step)) / (2 * step);
        assertThat(each.shape.areaMm2At(height)).isCloseTo(growth, within(growth * 1e-4));
    }

    @Property
    void twiceTheLengthsIsEightTimesTheVolume(@ForAll("shapes") Case each) {
        double once = each.shape.volumeMm3To(each.shape.depth().mm());
        // The stations' spacing is scaled too, so every length is.
        double twice = each.twice.volumeMm3To(each.twice.depth().mm());
        assertThat(twice).isCloseTo(8 * once, within(8 * once * 1e-12));
    }

    @Property
    void anOutlineIsTheSameWhereverItLiesAndWhicheverWayRound(
            @ForAll @DoubleRange(min = -1e5, max = 1e5) double dx,
            @ForAll @DoubleRange(min = -1e5, max = 1e5) double dy) {
        List<Shape.Point> here = List.of(point(0, 0), point(120, 10), point(90, 80), point(-5, 60));
        List<Shape.Point> there =
                here.stream().map(p -> point(p.x().mm() + dx, p.y().mm() + dy)).toList();
        List<Shape.Point> mirrored =
                here.stream().map(p -> point(-p.x().mm(), p.y().mm())).toList();
        double area = OutlineArea.mm2(here, List.of());
        assertThat(OutlineArea.mm2(there, List.of())).isCloseTo(area, within(1e-4));
        assertThat(OutlineArea.mm2(mirrored, List.of())).isCloseTo(area, within(1e-9));
    }
}
