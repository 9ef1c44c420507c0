/**
 * Colours: CIELAB for D65 and the 2° observer inside, sRGB at the edges, one set of constants.
 *
 * <p>Start at {@link pigmentbook.colour.Lab}. Here live conversions and differences; no pigments, no files. Uses no
 * other room.
 */
@NullMarked
package pigmentbook.colour;

import org.jspecify.annotations.NullMarked;
