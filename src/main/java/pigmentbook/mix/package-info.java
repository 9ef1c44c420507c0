/**
 * From a request to a mix: layers, cups, grams, lots, times, cost, cautions, and the working behind each figure.
 *
 * <p>Start at {@link pigmentbook.mix.Mixer}. All of the craft's arithmetic lives here, once; every edge asks these
 * functions. Pure: the day and the room's temperature are given, nothing is read or written. Uses {@code tint},
 * {@code book}, {@code mold}, {@code colour} and {@code quantity}.
 */
@NullMarked
package pigmentbook.mix;

import org.jspecify.annotations.NullMarked;
