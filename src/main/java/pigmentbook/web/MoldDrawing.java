package pigmentbook.web;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Mold;
import pigmentbook.mold.Insert;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Length;

/**
 * A mold drawn to scale: in section with its layers and inserts, and from above.
 *
 * <p>The book does not say where in the mold an insert lies, so inserts are drawn spread evenly, and the caption says
 * so.
 */
final class MoldDrawing {

    private static final double WALL = 9;
    private static final int ARC_STEPS = 24;
    private static final double MOST_HEIGHT = 230;

    private MoldDrawing() {}

    /** The mold's width at a height above its floor, in mm, and how it is shown. */
    private record Profile(double depthMm, double bottomMm, double topMm, boolean arc) {

        double widthAt(double heightMm) {
            if (!arc) {
                return bottomMm + (topMm - bottomMm) * heightMm / depthMm;
            }
            double radius = (topMm * topMm / 4 + depthMm * depthMm) / (2 * depthMm);
            return 2 * Math.sqrt(Math.max(0, heightMm * (2 * radius - heightMm)));
        }

        double widestMm() {
            return Math.max(bottomMm, topMm);
        }
    }

    private static @Nullable Profile profile(Shape shape) {
        Length depth = shape.depth();
        if (depth == null) {
            return null;
        }
        double mm = depth.mm();
        if (shape instanceof Shape.Box box) {
            return new Profile(mm, box.width().mm(), box.width().mm(), false);
        }
        if (shape instanceof Shape.TaperedBox tapered) {
            return new Profile(
                    mm, tapered.bottomWidth().mm(), tapered.topWidth().mm(), false);
        }
        if (shape instanceof Shape.Cylinder cylinder) {
            return new Profile(mm, cylinder.diameter().mm(), cylinder.diameter().mm(), false);
        }
        if (shape instanceof Shape.Cone cone) {
            return new Profile(
                    mm, cone.bottomDiameter().mm(), cone.topDiameter().mm(), false);
        }
        if (shape instanceof Shape.Dome dome) {
            return new Profile(mm, 0, dome.diameter().mm(), true);
        }
        if (shape instanceof Shape.Outline outline) {
            double width = extent(outline, false);
            return new Profile(mm, width, width, false);
        }
        if (shape instanceof Shape.Stations stations) {
            double top = widest(stations.widths());
            double bottom = stations.bottomWidths().isEmpty() ? top : widest(stations.bottomWidths());
            return new Profile(mm, bottom, top, false);
        }
        double side =
                shape instanceof Shape.Prism prism ? Math.sqrt(prism.area().mm2()) : mm;
        return new Profile(mm, side, side, false);
    }

    private static double widest(List<Length> widths) {
        return widths.stream().mapToDouble(Length::mm).max().orElse(0);
    }

    private static double extent(Shape.Outline outline, boolean alongX) {
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (Shape.Point point : outline.points()) {
            double at = alongX ? point.x().mm() : point.y().mm();
            least = Math.min(least, at);
            most = Math.max(most, at);
        }
        return most - least;
    }

    /** An insert in section: its width, its underside and top, in mm, and its name. */
    private record Block(String name, double widthMm, double fromMm, double toMm) {}

    /** Returns the inserts from left to right: pairs on either side, single ones in the middle. */
    private static List<Block> blocks(Mold mold) {
        List<Block> left = new ArrayList<>();
        List<Block> middle = new ArrayList<>();
        List<Block> right = new ArrayList<>();
        for (Insert insert : mold.cavity().inserts()) {
            Profile profile = profile(insert.shape());
            if (profile == null) {
                continue;
            }
            double from = insert.from().mm();
            Block block = new Block(insert.name(), profile.widestMm(), from, from + profile.depthMm());
            for (int i = 0; i < insert.count() / 2; i++) {
                left.add(block);
                right.add(0, block);
            }
            if (insert.count() % 2 == 1) {
                middle.add(block);
            }
        }
        left.addAll(middle);
        left.addAll(right);
        return left;
    }

