/**
 * The colour of a mix: what each pigment does to resin per percent and millimetre, fitted to the book's readings; the
 * look of any mix at any depth over any backing; and the mixes that match a colour.
 *
 * <p>Start at {@link pigmentbook.tint.Tints}. Two-constant theory (Kubelka 1948) in eight latent bands with the
 * correction for a glossy face (Saunderson 1942) and for the longer way of light that is scattered. A <em>loading</em>
 * here is always grams of pigment of full strength to 100 g of mixed resin; depths are in mm. A <em>spread</em> is the
 * ΔE00 that nine of ten fresh readings stay within. Pure functions: no files, no clock, no chance, and the same book
 * gives the same figures whatever the order of its files. Uses {@code book}, {@code colour} and {@code quantity}.
 */
@NullMarked
package pigmentbook.tint;

import org.jspecify.annotations.NullMarked;
