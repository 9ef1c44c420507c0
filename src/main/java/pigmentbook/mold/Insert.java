package pigmentbook.mold;

import pigmentbook.quantity.Length;

/**
 * Something that takes resin's place in a mold.
 *
 * @param name what it is
 * @param shape its shape
 * @param from the height of its underside above the mold's floor
 * @param count how many of it, 1 or more
 */
public record Insert(String name, Shape shape, Length from, int count) {
    public Insert {
        Sizes.notBelowZero("height", from);
        if (count < 1) {
            throw new IllegalArgumentException("A count of " + count + " inserts is none; give 1 or more.");
        }
    }
}
