/**
 * Amounts as people write them, and the numbers they mean: lengths, volumes, masses, densities, percents, ratios,
 * times, money, and the steps of a scale.
 *
 * <p>Start at {@link pigmentbook.quantity.Amount}. Every amount keeps the text it was read from, so that it is written
 * back as it was written. Lengths, ratios, percents and weighing steps stay exact until the first physical operation;
 * everything else is a {@code double} in the unit that the accessor names: g, mL (= cm³), mm, mm², °C, minutes.
 *
 * <p>Here live parsing, formatting and exact factors; no arithmetic of the craft, no files, no clock. Uses no other
 * room.
 */
@NullMarked
package pigmentbook.quantity;

import org.jspecify.annotations.NullMarked;
