package pigmentbook.mix;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.quantity.Money;

/** What a mix costs: grams × price / received quantity, over the lots it is taken from. */
final class Costs {

    private Costs() {}

    /** Returns the cost of each item whose lots state a price. */
    static Map<Item, Mix.Cost> ofItems(Map<Item, Lots.Choice> lots) {
        Map<Item, Mix.Cost> costs = new LinkedHashMap<>();
        lots.forEach((item, choice) -> {
            Mix.Cost cost = of(choice);
            if (cost != null) {
                costs.put(item, cost);
            }
        });
        return costs;
    }

    /** Returns the sum; null if a price is missing or currencies differ. */
    static Mix.@Nullable Cost ofAll(Map<Item, Lots.Choice> lots) {
        double amount = 0;
        String currency = null;
        for (Lots.Choice choice : lots.values()) {
            if (choice.needGrams() == 0) {
                continue;
            }
            Mix.Cost cost = of(choice);
            if (cost == null || (currency != null && !currency.equals(cost.currency()))) {
                return null;
            }
            currency = cost.currency();
            amount += cost.amount();
        }
        return currency == null ? null : new Mix.Cost(amount, currency);
    }

    private static Mix.@Nullable Cost of(Lots.Choice choice) {
        double amount = 0;
        String currency = null;
        for (int i = 0; i < choice.lots().size(); i++) {
            Lots.Taken taken = choice.lots().get(i);
            // What the shelf lacks has to be bought again: it counts at the last lot's price.
            boolean last = i == choice.lots().size() - 1;
            double grams = taken.grams() + (last ? choice.missingGrams() : 0);
            Money price = taken.lot().price();
            if (grams == 0) {
                continue;
            }
            if (price == null
                    || !(taken.lot().quantity().grams() > 0)
                    || (currency != null && !currency.equals(price.currency()))) {
                return null;
            }
            currency = price.currency();
            amount += grams
                    * price.amount().doubleValue()
                    / taken.lot().quantity().grams();
        }
        return currency == null ? null : new Mix.Cost(amount, currency);
    }
}
