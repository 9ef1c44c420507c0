package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;
import pigmentbook.mix.Timeline;
import pigmentbook.mix.TooLittle;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;

/**
 * A pour's record before anything was weighed: what is planned stands under {@code plan}, so that the bench needs
 * nothing else, and what is entered at the bench is added to {@code log}. {@code layers} says what was weighed.
 */
public final class BenchPlan {

    private BenchPlan() {}

    /**
     * Makes the record.
     *
     * @param book the book
     * @param mix what is to be weighed
     * @param asked how the mix was asked for
     * @param id the pour's id
     * @param now when it is begun
     */
    public static ObjectNode of(Book book, Mix mix, String asked, String id, LocalDateTime now) {
        ObjectNode record = JsonNodeFactory.instance.objectNode();
        record.put("id", id);
        record.put("recipe", mix.recipe().id());
        record.put("revision", mix.revision().number());
        record.put("mold", mix.mold() == null ? null : mix.mold().id());
        record.put("kind", "piece");
        record.put("started", now.truncatedTo(ChronoUnit.MINUTES).toString());
        record.put("by", "");
        record.put("temperature", Numbers.plain(mix.roomCelsius()) + " C");
        record.putNull("humidity");
        record.putArray("layers");
        record.putNull("left").putNull("result");
        record.putArray("readings");
        record.putArray("photos");
        record.set("plan", plan(book, mix, asked));
        record.putArray("log");
        return record;
    }

    /** Returns the plan alone: what is to be weighed. */
    public static ObjectNode plan(Book book, Mix mix, String asked) {
        ObjectNode plan = JsonNodeFactory.instance.objectNode();
        plan.put("formula", mix.formula());
        plan.put("name", mix.recipe().name());
        if (mix.ofPour() != null) {
            plan.put("ofPour", mix.ofPour());
        }
        plan.put("asked", asked);
        plan.put("where", mix.mold() == null ? "" : mix.mold().name());
        amount(
                plan,
                "cupTare",
                mix.scales().cupTareGrams() > 0 ? (Double) mix.scales().cupTareGrams() : null,
                "g");
        if (!book.settings().secondPerson()) {
            plan.put("secondPerson", false);
        }
        amount(plan, "cupMost", mix.inputs().cupMostGrams(), "g");
        Mass batch = mix.resin().batchMost();
        amount(plan, "batchMost", batch == null ? null : (Double) batch.grams(), "g");
        amount(plan, "room", mix.roomMl(), "mL");
        times(plan.putObject("times"), mix.timeline());
        ArrayNode layers = plan.putArray("layers");
        for (Mix.Layer layer : mix.layers()) {
            layer(layers.addObject(), mix, layer);
        }
        ArrayNode steps = plan.putArray("steps");
        for (Recipe.Step step : mix.recipe().steps()) {
            steps.addObject().put("text", step.text()).put("when", step.when());
        }
        lots(book, mix, plan.putObject("lots"));
        ArrayNode cautions = plan.putArray("cautions");
        for (Caution caution : mix.cautions()) {
            cautions.addObject()
                    .put("code", caution.code())
                    .put("severity", caution.severity().name().toLowerCase(java.util.Locale.ROOT))
                    .put("text", caution.text())
                    .put("basis", caution.basis());
        }
        return plan;
    }

    private static void amount(ObjectNode to, String name, @Nullable Double value, String unit) {
        if (value != null) {
            to.put(name, Numbers.plain(value) + " " + unit);
        }
    }

    private static void times(ObjectNode times, Timeline timeline) {
        amount(times, "pourBy", timeline.pourByMin(), "min");
        if (!timeline.cupsMin().isEmpty()) {
            Timeline.CupTimes cup = timeline.cupsMin().get(0);
            amount(times, "secondStir", cup.secondStirFrom(), "min");
            amount(times, "rest", cup.restFrom(), "min");
            amount(times, "pour", cup.pourFrom(), "min");
            amount(times, "empty", cup.end(), "min");
        }
        ArrayNode passes = times.putArray("passes");
        timeline.surfacePassesMin().forEach(minutes -> passes.add(Numbers.plain(minutes) + " min"));
        if (timeline.layersHours().size() > 1) {
            Timeline.LayerTimes first = timeline.layersHours().get(0);
            amount(times, "nextLayerFrom", first.nextFrom(), "h");
            amount(times, "nextLayerTo", first.nextTo(), "h");
        }
        amount(times, "demold", timeline.demoldHours(), "h");
        amount(times, "fullCure", timeline.fullCureHours(), "h");
    }

    private static void layer(ObjectNode to, Mix mix, Mix.Layer layer) {
        if (layer.fromMm() != null && layer.toMm() != null) {
            amount(to, "depth", layer.toMm() - layer.fromMm(), "mm");
        }
        amount(to, "from", layer.startHours(), "h");
        ArrayNode cups = to.putArray("cups");
        for (Mix.Cup cup : layer.cups()) {
            ArrayNode items = cups.addObject().putArray("items");
            for (Mix.Weighing weighing : cup.items()) {
                ObjectNode item = items.addObject();
                item.put("item", weighing.item().id());
                item.put("name", weighing.name());
                amount(item, "target", weighing.weighGrams(), "g");
                amount(item, "low", weighing.lowGrams(), "g");
                amount(item, "high", weighing.highGrams(), "g");
                amount(item, "step", weighing.scale().step().grams(), "g");
                item.put(
                        "lot",
                        weighing.lots().isEmpty()
                                ? Pour.UNKNOWN_LOT
                                : weighing.lots().get(0).lotId());
                mix.shares().pigments().stream()
                        .filter(share -> share.item().equals(weighing.item()))
                        .forEach(share -> strength(item, share.strength()));
                String coarse = TooLittle.of(mix, layer, weighing);
                if (!coarse.isEmpty()) {
                    item.put("coarse", coarse);
                }
            }
        }
    }

    /** How strong a lot is, or the lots that a target counts on; the reference lot's strength goes without saying. */
    private static void strength(ObjectNode to, double factor) {
        if (factor != 1) {
            to.put("strength", Numbers.plain(100 * factor) + " %");
        }
    }

    /** The lots that may be chosen, so that a phone can choose while it can't reach the book. */
    private static void lots(Book book, Mix mix, ObjectNode to) {
        for (Mix.Weighing weighing : mix.layers().get(0).cups().get(0).items()) {
            Item item = weighing.item();
            ArrayNode lots = to.putArray(item.id());
            for (Lot lot : book.lotsOf(mix.resin().id(), item)) {
                ObjectNode each = lots.addObject();
                strength(each, lot.strengthFactor());
                each.put("lot", lot.id())
                        .put("code", lot.code())
                        .put("good", lot.isGoodOn(mix.on()))
                        .put(
                                "expires",
                                lot.expires() == null ? null : lot.expires().toString())
                        .put(
                                "left",
                                Mass.ofGrams(Math.rint(book.leftGrams(lot) * 10) / 10)
                                        .written());
            }
        }
    }
}
