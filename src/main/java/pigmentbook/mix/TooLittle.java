package pigmentbook.mix;

/** What to do about an amount that its scale can't weigh well: pigments to 2 %, parts to 1 %. */
public final class TooLittle {

    static final String CODE = "too-little-to-weigh";

    private TooLittle() {}

    /** Returns what to do about an item of a layer's cups, in words; empty where its scale weighs it well. */
    public static String of(Mix mix, Mix.Layer layer, Mix.Weighing weighing) {
        if (isPart(weighing)) {
            return ofPart(weighing, "");
        }
        return mix.offers().stream()
                .filter(offer ->
                        offer.layer() == layer.number() && offer.pigment().equals(weighing.item()))
                .map(offer -> ofPigment(offer, ""))
                .findFirst()
                .orElse("");
    }

    static boolean isPart(Mix.Weighing weighing) {
        return !weighing.item().isPigment()
                && Offers.isBelow(weighing.exactGrams(), Offers.leastPartGrams(weighing.scale()));
    }

    static String ofPart(Mix.Weighing weighing, String where) {
        return Shown.grams(weighing.exactGrams()) + " of " + weighing.item() + where + " is less than the "
                + Shown.grams(Offers.leastPartGrams(weighing.scale()))
                + " its scale weighs to 1 %; use a finer scale or a bigger batch.";
    }

    static String ofPigment(Mix.Offer offer, String where) {
        Mix.Concentrate concentrate = offer.concentrate();
        String instead = concentrate == null
                ? "make a concentrate in part A, "
                : "take " + Shown.grams(concentrate.grams()) + " of " + concentrate.name() + " instead"
                        + (concentrate.plainPartASaved() > 0
                                ? " (and " + Shown.grams(concentrate.plainPartASaved()) + " less part A), "
                                : ", ");
        return Shown.grams(offer.grams()) + " of " + offer.name() + where + " is less than the "
                + Shown.grams(offer.leastGrams()) + " its scale weighs to 2 %: " + instead + "mix "
                + Shown.significant(offer.batchFactor()) + " times as much, or use a scale with steps of "
                + Shown.grams(offer.finerStepGrams()) + ".";
    }
}
