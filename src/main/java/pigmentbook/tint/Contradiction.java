package pigmentbook.tint;

import pigmentbook.colour.Lab;

/**
 * Two readings of the same mix, depth and backing that can't both be right.
 *
 * @param first the one of the earlier pour
 * @param second the other
 * @param deltaE00 how far apart they are
 */
public record Contradiction(Side first, Side second, double deltaE00) {

    /**
     * One of the two.
     *
     * @param pourId the pour
     * @param reading which of its readings, from 0
     * @param lab the colour read, gloss left out
     * @param predicted the colour that all readings together make likely there
     * @param deltaE00 how far the reading is from that; the farther one is the likelier mistake
     */
    public record Side(String pourId, int reading, Lab lab, Lab predicted, double deltaE00) {}
}
