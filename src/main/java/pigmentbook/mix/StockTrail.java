package pigmentbook.mix;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.Pour;

/** How a lot's stock came about, step by step, oldest first. */
public final class StockTrail {

    private StockTrail() {}

    /**
     * A step.
     *
     * @param date the day, or null where nobody noted it
     * @param pourId the pour that took from it, or null
     * @param what what happened, in words
     * @param changeGrams what it changed, in g
     * @param leftGrams what was left then, in g
     */
    public record Step(
            @Nullable LocalDate date, @Nullable String pourId, String what, double changeGrams, double leftGrams) {}

    /** Returns the trail; its last step leaves what {@link Book#leftGrams} says. */
    public static List<Step> of(Book book, Lot lot) {
        List<Step> steps = new ArrayList<>();
        for (String pourId : book.stockOf(lot).pourIds()) {
            Pour pour = book.pours().get(pourId);
            if (pour == null) {
                continue;
            }
            LocalDate day = pour.started() == null ? null : pour.started().toLocalDate();
            double poured = 0;
            for (Pour.Layer layer : pour.layers()) {
                for (Pour.Cup cup : layer.cups()) {
                    poured += grams(cup.weighed(), lot);
                }
            }
            double thrown = grams(pour.thrown(), lot);
            if (poured != 0) {
                steps.add(new Step(day, pourId, "poured", -poured, 0));
            }
            if (thrown != 0) {
                steps.add(new Step(day, pourId, "thrown away", -thrown, 0));
            }
        }
        for (Lot.Correction correction : lot.corrections()) {
            steps.add(new Step(
                    correction.date(),
                    null,
                    "corrected: " + correction.why(),
                    correction.change().grams(),
                    0));
        }
        steps.sort(Comparator.comparing(Step::date, Comparator.nullsFirst(Comparator.naturalOrder())));
        steps.add(0, new Step(lot.received(), null, "received", lot.quantity().grams(), 0));
        List<Step> trail = new ArrayList<>(steps.size());
        double left = 0;
        for (Step step : steps) {
            left += step.changeGrams();
            trail.add(new Step(step.date(), step.pourId(), step.what(), step.changeGrams(), left));
        }
        return trail;
    }

    private static double grams(List<Pour.Weighed> weighed, Lot lot) {
        double grams = 0;
        for (Pour.Weighed each : weighed) {
            grams += lot.id().equals(each.lot()) ? each.grams() : 0;
        }
        return grams;
    }
}
