/**
 * Colours: CIELAB for D65 and the 2° observer inside, sRGB at the edges, one set of constants.
 *
 * <p>Start at {@link pigmentbook.colour.Lab}. Here live conversions, differences, and what is nearest; no pigments, no
 * files. Uses {@code quantity}, for the refusal of a text that can't be read.
 */
@NullMarked
package pigmentbook.colour;

import org.jspecify.annotations.NullMarked;
