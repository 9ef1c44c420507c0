package pigmentbook.mix;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.NearIds;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Density;

/** Chooses the lots that a mix is weighed from. */
final class Lots {

    /** Stock that is short by no more than this fraction is a rounding of the last bits. */
    private static final double LAST_BITS = 1e-9;

    private static final Comparator<Lot> FIRST_TO_EXPIRE = Comparator.comparing(
                    Lot::expires, Comparator.nullsLast(Comparator.<LocalDate>naturalOrder()))
            .thenComparing(Lot::id);

    private Lots() {}

    /**
     * What an item is taken from.
     *
     * @param item the item
     * @param lots the lots in the order they are used, with what each gives, in g; empty where there is none
     * @param needGrams what the whole mix takes, in g
     * @param shortGrams what all of them together lack, 0 for nothing
     * @param asked whether a person named the lot
     */
    record Choice(Item item, List<Taken> lots, double needGrams, double shortGrams, boolean asked) {

        /** Returns what no lot gives, in g. */
        double missingGrams() {
            double missing = needGrams;
            for (Taken taken : lots) {
                missing -= taken.grams();
            }
            return missing > needGrams * LAST_BITS ? missing : 0;
        }
    }

    /**
     * What one lot gives.
     *
     * @param lot the lot
     * @param grams how much of it, in g
     * @param leftGrams what it had, in g
     */
    record Taken(Lot lot, double grams, double leftGrams) {}

    /**
     * Returns the lots that a person named, by item.
     *
     * @throws MixRefusedException if a lot is unknown, belongs to nothing in the mix, or two are named for one item
     */
    static Map<Item, Lot> named(Book book, Resin resin, List<Item> items, List<String> lotIds) {
        Map<Item, Lot> named = new HashMap<>();
        for (String id : lotIds) {
            Lot lot = book.lots().get(id);
            if (lot == null) {
                throw new MixRefusedException("There is no lot \"" + id + "\" on the shelf."
                        + NearIds.hint(id, book.lots().keySet()));
            }
            boolean ofResin = lot.part() != null && lot.of().equals(resin.id());
            if (!ofResin && (lot.part() != null || !items.contains(lot.item()))) {
                throw new MixRefusedException("The lot " + id + " is " + lot.of()
                        + (lot.part() == null ? "" : ", part " + lot.part())
                        + ", which this recipe does not take. Name a lot of " + resin.id()
                        + " or of one of its pigments.");
            }
            Lot other = named.put(lot.item(), lot);
            if (other != null && !other.id().equals(id)) {
                throw new MixRefusedException("The lots " + other.id() + " and " + id + " are both for " + lot.item()
                        + "; name one of them.");
            }
        }
        return named;
    }

    /** Returns the lots of an item that are good on the day, first to expire first, ties by id. */
    static List<Lot> good(Book book, Resin resin, Item item, LocalDate on) {
        List<Lot> good = new ArrayList<>();
        for (Lot lot : book.lotsOf(resin.id(), item)) {
            if (lot.isGoodOn(on)) {
                good.add(lot);
            }
        }
        good.sort(FIRST_TO_EXPIRE);
        return good;
    }

    /** Returns what is left of an item in the lots that may be used: the named one alone, else all good ones, in g. */
    static double stock(Book book, Resin resin, Item item, @Nullable Lot named, LocalDate on) {
        double sum = 0;
        for (Lot lot : named != null ? List.of(named) : good(book, resin, item, on)) {
            sum += Math.max(0, book.leftGrams(lot));
        }
        return sum;
    }

    /**
     * Chooses: the first to expire that is good and has enough; else several, first to expire first.
     *
     * @param needGrams what the whole mix takes
     */
    static Choice choose(Book book, Resin resin, Item item, @Nullable Lot named, double needGrams, LocalDate on) {
        if (named != null) {
            double left = book.leftGrams(named);
            return new Choice(
                    item, List.of(new Taken(named, needGrams, left)), needGrams, lacking(needGrams, left), true);
        }
        List<Lot> good = good(book, resin, item, on);
        double[] left = new double[good.size()];
        for (int i = 0; i < left.length; i++) {
            left[i] = book.leftGrams(good.get(i));
            if (lacking(needGrams, left[i]) == 0) {
                return new Choice(item, List.of(new Taken(good.get(i), needGrams, left[i])), needGrams, 0, false);
            }
        }
        List<Taken> taken = new ArrayList<>();
        double open = needGrams;
        for (int i = 0; i < left.length && open > 0; i++) {
            if (left[i] > 0) {
                double grams = Math.min(left[i], open);
                taken.add(new Taken(good.get(i), grams, left[i]));
                open -= grams;
            }
        }
        if (taken.isEmpty() && !good.isEmpty()) {
            taken.add(new Taken(good.get(0), 0, left[0]));
        }
        return new Choice(item, taken, needGrams, open > needGrams * LAST_BITS ? open : 0, false);
    }

    /** Returns the same lots for another need: the first ones give all they have, the last one the rest. */
    static Choice forNeed(Choice choice, double needGrams) {
        int last = choice.lots().size() - 1;
        if (last < 0) {
            return new Choice(choice.item(), List.of(), needGrams, needGrams, choice.asked());
        }
        List<Taken> taken = new ArrayList<>(choice.lots().size());
        double open = needGrams;
        double stock = 0;
        for (int i = 0; i <= last; i++) {
            Taken before = choice.lots().get(i);
            double most = choice.asked() || (i == last && choice.shortGrams() == 0)
                    ? open
                    : Math.max(0, Math.min(before.leftGrams(), open));
            taken.add(new Taken(before.lot(), most, before.leftGrams()));
            open -= most;
            stock += Math.max(0, before.leftGrams());
        }
        return new Choice(choice.item(), taken, needGrams, lacking(needGrams, stock), choice.asked());
    }

    /**
     * Returns what the item is like in the lots taken: their mass-weighted strength and density.
     *
     * @param product the product's density, for a lot that states none of its own, or null
     */
    static Proportions.Figures figures(Choice choice, @Nullable Density product) {
        if (choice.lots().isEmpty()) {
            return new Proportions.Figures(product == null ? null : (Double) product.gramsPerMl(), 1);
        }
        double grams = 0;
        double strength = 0;
        double ml = 0;
        boolean dense = true;
        for (Taken taken : choice.lots()) {
            double weight = choice.lots().size() == 1 ? 1 : taken.grams();
            Density density = taken.lot().density() != null ? taken.lot().density() : product;
            grams += weight;
            strength += weight * taken.lot().strengthFactor();
            dense &= density != null;
            ml += density == null ? 0 : weight / density.gramsPerMl();
        }
        return new Proportions.Figures(dense ? (Double) (grams / ml) : null, strength / grams);
    }

    private static double lacking(double needGrams, double leftGrams) {
        double lacks = needGrams - Math.max(0, leftGrams);
        return lacks > needGrams * LAST_BITS ? lacks : 0;
    }
}
