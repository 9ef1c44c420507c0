package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.book.Settings;

/**
 * What to do where a pigment's amount is too small for its scale. The least that a scale with steps of d weighs to a
 * tolerance p is 2 × 0.41 d / p, 41 steps for 2 %: the relation of USP 41 (repeatability no better than 0.41 d, two
 * standard deviations), at another tolerance.
 */
public final class Offers {

    /** Steps for 2 %. */
    private static final double STEPS_FOR_PIGMENT = 2 * 0.41 / WeighTable.PIGMENT_TOLERANCE;

    /** Steps for 1 %. */
    private static final double STEPS_FOR_PART = 2 * 0.41 / WeighTable.PART_TOLERANCE;

    private static final double LAST_BITS = 1e-9;

    private Offers() {}

    /** Returns the least of a pigment that a scale weighs to 2 %, in g. */
    public static double leastPigmentGrams(Settings.Scale scale) {
        return STEPS_FOR_PIGMENT * scale.step().grams();
    }

    /** Returns the least of a part that a scale weighs to 1 %, in g. */
    static double leastPartGrams(Settings.Scale scale) {
        return STEPS_FOR_PART * scale.step().grams();
    }

    /** Returns whether there is something to weigh and less of it than the least. */
    static boolean isBelow(double grams, double leastGrams) {
        return grams > 0 && grams < leastGrams * (1 - LAST_BITS);
    }

    static List<Mix.Offer> of(Book book, Mix mix) {
        List<Mix.Offer> offers = new ArrayList<>();
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Weighing weighing : layer.cups().get(0).items()) {
                double least = leastPigmentGrams(weighing.scale());
                if (weighing.item().isPigment() && isBelow(weighing.exactGrams(), least)) {
                    offers.add(new Mix.Offer(
                            layer.number(),
                            weighing.item(),
                            weighing.name(),
                            weighing.exactGrams(),
                            least,
                            least / weighing.exactGrams(),
                            weighing.exactGrams() / STEPS_FOR_PIGMENT,
                            concentrate(book, weighing.item(), weighing.exactGrams())));
                }
            }
        }
        return offers;
    }

    /** Returns the same amount from the first concentrate on the shelf that holds the pigment. */
    private static Mix.@Nullable Concentrate concentrate(Book book, Item item, double grams) {
        for (Pigment each : book.pigments().values()) {
            Pigment.Contains contains = each.contains();
            if (contains != null && contains.pigmentId().equals(item.id())) {
                double concentrateGrams = grams / contains.share().fraction();
                Pigment.Carrier carrier = each.carrier();
                double carried =
                        carrier != null && carrier.isPartA() ? carrier.share().fraction() : 0;
                return new Mix.Concentrate(each.id(), each.name(), concentrateGrams, concentrateGrams * carried);
            }
        }
        return null;
    }
}
