package pigmentbook.book;

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

    @Override
    public String toString() {
        return id;
    }
}
