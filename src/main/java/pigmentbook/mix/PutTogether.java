package pigmentbook.mix;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Money;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;

/**
 * Two lots of one product stirred into a new one, so that one job has one colour. Strength and price follow the shares
 * by mass, the density that of the volumes together, and it is good as long as the shorter-lived of the two.
 */
public final class PutTogether {

    private PutTogether() {}

    /**
     * Returns the new lot, with its shares.
     *
     * @param book the book, for a density that only the product states
     * @param id the new lot's label
     * @param day the day it is put together
     * @param first one lot's label and what is taken of it
     * @param second the other's
     * @throws MixRefusedException if the two are one lot or of two products, or nothing is taken of one
     */
    public static Lot of(Book book, String id, LocalDate day, Lot.Share first, Lot.Share second) {
        Lot a = lot(book, first);
        Lot b = lot(book, second);
        if (a.id().equals(b.id()) || !a.of().equals(b.of()) || a.part() != b.part()) {
            throw new MixRefusedException("Two different lots of one product are put together; choose another one than "
                    + b.id() + ". Nothing was changed.");
        }
        if (!(first.mass().grams() > 0) || !(second.mass().grams() > 0)) {
            throw new MixRefusedException("Something of each lot goes in; type the grams of both.");
        }
        double sum = first.mass().grams() + second.mass().grams();
        double ofA = first.mass().grams() / sum;
        double ofB = second.mass().grams() / sum;
        double strength = ofA * a.strengthFactor() + ofB * b.strengthFactor();
        return new Lot(
                id,
                a.of(),
                a.part(),
                "",
                day,
                null,
                Stream.of(a, b)
                        .map(Lot::expires)
                        .filter(Objects::nonNull)
                        .min(LocalDate::compareTo)
                        .orElse(null),
                Mass.ofGrams(sum),
                price(a, first, b, second),
                density(book, a, ofA, b, ofB),
                a.strength() == null && b.strength() == null
                        ? null
                        : Percent.parse(Numbers.fixed(strength * 100, 2) + " %"),
                null,
                List.of(),
                List.of(first, second));
    }

    private static Lot lot(Book book, Lot.Share share) {
        Lot lot = book.lots().get(share.lotId());
        if (lot == null) {
            throw new MixRefusedException("There is no lot " + share.lotId() + " on the shelf.");
        }
        return lot;
    }

    /** What was paid for the two shares; unknown as soon as one of them is, or in two currencies. */
    private static @Nullable Money price(Lot a, Lot.Share first, Lot b, Lot.Share second) {
        Money paidA = a.price();
        Money paidB = b.price();
        if (paidA == null
                || paidB == null
                || !paidA.currency().equals(paidB.currency())
                || !(a.quantity().grams() > 0)
                || !(b.quantity().grams() > 0)) {
            return null;
        }
        double paid = first.mass().grams()
                        / a.quantity().grams()
                        * paidA.amount().doubleValue()
                + second.mass().grams() / b.quantity().grams() * paidB.amount().doubleValue();
        return new Money(BigDecimal.valueOf(paid).setScale(4, RoundingMode.HALF_EVEN), paidA.currency());
    }

    /** Needed only where one of the lots differs from what the product states. */
    private static @Nullable Density density(Book book, Lot a, double ofA, Lot b, double ofB) {
        Density densityA = density(book, a);
        Density densityB = density(book, b);
        if ((a.density() == null && b.density() == null) || densityA == null || densityB == null) {
            return null;
        }
        double gramsPerMl = 1 / (ofA / densityA.gramsPerMl() + ofB / densityB.gramsPerMl());
        return Density.parse(Numbers.fixed(gramsPerMl, 4) + " g/mL");
    }

    private static @Nullable Density density(Book book, Lot lot) {
        return lot.density() != null ? lot.density() : book.productDensity(lot.of(), lot.item());
    }
}
