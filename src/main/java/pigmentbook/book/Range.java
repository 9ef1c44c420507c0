package pigmentbook.book;

import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Amount;

/**
 * The accepted range of an amount; an open end is null.
 *
 * @param least the least accepted, or null
 * @param most the most accepted, or null
 * @param <A> the kind of amount
 */
public record Range<A extends Amount>(
        @Nullable A least, @Nullable A most) {

    /** Returns a range open at both ends. */
    public static <A extends Amount> Range<A> open() {
        return new Range<>(null, null);
    }
}
