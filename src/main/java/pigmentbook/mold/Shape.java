package pigmentbook.mold;

import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Area;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;

/**
 * A shape that holds resin or takes its place. Heights are in mm above its own floor, areas in mm², volumes in mm³;
 * each by its exact formula.
 */
public sealed interface Shape {

    /** Returns the depth, or null for a shape known by its volume alone. */
    @Nullable
    Length depth();

    /**
     * Returns the area of the level surface at a height.
     *
     * @param heightMm from 0 to the depth, in mm
     * @return the area in mm²
     * @throws IllegalArgumentException if the shape is known by its volume alone
     */
    double areaMm2At(double heightMm);

    /**
     * Returns the volume from the floor up to a height.
     *
     * @param heightMm from 0 to the depth, in mm; for a shape known by its volume alone it does not matter
     * @return the volume in mm³
     */
    double volumeMm3To(double heightMm);

    /** A box with upright sides. */
    record Box(Length length, Length width, Length depth) implements Shape {
        public Box {
            Sizes.aboveZero("length", length);
            Sizes.aboveZero("width", width);
            Sizes.aboveZero("depth", depth);
        }

        @Override
        public double areaMm2At(double heightMm) {
            return length.mm() * width.mm();
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return length.mm() * width.mm() * heightMm;
        }
    }

    /** A tray with straight slanting sides; top and bottom need not be alike in form. */
    record TaperedBox(Length topLength, Length topWidth, Length bottomLength, Length bottomWidth, Length depth)
            implements Shape {
        public TaperedBox {
            Sizes.aboveZero("top length", topLength);
            Sizes.aboveZero("top width", topWidth);
            Sizes.aboveZero("bottom length", bottomLength);
            Sizes.aboveZero("bottom width", bottomWidth);
            Sizes.aboveZero("depth", depth);
        }

        @Override
        public double areaMm2At(double heightMm) {
            double share = heightMm / depth.mm();
            return (bottomLength.mm() + (topLength.mm() - bottomLength.mm()) * share)
                    * (bottomWidth.mm() + (topWidth.mm() - bottomWidth.mm()) * share);
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return Sizes.prismoid(heightMm, areaMm2At(0), areaMm2At(heightMm / 2), areaMm2At(heightMm));
        }
    }

    /** An upright cylinder. */
    record Cylinder(Length diameter, Length depth) implements Shape {
        public Cylinder {
            Sizes.aboveZero("diameter", diameter);
            Sizes.aboveZero("depth", depth);
        }

        @Override
        public double areaMm2At(double heightMm) {
            return Math.PI / 4 * diameter.mm() * diameter.mm();
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return areaMm2At(heightMm) * heightMm;
        }
    }

    /** A frustum of a cone; one of the diameters may be zero. */
    record Cone(Length topDiameter, Length bottomDiameter, Length depth) implements Shape {
        public Cone {
            Sizes.notBelowZero("top diameter", topDiameter);
            Sizes.notBelowZero("bottom diameter", bottomDiameter);
            Sizes.aboveZero("depth", depth);
            if (topDiameter.mm() == 0 && bottomDiameter.mm() == 0) {
                throw new IllegalArgumentException("Both diameters of a cone are zero; one must be above zero.");
            }
        }

        @Override
        public double areaMm2At(double heightMm) {
            double diameter = bottomDiameter.mm() + (topDiameter.mm() - bottomDiameter.mm()) * heightMm / depth.mm();
            return Math.PI / 4 * diameter * diameter;
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return Sizes.prismoid(heightMm, areaMm2At(0), areaMm2At(heightMm / 2), areaMm2At(heightMm));
        }
    }

    /** A bowl cut from a sphere: the diameter is the opening's, the lowest point is the floor. */
    record Dome(Length diameter, Length depth) implements Shape {
        public Dome {
            Sizes.aboveZero("diameter", diameter);
            Sizes.aboveZero("depth", depth);
        }

        /** Returns the sphere's radius, in mm: (a² + d²) / 2d with the opening's radius a and the depth d. */
        public double radiusMm() {
            double opening = diameter.mm() / 2;
            return (opening * opening + depth.mm() * depth.mm()) / (2 * depth.mm());
        }

        @Override
        public double areaMm2At(double heightMm) {
            return Math.PI * heightMm * (2 * radiusMm() - heightMm);
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return Math.PI * heightMm * heightMm * (3 * radiusMm() - heightMm) / 3;
        }
    }

    /**
     * A corner of an outline.
     *
     * @param x to the right
     * @param y upwards
     */
    record Point(Length x, Length y) {}

    /**
     * Upright walls along any outline.
     *
     * @param points the corners in order, at least three; the last joins the first
     * @param holes islands left out of it, each like an outline of its own
     * @param depth the depth
     */
    record Outline(List<Point> points, List<List<Point>> holes, Length depth) implements Shape {
        public Outline {
            Sizes.aboveZero("depth", depth);
            points = List.copyOf(points);
            holes = holes.stream().map(List::copyOf).toList();
            OutlineArea.requireValid(points, holes);
        }

