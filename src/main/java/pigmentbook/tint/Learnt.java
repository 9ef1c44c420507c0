package pigmentbook.tint;

import java.util.List;
import pigmentbook.colour.Lab;

/**
 * A reading that the tints were learnt from, beside what they make of it now.
 *
 * @param pourId the pour
 * @param reading which of its readings, from 0
 * @param loadings what was in it, percent of mixed resin
 * @param read the colour read, gloss left out
 * @param workedOut what is worked out for it
 * @param deltaE00 how far apart the two are
 */
public record Learnt(String pourId, int reading, List<Loading> loadings, Lab read, Lab workedOut, double deltaE00) {}
