/**
 * Shapes that hold resin: volume, area and slice at a height, each by its exact formula, and what inserts displace.
 *
 * <p>Start at {@link pigmentbook.mold.Cavity}. Heights run from the floor of the mold, in mm; volumes are in mL, areas
 * in mm². No resin, no recipes, no files. Uses {@code quantity}.
 */
@NullMarked
package pigmentbook.mold;

import org.jspecify.annotations.NullMarked;
