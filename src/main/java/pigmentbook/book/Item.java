package pigmentbook.book;

import org.jspecify.annotations.Nullable;

/**
 * Something that is weighed into a cup: part A, part B, or a pigment.
 *
 * @param id {@code part A}, {@code part B}, or the pigment's id
 */
public record Item(String id) {

    /** The resin. */
    public static final Item PART_A = new Item("part A");

    /** The hardener. */
    public static final Item PART_B = new Item("part B");

    /** Returns the item of that name: the two parts are the same objects each time. */
    public static Item of(String id) {
        return id.equals(PART_A.id) ? PART_A : id.equals(PART_B.id) ? PART_B : new Item(id);
    }

    /** Returns whether this is a pigment and not a part of the resin. */
    public boolean isPigment() {
        return !equals(PART_A) && !equals(PART_B);
    }

    /** By hand: the one that a record is given is linked when it is first called, which a short command waits for. */
    @Override
    public int hashCode() {
        return id.hashCode();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Item item && item.id.equals(id);
    }

    @Override
    public String toString() {
        return id;
    }
}
