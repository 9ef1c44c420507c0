package pigmentbook.mold;

import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Area;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;

/** A shape that holds resin or takes its place. Heights are in mm from its own floor. */
public sealed interface Shape {

    /** Returns the depth, or null for a shape known by its volume alone. */
    @Nullable
    Length depth();

    record Box(Length length, Length width, Length depth) implements Shape {}

    record TaperedBox(Length topLength, Length topWidth, Length bottomLength, Length bottomWidth, Length depth)
            implements Shape {}

    record Cylinder(Length diameter, Length depth) implements Shape {}

    record Cone(Length topDiameter, Length bottomDiameter, Length depth) implements Shape {}

    record Dome(Length diameter, Length depth) implements Shape {}

    record Point(Length x, Length y) {}

    record Outline(List<Point> points, List<List<Point>> holes, Length depth) implements Shape {}

    record Stations(Length spacing, List<Length> widths, List<Length> bottomWidths, Length depth) implements Shape {}

    record Prism(Area area, Length depth) implements Shape {}

    record KnownVolume(Volume volume) implements Shape {
        @Override
        public @Nullable Length depth() {
            return null;
        }
    }

    record Water(Mass mass, Temperature temperature) implements Shape {
        @Override
        public @Nullable Length depth() {
            return null;
        }
    }
}