    /**
     * Draws the mold in section.
     *
     * @param mold the mold
     * @param topsMm the height of each layer's top, lowest first; the last is the fill
     * @param colour the resin's colour as {@code #rrggbb}, or null for none
     * @param broad whether for a wide screen, else for a phone
     * @return the drawing, or an empty text for a mold without depth
     */
    static String section(Mold mold, List<Double> topsMm, @Nullable String colour, boolean broad) {
        Profile profile = profile(mold.cavity().shape());
        if (profile == null || topsMm.isEmpty()) {
            return "";
        }
        List<Block> blocks = blocks(mold);
        double width = broad ? 540 : 350;
        double x0 = broad ? 66 : 36;
        double room = broad ? 336 : 260;
        double scale = Math.min(room / profile.widestMm(), MOST_HEIGHT / profile.depthMm());
        double inside = profile.widestMm() * scale;
        x0 += (room - inside) / 2;
        double top = 46;
        double floor = top + profile.depthMm() * scale;
        double centre = x0 + inside / 2;
        double fill = topsMm.get(topsMm.size() - 1);
        boolean chain = !blocks.isEmpty() && blocks.size() <= 4;
        double height = floor + WALL + (chain ? 52 : 12);
        Pen pen = new Pen(broad ? "broad" : "narrow", width, height, label(mold, profile, fill, topsMm.size()));

        pen.path("wall", wall(profile, scale, centre, floor));
        double from = 0;
        for (double to : topsMm) {
            String d = band(profile, scale, centre, floor, from, to);
            if (colour == null) {
                pen.path("resin none", d);
            } else {
                pen.filled("resin", colour, d);
            }
            from = to;
        }
        double[] marks = blockMarks(blocks, profile, scale, centre);
        for (int i = 0; i < blocks.size(); i++) {
            Block block = blocks.get(i);
            double high = Math.min(block.toMm(), profile.depthMm());
            pen.rect(
                    "wood",
                    marks[2 * i + 1],
                    floor - high * scale,
                    block.widthMm() * scale,
                    (high - block.fromMm()) * scale);
        }
        pen.slice(x0 - 15, x0 + inside + 15, floor, scale);
        pen.across(30, new double[] {x0, x0 + inside}, new String[] {Pen.shown(profile.widestMm())}, 24);
        double left = x0 - 19;
        pen.upright(left, new double[] {floor, floor - fill * scale});
        pen.turned(left - 6, floor - fill * scale / 2, Pen.shown(fill));
        layers(pen, topsMm, scale, floor, x0 + inside + 21, broad);
        if (chain) {
            String[] texts = new String[marks.length - 1];
            for (int i = 0; i < texts.length; i++) {
                texts[i] = Pen.shown((marks[i + 1] - marks[i]) / scale);
            }
            pen.across(floor + 25, marks, texts, floor + 40);
            for (int i = 0; i < blocks.size(); i++) {
                pen.text(
                        (marks[2 * i + 1] + marks[2 * i + 2]) / 2,
                        floor + 57,
                        "middle",
                        firstWord(blocks.get(i).name()));
            }
        }
        return pen.done();
    }

    private static String firstWord(String name) {
        int space = name.indexOf(' ');
        return space < 0 ? name : name.substring(0, space);
    }

    private static void layers(Pen pen, List<Double> topsMm, double scale, double floor, double x, boolean broad) {
        double[] marks = new double[topsMm.size() + 1];
        marks[0] = floor;
        for (int i = 0; i < topsMm.size(); i++) {
            marks[i + 1] = floor - topsMm.get(i) * scale;
        }
        pen.upright(x, marks);
        double before = Double.POSITIVE_INFINITY;
        for (int i = 0; i < topsMm.size(); i++) {
            double middle = (marks[i] + marks[i + 1]) / 2 + 5;
            double depth = topsMm.get(i) - (i == 0 ? 0 : topsMm.get(i - 1));
            // Figures that would touch are left out; the table beneath has them all.
            if (before - middle >= 14) {
                pen.text(x + 10, middle, "start", Pen.shown(depth) + (broad ? "\u00a0\u00a0layer " + (i + 1) : ""));
                before = middle;
            }
        }
    }

    /** Returns where gaps and inserts begin: gap, insert, gap, insert … gap, in pixels. */
    private static double[] blockMarks(List<Block> blocks, Profile profile, double scale, double centre) {
        double floorWidth = profile.arc() ? profile.widestMm() : Math.min(profile.bottomMm(), profile.topMm());
        double taken = blocks.stream().mapToDouble(Block::widthMm).sum();
        double gap = Math.max(0, (floorWidth - taken) / (blocks.size() + 1));
        double[] marks = new double[2 * blocks.size() + 2];
        double x = centre - floorWidth / 2 * scale;
        marks[0] = x;
        for (int i = 0; i < blocks.size(); i++) {
            x += gap * scale;
            marks[2 * i + 1] = x;
            x += blocks.get(i).widthMm() * scale;
            marks[2 * i + 2] = x;
        }
        marks[marks.length - 1] = centre + floorWidth / 2 * scale;
        return marks;
    }

