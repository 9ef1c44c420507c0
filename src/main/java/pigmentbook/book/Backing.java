package pigmentbook.book;

import org.jspecify.annotations.Nullable;
import pigmentbook.colour.Lab;

/**
 * What lies behind a colour: one of the book's own, by name, or a measured one.
 *
 * @param name {@code white}, {@code black} or {@code wood}; null for a measured one
 * @param lab the colour of a measured one; null for a named one
 */
public record Backing(@Nullable String name, @Nullable Lab lab) {}
