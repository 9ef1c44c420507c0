package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;

/**
 * How much mixed resin each cup of each layer takes.
 *
 * @param targetMl what is to be poured, or null for a request by mass
 * @param soakMl what bare wood drinks of it, in mL
 * @param layers the layers
 * @param limitedBy for a request by the shelf: what runs out first; else null
 * @param alsoLimitedBy for a request by the shelf: what would run out next; else null
 */
record Amounts(
        @Nullable Double targetMl,
        double soakMl,
        List<InLayer> layers,
        @Nullable Item limitedBy,
        @Nullable Item alsoLimitedBy) {

    /** More cups than this in one layer is a slip of the pen. */
    private static final int MOST_CUPS = 1000;

    /** A cup that is over by no more than this, as a fraction, is a rounding of the last bit and not another cup. */
    private static final double LAST_BITS = 1e-12;

    /**
     * One layer's cups, all equal.
     *
     * @param targetMl what is to be poured, or null for a request by mass
     * @param cups how many cups
     * @param resinGrams mixed resin in each, residue included
     */
    record InLayer(@Nullable Double targetMl, int cups, double resinGrams) {}

    /**
     * What bounds a cup.
     *
     * @param cup the most weighed into a cup, or null
     * @param residue what stays in it, 0 for a request by mass
     */
    record CupRule(@Nullable Mass cup, Mass residue) {}

    /**
     * Works the amounts out.
     *
     * @param stockGrams what is left of each item, asked only for a request by the shelf
     * @throws MixRefusedException if the request can't be met
     */
    static Amounts of(
            MixRequest request,
            Resin resin,
            Slots slots,
            Proportions proportions,
            Percent allowance,
            CupRule rule,
            Map<Item, Double> stockGrams) {
        Double roomMl = slots.roomMl();
        if (roomMl == null) {
            return byMass(request, resin, slots, proportions, rule, stockGrams);
        }
        Percent shrinks = resin.shrinkage();
        double shrinkage = shrinks == null ? 0 : shrinks.fraction();
        if (shrinks != null && shrinkage >= 1) {
            throw new MixRefusedException("The resin " + resin.id() + " shrinks by \"" + shrinks.written()
                    + "\"; a shrinkage below 100 % is expected.");
        }
        double mlPerGram = proportions.mlPerGram(resin);
        double soakMl = soakMl(slots, resin, proportions);
        double targetMl = (roomMl / (1 - shrinkage) + soakMl) * (1 + allowance.fraction());
        List<InLayer> layers = new ArrayList<>(slots.slots().size());
        for (Slots.Slot slot : slots.slots()) {
            double layerMl = targetMl * slot.share();
            layers.add(cups(layerMl, layerMl / mlPerGram, resin, proportions, rule));
        }
        return new Amounts(targetMl, soakMl, layers, null, null);
    }

    private static double soakMl(Slots slots, Resin resin, Proportions proportions) {
        if (slots.mold() == null
                || slots.mold().bareWood() == null
                || resin.soak() == null
                || proportions.mixedDensity() == null) {
            return 0;
        }
        double squareMeters = slots.mold().bareWood().mm2() / 1e6 * slots.mold().count();
        return squareMeters * resin.soak().gramsPerM2() / proportions.mixedDensity();
    }

    private static Amounts byMass(
            MixRequest request,
            Resin resin,
            Slots slots,
            Proportions proportions,
            CupRule rule,
            Map<Item, Double> stockGrams) {
        Item limitedBy = null;
        Item next = null;
        double resinGrams;
        if (request.size() instanceof MixRequest.ForTotal wanted) {
            resinGrams = above0(wanted.mass(), "total") / proportions.total();
        } else if (request.size() instanceof MixRequest.ForResin wanted) {
            resinGrams = above0(wanted.mass(), "mass of mixed resin");
        } else if (request.size() instanceof MixRequest.ForItem wanted) {
            resinGrams = above0(wanted.mass(), "mass of " + wanted.item()) / shareOf(wanted.item(), proportions);
        } else {
            resinGrams = Double.POSITIVE_INFINITY;
            double second = Double.POSITIVE_INFINITY;
            for (Item item : proportions.items()) {
                double share = proportions.of(item);
                if (share <= 0) {
                    continue;
                }
                double makes = stockGrams.getOrDefault(item, 0.0) / share;
                if (makes < resinGrams) {
                    second = resinGrams;
                    next = limitedBy;
                    resinGrams = makes;
                    limitedBy = item;
                } else if (makes < second) {
                    second = makes;
                    next = item;
                }
            }
            if (!(resinGrams > 0)) {
                throw new MixRefusedException("The shelf has no " + limitedBy
                        + " that is still good, so nothing can be mixed from it. Name a mass instead, or enter a lot.");
            }
        }
        List<InLayer> layers = new ArrayList<>(slots.slots().size());
        for (Slots.Slot slot : slots.slots()) {
            layers.add(cups(null, resinGrams * slot.share(), resin, proportions, rule));
        }
        return new Amounts(null, 0, layers, limitedBy, next);
    }

    private static double above0(Mass mass, String what) {
        if (!(mass.grams() > 0)) {
            throw new MixRefusedException(
                    "A " + what + " of \"" + mass.written() + "\" makes nothing; give one above zero.");
        }
        return mass.grams();
    }

    private static double shareOf(Item item, Proportions proportions) {
        if (!proportions.items().contains(item)) {
            throw new MixRefusedException("The recipe has no \"" + item + "\". It has "
                    + String.join(
                            ", ", proportions.items().stream().map(Item::id).toList()) + ".");
        }
        double share = proportions.of(item);
        if (!(share > 0)) {
            throw new MixRefusedException(
                    "The recipe takes none of " + item + ", so its mass can't lead. Let another item lead.");
        }
        return share;
    }

    /** Returns the fewest equal cups that neither pass the cup's size nor the resin's largest batch. */
    private static InLayer cups(
            @Nullable Double targetMl, double resinGrams, Resin resin, Proportions proportions, CupRule rule) {
        double residue = rule.residue().grams();
        double residueResin = residue / proportions.total();
        double count = 1;
        if (rule.cup() != null) {
            double net = rule.cup().grams() - residue;
            if (!(net > 0)) {
                throw new MixRefusedException(
                        "A residue of \"" + rule.residue().written() + "\" does not fit a cup of \""
                                + rule.cup().written() + "\". Give a bigger cup or a smaller residue.");
            }
            count = fewest(resinGrams * proportions.total(), net);
        }
        if (resin.batchMost() != null) {
            double net = resin.batchMost().grams() - residueResin;
            if (!(net > 0)) {
                throw new MixRefusedException("A residue of \"" + rule.residue().written()
                        + "\" is all that the resin's largest batch of \""
                        + resin.batchMost().written()
                        + "\" allows. Check both figures.");
            }
            count = Math.max(count, fewest(resinGrams, net));
        }
        if (count > MOST_CUPS) {
            throw new MixRefusedException("One layer would take " + Shown.significant(count) + " cups; " + MOST_CUPS
                    + " is the most. Check the size of the mold, the cup and the resin's largest batch.");
        }
        return new InLayer(targetMl, (int) count, resinGrams / count + residueResin);
    }

    private static double fewest(double grams, double mostGrams) {
        return Math.max(1, Math.ceil(grams / mostGrams * (1 - LAST_BITS)));
    }

    /** Returns the mixed resin of all cups, residue included, in g. */
    double resinGrams() {
        double sum = 0;
        for (InLayer layer : layers) {
            sum += layer.cups() * layer.resinGrams();
        }
        return sum;
    }
}