    private static String label(Mold mold, Profile profile, double fill, int layers) {
        return "Section A to A of " + mold.name() + ": " + Pen.shown(profile.widestMm()) + " mm wide, fill "
                + Pen.shown(fill) + " mm, " + layers + (layers == 1 ? " layer" : " layers");
    }

    private static String band(Profile profile, double scale, double centre, double floor, double fromMm, double toMm) {
        StringBuilder left = new StringBuilder();
        StringBuilder right = new StringBuilder();
        int steps = profile.arc() ? ARC_STEPS : 1;
        for (int i = 0; i <= steps; i++) {
            double height = fromMm + (toMm - fromMm) * i / steps;
            double half = profile.widthAt(height) / 2 * scale;
            String y = Pen.at(floor - height * scale);
            left.insert(0, " " + Pen.at(centre - half) + " " + y);
            right.append(' ').append(Pen.at(centre + half)).append(' ').append(y);
        }
        return "M" + left.substring(1) + " L" + right.substring(1) + "Z";
    }

    private static String wall(Profile profile, double scale, double centre, double floor) {
        StringBuilder inner = new StringBuilder();
        StringBuilder outer = new StringBuilder();
        int steps = profile.arc() ? ARC_STEPS : 1;
        for (int side = -1; side <= 1; side += 2) {
            for (int i = 0; i <= steps; i++) {
                double height = profile.depthMm() * (side < 0 ? steps - i : i) / steps;
                double half = profile.widthAt(height) / 2 * scale;
                double y = floor - height * scale;
                double below = WALL * (1 - height / profile.depthMm());
                double aside =
                        profile.arc() && profile.topMm() > 0 ? WALL * profile.widthAt(height) / profile.topMm() : WALL;
                inner.append(' ')
                        .append(Pen.at(centre + side * half))
                        .append(' ')
                        .append(Pen.at(y));
                outer.insert(0, " " + Pen.at(centre + side * (half + aside)) + " " + Pen.at(y + below));
            }
        }
        return "M" + inner.substring(1) + " L" + outer.substring(1) + "Z";
    }

    /**
     * Draws the mold from above.
     *
     * @param mold the mold
     * @param colour the resin's colour as {@code #rrggbb}, or null for none
     * @param broad whether for a wide screen, else for a phone
     * @return the drawing, or an empty text for a mold without depth
     */
    static String plan(Mold mold, @Nullable String colour, boolean broad) {
        Shape shape = mold.cavity().shape();
        Profile profile = profile(shape);
        if (profile == null) {
            return "";
        }
        double lengthMm = length(shape, profile);
        double widthMm = profile.widestMm();
        double x0 = broad ? 66 : 36;
        double room = broad ? 336 : 291;
        double scale = Math.min(room / lengthMm, MOST_HEIGHT / widthMm);
        double y0 = 40;
        double wide = lengthMm * scale;
        double high = widthMm * scale;
        x0 += (room - wide) / 2;
        Pen pen = new Pen(
                broad ? "broad" : "narrow",
                broad ? 540 : 350,
                y0 + high + 24,
                "Plan of " + mold.name() + " from above: " + Pen.shown(lengthMm) + " by " + Pen.shown(widthMm) + " mm");
        String edge = edge(shape, x0, y0, scale, wide, high);
        if (colour == null) {
            pen.path("resin none", edge);
        } else {
            pen.filled("resin", colour, edge);
        }
        plannedInserts(pen, mold, profile, scale, x0, y0, wide, high, broad);
        pen.path("o", edge);
        double cut = x0 + wide * 0.77;
        pen.path("cut", "M" + Pen.at(cut) + " 30V" + Pen.at(y0 + high + 10));
        pen.text(cut + 8, 35, "start", "t-b", "A").text(cut + 8, y0 + high + 14, "start", "t-b", "A");
        pen.across(24, new double[] {x0, x0 + wide}, new String[] {Pen.shown(lengthMm)}, 18);
        pen.upright(x0 - 14, new double[] {y0 + high, y0});
        pen.turned(x0 - 20, y0 + high / 2, Pen.shown(widthMm));
        return pen.done();
    }

