package pigmentbook.mix;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;
import pigmentbook.quantity.Duration;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.WeighingStep;

/** Works a request out into a mix. */
public final class Mixer {

    /** Working time halves for each 10 °C above the temperature it is stated for: common practice, no source. */
    private static final double HALVES_PER_CELSIUS = 10;

    private Mixer() {}

    /**
     * Works a request out.
     *
     * <p>Lots are chosen on the products' figures; then the mix is worked out once more with the lots' own strength and
     * density.
     *
     * @param book the book
     * @param recipe the recipe
     * @param revision the revision to mix
     * @param request what is wanted
     * @return the mix
     * @throws MixRefusedException if the request can't be met
     */
    public static Mix mix(Book book, Recipe recipe, Recipe.Revision revision, MixRequest request) {
        Resin resin = book.resins().get(revision.resinId());
        if (resin == null) {
            throw new MixRefusedException("Revision " + revision.number() + " of " + recipe.id() + " takes the resin \""
                    + revision.resinId() + "\", which is not on the shelf."
                    + NearIds.hint(revision.resinId(), book.resins().keySet()));
        }
        Map<Item, Pigment> pigments = pigments(book, recipe, revision);
        Proportions asSold = Proportions.of(resin, revision, pigments, Map.of());
        List<Item> items = asSold.items();
        Map<Item, pigmentbook.book.Lot> named = Lots.named(book, resin, items, request.lotIds());
        Slots slots = Slots.of(book, resin, request);
        Settings settings = book.settings();
        Percent allowance = request.allowance() != null ? request.allowance() : settings.allowance();
        Mass residue = slots.roomMl() == null
                ? Mass.ofGrams(0)
                : request.cupResidue() != null ? request.cupResidue() : settings.cupResidue();
        Mass cupMost = request.cup() != null ? request.cup() : settings.cup();
        Amounts.CupRule rule = new Amounts.CupRule(cupMost, residue);
        Map<Item, Double> stock = new HashMap<>();
        if (request.size() instanceof MixRequest.ForShelf) {
            for (Item item : items) {
                stock.put(item, Lots.stock(book, resin, item, named.get(item), request.on()));
            }
        }

        double resinAsSold = Amounts.of(request, resin, slots, asSold, allowance, rule, stock)
                .resinGrams();
        Map<Item, Lots.Choice> chosen = new LinkedHashMap<>();
        Map<Item, Proportions.Figures> figures = new HashMap<>();
        for (Item item : items) {
            Lots.Choice choice =
                    Lots.choose(book, resin, item, named.get(item), asSold.of(item) * resinAsSold, request.on());
            chosen.put(item, choice);
            figures.put(item, Lots.figures(choice, book.productDensity(resin.id(), item)));
        }
        Proportions proportions = Proportions.of(resin, revision, pigments, figures);
        Amounts amounts = Amounts.of(request, resin, slots, proportions, allowance, rule, stock);
        double resinGrams = amounts.resinGrams();
        chosen.replaceAll((item, choice) -> Lots.forNeed(choice, proportions.of(item) * resinGrams));

        Mix.Scales scales = scales(settings, request);
        List<Mix.Layer> layers =
                layers(slots, amounts, resin, new WeighTable(resin, proportions, scales, pigments), chosen);
        double roomCelsius =
                (request.roomTemperature() != null ? request.roomTemperature() : settings.roomTemperature()).celsius();
        Double workingTime = workingTimeMin(resin, roomCelsius);
        Mix bare = new Mix(
                recipe,
                revision,
                resin,
                slots.mold(),
                scales,
                request.on(),
                slots.roomMl(),
                amounts.targetMl(),
                proportions.mixedDensity(),
                amounts.limitedBy(),
                amounts.alsoLimitedBy(),
                new Mix.Shares(proportions.partA(), proportions.partB(), proportions.pigments()),
                totals(proportions, resinGrams, chosen),
                layers,
                Times.of(resin, layers, workingTime),
                workingTime,
                roomCelsius,
                look(book, recipe),
                new Mix.Inputs(
                        slots.roomMl() == null ? 0 : allowance.fraction(),
                        resin.shrinkage() == null ? 0 : resin.shrinkage().fraction(),
                        amounts.soakMl(),
                        residue.grams(),
                        cupMost == null ? null : (Double) cupMost.grams(),
                        proportions.densityA(),
                        proportions.densityB()),
                List.of(),
                List.of(),
                null);
        List<Mix.Offer> offers = Offers.of(book, bare);
        return bare.with(offers, Cautions.of(book, bare, offers, pigments, chosen, request));
    }

