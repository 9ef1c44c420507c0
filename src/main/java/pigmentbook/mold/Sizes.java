package pigmentbook.mold;

import pigmentbook.quantity.Length;

/** Checks of sizes, and the rule that several shapes share. */
final class Sizes {

    private Sizes() {}

    static void aboveZero(String what, Length length) {
        if (length.exactMm().signum() <= 0) {
            throw new IllegalArgumentException("A " + what + " of \"" + length.written() + "\" must be above zero.");
        }
    }

    static void notBelowZero(String what, Length length) {
        if (length.exactMm().signum() < 0) {
            throw new IllegalArgumentException("A " + what + " of \"" + length.written() + "\" is below zero.");
        }
    }

    static IllegalArgumentException withoutDepth() {
        return new IllegalArgumentException("This shape is known by its volume alone; it has no heights.");
    }

    /** Returns h/6 (A₁ + 4 A½ + A₂): exact where the area is at most cubic in height, and ends need not be similar. */
    static double prismoid(double height, double bottomArea, double middleArea, double topArea) {
        return height / 6 * (bottomArea + 4 * middleArea + topArea);
    }
}
