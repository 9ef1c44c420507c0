package pigmentbook.tint;

import pigmentbook.colour.Lab;

/**
 * The colour a mix is expected to have, gloss left out.
 *
 * @param lab the colour
 * @param spreadDe00 nine of ten fresh readings lie within this ΔE00 of it
 */
public record Look(Lab lab, double spreadDe00) {}
