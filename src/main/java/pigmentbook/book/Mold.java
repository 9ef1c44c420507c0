package pigmentbook.book;

import org.jspecify.annotations.Nullable;
import pigmentbook.mold.Cavity;
import pigmentbook.quantity.Area;

/**
 * A mold.
 *
 * @param id the file's name
 * @param name what people call it
 * @param cavity its shape, fill and inserts
 * @param bareWood area of bare wood that drinks resin, in one mold, or null for none
 * @param count how many such molds are filled at once, 1 or more
 * @param notes words
 */
public record Mold(
        String id, String name, Cavity cavity, @Nullable Area bareWood, int count, String notes) {}
