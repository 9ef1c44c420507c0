package pigmentbook.mix;

import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.quantity.Numbers;

/** What to look at in the lots that were weighed from, beside those that the plan counts on. */
public final class WeighedLots {

    /** Binary sums of what a lot gave differ in their last bits only. */
    private static final double LAST_BITS_GRAMS = 1e-6;

    private WeighedLots() {}

    /** Returns what it means that a lot of another strength was weighed. */
    public static String anotherStrength(Lot planned, Lot weighed) {
        return "The lot " + weighed.id() + " is " + weighed.strengthWritten() + " strong, and the target counts on "
                + planned.id() + " with " + planned.strengthWritten()
                + ": the colour differs unless the amount did too.";
    }

    /** Returns whether more was weighed from a lot than the book says was left. */
    public static boolean isMoreThanLeft(Book book, Lot lot, double grams) {
        return grams > book.leftGrams(lot) + LAST_BITS_GRAMS;
    }

    /** Returns what to do about it. */
    public static String moreThanLeft(Book book, Lot lot, double grams) {
        return "This takes " + Numbers.fixed(grams, 2) + " g of the lot " + lot.id() + ", and "
                + Numbers.fixed(book.leftGrams(lot), 2)
                + " g was left. If another lot went in too, write it in the cups it went into.";
    }
}
