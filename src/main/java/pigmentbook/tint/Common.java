package pigmentbook.tint;

/**
 * What all mixes of a book have in common.
 *
 * @param k2 what the face throws back in from below, 0 to 1
 * @param detour how much farther light goes through a layer that scatters than through a clear one, so that what
 *     absorbs counts up to 1 + detour times: 0 in the theory as it is, about 0.8 for rays, above −1
 */
record Common(double k2, double detour) {

    /** How many figures these are. They stand behind all rows': the detour, k2 last. */
    static final int COUNT = 2;

    /** Returns the common figures of a list that ends with them. */
    static Common of(double[] exp) {
        return new Common(exp[exp.length - 1], exp[exp.length - 2]);
    }
}
