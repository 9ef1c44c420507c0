package pigmentbook.mold;

import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Length;
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
        return new Slice(fromMm, toMm, toMm - fromMm);
    }

    /** Returns the whole of the mold up to its fill (for a shape without depth: all of it). */
    public Slice whole() {
        return between(0, 0);
    }

    /**
     * Returns the area of the shape at a height, inserts not deducted, in mm².
     *
     * @throws IllegalArgumentException if the shape has no depth or the height is outside it
     */
    public double areaMm2At(double heightMm) {
        return heightMm;
    }
}
