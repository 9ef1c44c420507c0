package pigmentbook.mold;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.valid.IsValidOp;
import org.locationtech.jts.operation.valid.TopologyValidationError;
import pigmentbook.quantity.Numbers;

/** The area of an outline with holes. */
final class OutlineArea {

    private OutlineArea() {}

    static double mm2(List<Shape.Point> points, List<List<Shape.Point>> holes) {
        return polygon(points, holes).getArea();
    }

    /**
     * Refuses what encloses no area.
     *
     * @throws IllegalArgumentException if there are too few points, lines cross, or a hole is not inside
     */
    static void requireValid(List<Shape.Point> points, List<List<Shape.Point>> holes) {
        requireThree("outline", points);
        holes.forEach(hole -> requireThree("hole", hole));
        TopologyValidationError error = new IsValidOp(polygon(points, holes)).getValidationError();
        if (error != null) {
            Coordinate at = error.getCoordinate();
            String where = Numbers.plain(round(at.x)) + " mm, " + Numbers.plain(round(at.y)) + " mm";
            throw new IllegalArgumentException(
                    switch (error.getErrorType()) {
                        case TopologyValidationError.SELF_INTERSECTION ->
                            crossing(points, holes) + " at " + where + ". "
                                    + (isSound(points) && holes.stream().allMatch(OutlineArea::isSound)
                                            ? "Move one of them."
                                            : "Put the points in order around it.");
                        case TopologyValidationError.HOLE_OUTSIDE_SHELL ->
                            "A hole lies outside the outline at " + where + ". Move it inside.";
                        case TopologyValidationError.NESTED_HOLES ->
                            "A hole lies inside another at " + where + ". Leave one of them out.";
                        default -> "The outline encloses no clear area near " + where + ". Check its points.";
                    });
        }
    }

    /** Says which lines cross: those of one ring, or those of two. */
    private static String crossing(List<Shape.Point> points, List<List<Shape.Point>> holes) {
        if (!isSound(points)) {
            return "The outline crosses or touches itself";
        }
        Polygon outline = polygon(points, List.of());
        for (List<Shape.Point> hole : holes) {
            if (!isSound(hole)) {
                return "A hole crosses or touches itself";
            }
            if (!outline.contains(polygon(hole, List.of()))) {
                return "A hole crosses the outline";
            }
        }
        return "Two holes cross each other";
    }

    private static boolean isSound(List<Shape.Point> ring) {
        return new IsValidOp(polygon(ring, List.of())).isValid();
    }

    private static double round(double mm) {
        return Math.rint(mm * 100) / 100;
    }

    private static void requireThree(String what, List<Shape.Point> points) {
        if (points.size() < 3) {
            throw new IllegalArgumentException((what.equals("outline") ? "An " : "A ") + what + " of " + points.size()
                    + " points encloses nothing; give three or more.");
        }
    }

    private static Polygon polygon(List<Shape.Point> points, List<List<Shape.Point>> holes) {
        GeometryFactory factory = new GeometryFactory();
        LinearRing[] rings = holes.stream().map(hole -> ring(factory, hole)).toArray(LinearRing[]::new);
        return factory.createPolygon(ring(factory, points), rings);
    }

    private static LinearRing ring(GeometryFactory factory, List<Shape.Point> points) {
        Coordinate[] ring = new Coordinate[points.size() + 1];
        for (int i = 0; i < points.size(); i++) {
            Shape.Point point = points.get(i);
            ring[i] = new Coordinate(point.x().mm(), point.y().mm());
        }
        ring[points.size()] = ring[0];
        return factory.createLinearRing(ring);
    }
}
