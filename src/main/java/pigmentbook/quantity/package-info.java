/**
 * Amounts as people write them, and the numbers they mean: lengths, volumes, masses, densities, percents, ratios,
 * times, money, and the steps of a scale.
 *
 * <p>Start at {@link pigmentbook.quantity.Amount}. Every amount keeps the text it was read from, so that it is written
 * back as it was written. Lengths, ratios, percents and weighing steps stay exact until the first physical operation;
 * everything else is computed exactly from the text and rounded once to a {@code double} in the unit that the accessor
 * names: g, mL (= cm³), mm, mm², °C, minutes. A text that is no amount is refused with a
 * {@link pigmentbook.quantity.BadAmountException}, whose message is for the person who wrote it. Plain numbers are in
 * {@link pigmentbook.quantity.Numbers}; {@link pigmentbook.quantity.InUnit} shows an amount in a unit of choice.
 *
 * <p>Here live parsing, formatting and exact factors; no arithmetic of the craft, no files, no clock. Uses no other
 * room.
 */
@NullMarked
package pigmentbook.quantity;

import org.jspecify.annotations.NullMarked;
