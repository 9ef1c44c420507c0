package pigmentbook.mix;

import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;

/** What to beware of in the lots that a mix is weighed from. */
final class LotCautions {

    /** A hardener open for longer than this may have darkened: common practice, no source. */
    private static final long OLD_HARDENER_DAYS = 180;

    /** L* from which a colour counts as pale: common practice, no source. */
    private static final double PALE_FROM = 75;

    /** A lot with less than this share left after the mix is nearly empty. */
    private static final double NEARLY_EMPTY = 0.1;

    private final Mix mix;
    private final List<Caution> found;

    LotCautions(Mix mix, List<Caution> found) {
        this.mix = mix;
        this.found = found;
    }

    void of(Map<Item, Lots.Choice> lots) {
        for (Lots.Choice choice : lots.values()) {
            if (choice.needGrams() > 0) {
                stock(choice);
                split(choice);
                choice.lots().forEach(this::lot);
            }
        }
        Lots.Choice hardener = lots.get(Item.PART_B);
        if (hardener != null && isPale()) {
            hardener.lots().forEach(this::oldHardener);
        }
    }

    private void add(String code, Caution.Severity severity, String text) {
        found.add(new Caution(code, severity, text, Caution.COMMON_PRACTICE));
    }

    private void stock(Lots.Choice choice) {
        if (choice.lots().isEmpty()) {
            add(
                    "no-lot",
                    Caution.Severity.WARN,
                    "The shelf has no lot of " + name(choice.item())
                            + " that is still good; write down which one is used.");
        } else if (choice.shortGrams() > 0) {
            add(
                    "stock-short",
                    Caution.Severity.WARN,
                    "The mix takes " + Shown.grams(choice.needGrams()) + " of " + name(choice.item()) + " and the "
                            + (choice.asked() ? "lot" : "shelf") + " has "
                            + Shown.grams(choice.needGrams() - choice.shortGrams()) + ": "
                            + Shown.grams(choice.shortGrams()) + " short.");
        }
    }

    private void split(Lots.Choice choice) {
        if (choice.lots().size() > 1) {
            add(
                    "lot-split",
                    Caution.Severity.WARN,
                    choice.lots().size() + " lots of " + name(choice.item()) + ": "
                            + choice.lots().stream()
                                    .map(taken -> Shown.grams(taken.grams()) + " of "
                                            + taken.lot().id())
                                    .collect(Collectors.joining(", "))
                            + "; put them together and stir before weighing, so that every cup matches.");
        }
    }

    private void lot(Lots.Taken taken) {
        Lot lot = taken.lot();
        if (!lot.isGoodOn(mix.on())) {
            add(
                    "lot-expired",
                    Caution.Severity.WARN,
                    "The lot " + lot.id() + " was good through " + lot.expires() + "; try a little of it first.");
        }
        double after = taken.leftGrams() - taken.grams();
        if (after >= 0 && after < NEARLY_EMPTY * lot.quantity().grams() && taken.grams() > 0) {
            add(
                    "lot-nearly-empty",
                    Caution.Severity.NOTE,
                    "After this mix the lot " + lot.id() + " has " + Shown.grams(after) + " left.");
        }
    }

    private void oldHardener(Lots.Taken taken) {
        Lot lot = taken.lot();
        if (lot.opened() == null) {
            return;
        }
        long days = ChronoUnit.DAYS.between(lot.opened(), mix.on());
        if (days > OLD_HARDENER_DAYS) {
            add(
                    "old-hardener",
                    Caution.Severity.WARN,
                    "The hardener " + lot.id() + " has been open for " + days
                            + " days; hardener darkens with age and a pale colour shows it.");
        }
    }

    private boolean isPale() {
        Mix.Look look = mix.look();
        return mix.revision().pigments().isEmpty()
                || mix.recipe().tags().contains("pale")
                || (look != null && look.lab().l() >= PALE_FROM);
    }

    private String name(Item item) {
        for (Mix.PigmentShare pigment : mix.shares().pigments()) {
            if (pigment.item().equals(item)) {
                return pigment.name();
            }
        }
        return item.id();
    }
}