    private static double length(Shape shape, Profile profile) {
        if (shape instanceof Shape.Box box) {
            return box.length().mm();
        }
        if (shape instanceof Shape.TaperedBox tapered) {
            return Math.max(tapered.topLength().mm(), tapered.bottomLength().mm());
        }
        if (shape instanceof Shape.Outline outline) {
            return extent(outline, true);
        }
        if (shape instanceof Shape.Stations stations) {
            return stations.spacing().mm() * (stations.widths().size() - 1);
        }
        return profile.widestMm();
    }

    private static String edge(Shape shape, double x0, double y0, double scale, double wide, double high) {
        if (shape instanceof Shape.Outline outline) {
            double left =
                    outline.points().stream().mapToDouble(p -> p.x().mm()).min().orElse(0);
            double low =
                    outline.points().stream().mapToDouble(p -> p.y().mm()).min().orElse(0);
            StringBuilder d = new StringBuilder(ring(outline.points(), left, low, scale, x0, y0 + high));
            outline.holes().forEach(hole -> d.append(ring(hole, left, low, scale, x0, y0 + high)));
            return d.toString();
        }
        if (shape instanceof Shape.Stations stations) {
            StringBuilder upper = new StringBuilder();
            StringBuilder lower = new StringBuilder();
            for (int i = 0; i < stations.widths().size(); i++) {
                double x = x0 + i * stations.spacing().mm() * scale;
                double half = stations.widths().get(i).mm() / 2 * scale;
                upper.append(' ').append(Pen.at(x)).append(' ').append(Pen.at(y0 + high / 2 - half));
                lower.insert(0, " " + Pen.at(x) + " " + Pen.at(y0 + high / 2 + half));
            }
            return "M" + upper.substring(1) + " L" + lower.substring(1) + "Z";
        }
        if (shape instanceof Shape.Cylinder || shape instanceof Shape.Cone || shape instanceof Shape.Dome) {
            String radius = Pen.at(wide / 2);
            String y = Pen.at(y0 + high / 2);
            return "M" + Pen.at(x0) + " " + y + "A" + radius + " " + radius + " 0 1 1 " + Pen.at(x0 + wide) + " " + y
                    + "A" + radius + " " + radius + " 0 1 1 " + Pen.at(x0) + " " + y + "Z";
        }
        return "M" + Pen.at(x0) + " " + Pen.at(y0) + "H" + Pen.at(x0 + wide) + "V" + Pen.at(y0 + high) + "H"
                + Pen.at(x0) + "Z";
    }

    private static String ring(
            List<Shape.Point> points, double left, double low, double scale, double x0, double bottom) {
        StringBuilder d = new StringBuilder();
        for (Shape.Point point : points) {
            d.append(d.length() == 0 ? "M" : "L")
                    .append(Pen.at(x0 + (point.x().mm() - left) * scale))
                    .append(' ')
                    .append(Pen.at(bottom - (point.y().mm() - low) * scale));
        }
        return d.append('Z').toString();
    }

    private static void plannedInserts(
            Pen pen,
            Mold mold,
            Profile profile,
            double scale,
            double x0,
            double y0,
            double wide,
            double high,
            boolean broad) {
        List<Block> blocks = blocks(mold);
        double[] marks = blockMarks(blocks, profile, scale, 0);
        List<Double> lengths = new ArrayList<>();
        for (Block block : blocks) {
            double longest = 0;
            for (Insert insert : mold.cavity().inserts()) {
                Profile own = profile(insert.shape());
                if (own != null && insert.name().equals(block.name())) {
                    longest = length(insert.shape(), own);
                }
            }
            lengths.add(longest);
        }
        for (int i = 0; i < blocks.size(); i++) {
            double y = y0 + high / 2 + marks[2 * i + 1];
            double deep = blocks.get(i).widthMm() * scale;
            double longWide = lengths.get(i) * scale;
            pen.rect("hidden-edge", x0 + (wide - longWide) / 2, y, longWide, deep);
            if (broad && blocks.size() <= 5) {
                double end = x0 + (wide + longWide) / 2;
                pen.path("d", "M" + Pen.at(end) + " " + Pen.at(y + deep / 2) + "H" + Pen.at(x0 + wide + 12));
                pen.text(
                        x0 + wide + 16,
                        y + deep / 2 + 4.5,
                        "start",
                        blocks.get(i).name() + ", " + Pen.shown(lengths.get(i)));
            }
        }
    }
}