    private static Map<Item, Pigment> pigments(Book book, Recipe recipe, Recipe.Revision revision) {
        Map<Item, Pigment> pigments = new LinkedHashMap<>();
        for (Recipe.PigmentLoading loading : revision.pigments()) {
            Pigment pigment = book.pigments().get(loading.pigmentId());
            if (pigment == null) {
                throw new MixRefusedException("Revision " + revision.number() + " of " + recipe.id()
                        + " takes the pigment \"" + loading.pigmentId() + "\", which is not on the shelf."
                        + NearIds.hint(loading.pigmentId(), book.pigments().keySet()));
            }
            pigments.put(Item.of(loading.pigmentId()), pigment);
        }
        return pigments;
    }

    private static Mix.Scales scales(Settings settings, MixRequest request) {
        return new Mix.Scales(
                withStep(settings.resinScale(), request.step()),
                withStep(settings.fineScale(), request.fineStep()),
                settings.cupTare() == null ? 0 : settings.cupTare().grams());
    }

    private static Settings.Scale withStep(Settings.Scale scale, @Nullable WeighingStep step) {
        return step == null ? scale : new Settings.Scale(step, scale.most());
    }

    private static List<Mix.Layer> layers(
            Slots slots, Amounts amounts, Resin resin, WeighTable table, Map<Item, Lots.Choice> lots) {
        Duration recoat = resin.recoat().least();
        double waitHours = recoat == null ? 0 : recoat.minutes() / 60;
        List<Mix.Layer> layers = new ArrayList<>(slots.slots().size());
        for (int i = 0; i < slots.slots().size(); i++) {
            Slots.Slot slot = slots.slots().get(i);
            Amounts.InLayer amount = amounts.layers().get(i);
            List<Mix.Cup> cups = new ArrayList<>(amount.cups());
            Mix.Cup first = table.cup(1, amount.resinGrams(), lots);
            for (int number = 1; number <= amount.cups(); number++) {
                cups.add(new Mix.Cup(number, first.totalGrams(), first.items(), first.achieved()));
            }
            layers.add(new Mix.Layer(
                    i + 1, slot.fromMm(), slot.toMm(), slot.roomMl(), amount.targetMl(), i * waitHours, cups));
        }
        return layers;
    }

    private static Mix.Totals totals(Proportions proportions, double resinGrams, Map<Item, Lots.Choice> lots) {
        Map<Item, Double> pigmentGrams = new LinkedHashMap<>();
        for (Mix.PigmentShare pigment : proportions.pigments()) {
            pigmentGrams.put(pigment.item(), pigment.perGramOfResin() * resinGrams);
        }
        return new Mix.Totals(
                resinGrams,
                proportions.plainPartA() * resinGrams,
                proportions.partB() * resinGrams,
                pigmentGrams,
                proportions.total() * resinGrams,
                Costs.ofItems(lots),
                Costs.ofAll(lots));
    }

    /** Returns t·2^((T_stated − T)/10), never longer than stated; null where the data sheet states none. */
    private static @Nullable Double workingTimeMin(Resin resin, double roomCelsius) {
        if (resin.workingTime() == null) {
            return null;
        }
        double stated = resin.workingTime().minutes();
        if (resin.workingTimeAt() == null) {
            return stated;
        }
        double warmer = roomCelsius - resin.workingTimeAt().celsius();
        return Math.min(stated, stated * Math.pow(2, -warmer / HALVES_PER_CELSIUS));
    }

    private static Mix.@Nullable Look look(Book book, Recipe recipe) {
        Recipe.LookAt at = recipe.look();
        Pour pour = at == null ? null : book.pours().get(at.pourId());
        if (at == null
                || pour == null
                || at.reading() < 0
                || at.reading() >= pour.readings().size()) {
            return null;
        }
        Pour.Reading reading = pour.readings().get(at.reading());
        Backing backing = reading.backing();
        return new Mix.Look(
                reading.lab(),
                reading.depth() == null ? null : (Double) reading.depth().mm(),
                backing == null ? null : backing.name() == null ? "a measured backing" : backing.name());
    }

    /** Returns an amount of money as it is shown: two decimals and the currency. */
    public static String shown(Mix.Cost cost) {
        return BigDecimal.valueOf(cost.amount())
                        .setScale(2, java.math.RoundingMode.HALF_UP)
                        .toPlainString() + " " + cost.currency();
    }
}