        @Override
        public double areaMm2At(double heightMm) {
            return OutlineArea.mm2(points, holes);
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return areaMm2At(heightMm) * heightMm;
        }
    }

    /**
     * A channel measured across at equal steps, such as a live edge.
     *
     * @param spacing the step along it
     * @param widths the widths at the top, from end to end, two or more; an end may be zero
     * @param bottomWidths the widths at the floor at the same places, or empty for upright sides
     * @param depth the depth
     */
    record Stations(Length spacing, List<Length> widths, List<Length> bottomWidths, Length depth) implements Shape {
        public Stations {
            Sizes.aboveZero("spacing", spacing);
            Sizes.aboveZero("depth", depth);
            widths = List.copyOf(widths);
            bottomWidths = List.copyOf(bottomWidths);
            if (widths.size() < 2) {
                throw new IllegalArgumentException("There are " + widths.size() + " widths; give two or more.");
            }
            if (!bottomWidths.isEmpty() && bottomWidths.size() != widths.size()) {
                throw new IllegalArgumentException("There are " + widths.size() + " widths at the top and "
                        + bottomWidths.size() + " at the bottom; give as many of each.");
            }
            widths.forEach(width -> Sizes.notBelowZero("width", width));
            bottomWidths.forEach(width -> Sizes.notBelowZero("width", width));
            if (widths.stream().allMatch(width -> width.mm() == 0)
                    && bottomWidths.stream().allMatch(width -> width.mm() == 0)) {
                throw new IllegalArgumentException("Every width is zero; at least one has to be above zero.");
            }
        }

        /** Returns the widths at a height, in mm. */
        private double[] widthsAt(double heightMm) {
            double[] at = new double[widths.size()];
            for (int i = 0; i < at.length; i++) {
                double top = widths.get(i).mm();
                double bottom =
                        bottomWidths.isEmpty() ? top : bottomWidths.get(i).mm();
                at[i] = bottom + (top - bottom) * heightMm / depth.mm();
            }
            return at;
        }

        /** Returns the area by trapezoids with half-weight ends. */
        @Override
        public double areaMm2At(double heightMm) {
            return StationRules.trapezoid(spacing.mm(), widthsAt(heightMm));
        }

        /** Returns the volume by trapezoids; widths are linear in height, so half the height's area is the mean. */
        @Override
        public double volumeMm3To(double heightMm) {
            return areaMm2At(heightMm / 2) * heightMm;
        }

        /** Returns the volume from the floor up to a height by Simpson's rule, in mm³. */
        public double simpsonMm3To(double heightMm) {
            return StationRules.simpson(spacing.mm(), widthsAt(heightMm / 2)) * heightMm;
        }
    }

    /** Upright walls around a known area. */
    record Prism(Area area, Length depth) implements Shape {
        public Prism {
            Sizes.aboveZero("depth", depth);
            if (!(area.mm2() > 0)) {
                throw new IllegalArgumentException("An area of \"" + area.written() + "\" must be above zero.");
            }
        }

        @Override
        public double areaMm2At(double heightMm) {
            return area.mm2();
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return area.mm2() * heightMm;
        }
    }

    /** A shape known by its volume alone. */
    record KnownVolume(Volume volume) implements Shape {
        public KnownVolume {
            if (!(volume.milliliters() > 0)) {
                throw new IllegalArgumentException("A volume of \"" + volume.written() + "\" must be above zero.");
            }
        }

        @Override
        public @Nullable Length depth() {
            return null;
        }

        @Override
        public double areaMm2At(double heightMm) {
            throw Sizes.withoutDepth();
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return volume.milliliters() * 1000;
        }
    }

    /**
     * A shape known by the water that fills it.
     *
     * @param mass the water's mass, as a scale in air shows it
     * @param temperature the water's temperature, 0 to 40 °C
     */
    record Water(Mass mass, Temperature temperature) implements Shape {
        public Water {
            if (!(mass.grams() > 0)) {
                throw new IllegalArgumentException("A mass of water of \"" + mass.written() + "\" must be above zero.");
            }
            if (!WaterDensity.covers(temperature.celsius())) {
                throw new IllegalArgumentException("Water of \"" + temperature.written()
                        + "\" can't be used to measure; 0 to 40 °C (32 to 104 °F) is expected.");
            }
        }

        @Override
        public @Nullable Length depth() {
            return null;
        }

        @Override
        public double areaMm2At(double heightMm) {
            throw Sizes.withoutDepth();
        }

        @Override
        public double volumeMm3To(double heightMm) {
            return WaterDensity.millilitersOf(mass.grams(), temperature.celsius()) * 1000;
        }
    }
}
