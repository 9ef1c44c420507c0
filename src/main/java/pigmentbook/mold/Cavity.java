package pigmentbook.mold;

import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Volume;

/**
 * The room of one mold: its shape, how high it is filled, and the inserts in it.
 *
 * @param shape the shape
 * @param fill the height it is filled to; null: to its depth
 * @param inserts what takes resin's place
 * @param measured one mold's room found from a pour, at its own fill, inserts in place; null: not measured
 */
public record Cavity(
        Shape shape,
        @Nullable Length fill,
        List<Insert> inserts,
        @Nullable Volume measured) {

    private static final double MM3_PER_ML = 1000;

    /** A height that passes the depth by no more than this is a rounding of the last bits, in mm. */
    private static final double SLACK_MM = 1e-9;

    public Cavity {
        inserts = List.copyOf(inserts);
        Length depth = shape.depth();
        if (fill != null && depth == null) {
            throw new IllegalArgumentException("A fill of \"" + fill.written()
                    + "\" has no meaning for a shape known by its volume alone; leave it out.");
        }
        if (fill != null
                && depth != null
                && (fill.exactMm().signum() <= 0 || fill.exactMm().compareTo(depth.exactMm()) > 0)) {
            throw new IllegalArgumentException("A fill of \"" + fill.written() + "\" is outside the depth of \""
                    + depth.written() + "\"; give a height above zero and up to that.");
        }
    }

    /** Returns the same mold as if nobody had measured it. */
    public Cavity unmeasured() {
        return new Cavity(shape, fill, inserts, null);
    }

    /** Returns the height it is filled to: its own fill, else its depth, else null where the shape has none. */
    public @Nullable Length fillOrDepth() {
        return fill != null ? fill : shape.depth();
    }

    /**
     * Returns what lies between two heights.
     *
     * @param fromMm the lower height in mm, 0 or more
     * @param toMm the upper height in mm, not below the lower and not above the depth
     * @throws IllegalArgumentException if the shape has no depth or the heights are outside it
     */
    public Slice between(double fromMm, double toMm) {
        return between(fromMm, toMm, true);
    }

    /**
     * Returns what lies between two heights, with or without what the inserts displace.
     *
     * @throws IllegalArgumentException if the shape has no depth or the heights are outside it
     */
    public Slice between(double fromMm, double toMm, boolean countInserts) {
        double from = within(fromMm);
        double to = within(toMm);
        if (from > to) {
            throw new IllegalArgumentException("From " + Numbers.plain(fromMm) + " mm to " + Numbers.plain(toMm)
                    + " mm goes downwards; give the lower height first.");
        }
        return slice(from, to, countInserts);
    }

    /** Returns the whole of the mold up to its fill (for a shape without depth: all of it). */
    public Slice whole() {
        return whole(true);
    }

    /** Returns the whole of the mold up to its fill, with or without what the inserts displace. */
    public Slice whole(boolean countInserts) {
        Length top = fillOrDepth();
        return slice(0, top == null ? 0 : top.mm(), countInserts);
    }

    private Slice slice(double from, double to, boolean countInserts) {
        double volume = volumeMl(from, to);
        double displaced = countInserts ? displacedMl(from, to) : 0;
        return new Slice(volume, displaced, (volume - displaced) * measuredByComputed());
    }

    private double volumeMl(double from, double to) {
        if (shape.depth() == null) {
            return shape.volumeMm3To(0) / MM3_PER_ML;
        }
        double upTo = shape.volumeMm3To(to);
        return (from == 0 ? upTo : upTo - shape.volumeMm3To(from)) / MM3_PER_ML;
    }

    /**
     * Returns what the inserts displace between two heights, in mL. An insert without a depth of its own (a volume, or
     * water) is spread over the mold's fill in proportion to the mold's volume, and displaces nothing above it. In a
     * mold without heights every insert is under the resin whole.
     */
    private double displacedMl(double from, double to) {
        double sum = 0;
        for (Insert insert : inserts) {
            Length depth = insert.shape().depth();
            Length top = fillOrDepth();
            if (top == null) {
                double whole = insert.shape().volumeMm3To(depth == null ? 0 : depth.mm());
                sum += insert.count() * whole / MM3_PER_ML;
            } else if (depth == null) {
                double fill = top.mm();
                double share = volumeMl(Math.min(from, fill), Math.min(to, fill)) / volumeMl(0, fill);
                sum += insert.count() * share * insert.shape().volumeMm3To(0) / MM3_PER_ML;
            } else {
                double bottom = insert.from().mm();
                double low = Math.max(0, Math.min(depth.mm(), from - bottom));
                double high = Math.max(0, Math.min(depth.mm(), to - bottom));
                double mm3 = insert.shape().volumeMm3To(high) - insert.shape().volumeMm3To(low);
                sum += insert.count() * mm3 / MM3_PER_ML;
            }
        }
        return sum;
    }

    private double measuredByComputed() {
        if (measured == null) {
            return 1;
        }
        Length top = fillOrDepth();
        double height = top == null ? 0 : top.mm();
        double computed = volumeMl(0, height) - displacedMl(0, height);
        return computed > 0 ? measured.milliliters() / computed : 1;
    }

    private double within(double heightMm) {
        Length depth = shape.depth();
        if (depth == null) {
            throw Sizes.withoutDepth();
        }
        if (!(heightMm >= -SLACK_MM && heightMm <= depth.mm() + SLACK_MM)) {
            throw new IllegalArgumentException("A height of " + Numbers.plain(heightMm)
                    + " mm is outside the mold, which is \"" + depth.written() + "\" deep.");
        }
        return Math.max(0, Math.min(depth.mm(), heightMm));
    }

    /**
     * Returns the area of the shape at a height, inserts not deducted, in mm².
     *
     * @throws IllegalArgumentException if the shape has no depth or the height is outside it
     */
    public double areaMm2At(double heightMm) {
        return shape.areaMm2At(within(heightMm));
    }
}
