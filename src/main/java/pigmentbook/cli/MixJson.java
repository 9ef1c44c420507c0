package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import pigmentbook.book.Item;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;
import pigmentbook.mix.Timeline;
import pigmentbook.mix.Workings;

/** A mix as JSON. The names and their meaning are the public contract. */
final class MixJson {

    private MixJson() {}

    static void write(JsonGenerator json, Mix mix) throws IOException {
        json.writeStartObject();
        json.writeStringField("recipe", mix.recipe().id());
        json.writeNumberField("revision", mix.revision().number());
        json.writeStringField("resin", mix.resin().id());
        Json.text(json, "of_pour", mix.ofPour());
        Json.text(json, "mold", mix.mold() == null ? null : mix.mold().id());
        json.writeStringField("percent_of", mix.revision().percentOf().words());
        Json.number(json, "room_mL", mix.roomMl());
        Json.number(json, "target_mL", mix.targetMl());
        Json.number(json, "mixed_density_g_per_mL", mix.mixedDensity());
        Json.text(json, "limited_by", mix.limitedBy());
        Json.text(json, "also_limited_by", mix.alsoLimitedBy());
        totals(json, mix.totals());
        json.writeArrayFieldStart("layers");
        for (Mix.Layer layer : mix.layers()) {
            layer(json, layer);
        }
        json.writeEndArray();
        Json.number(json, "working_time_min", mix.workingTimeMin());
        timeline(json, mix.timeline());
        offers(json, mix);
        cautions(json, mix.cautions());
        json.writeArrayFieldStart("working");
        for (Mix.Working working : Workings.of(mix)) {
            json.writeStartObject();
            json.writeStringField("figure", working.figure());
            json.writeNumberField("value", working.value());
            json.writeStringField("unit", working.unit());
            json.writeStringField("formula", working.formula());
            json.writeStringField("from", working.from());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    static void cautions(JsonGenerator json, List<Caution> cautions) throws IOException {
        json.writeArrayFieldStart("cautions");
        for (Caution caution : cautions) {
            json.writeStartObject();
            json.writeStringField("code", caution.code());
            json.writeStringField("severity", caution.severity().name().toLowerCase(Locale.ROOT));
            json.writeStringField("text", caution.text());
            json.writeStringField("basis", caution.basis());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static void totals(JsonGenerator json, Mix.Totals totals) throws IOException {
        json.writeObjectFieldStart("totals");
        json.writeNumberField("mixed_resin_g", totals.mixedResinGrams());
        json.writeNumberField("part_A_g", totals.partAGrams());
        json.writeNumberField("part_B_g", totals.partBGrams());
        json.writeObjectFieldStart("pigments_g");
        for (java.util.Map.Entry<Item, Double> pigment : totals.pigmentGrams().entrySet()) {
            json.writeNumberField(pigment.getKey().id(), pigment.getValue());
        }
        json.writeEndObject();
        json.writeNumberField("total_g", totals.totalGrams());
        if (totals.cost() == null) {
            json.writeNullField("cost");
        } else {
            json.writeObjectFieldStart("cost");
            json.writeNumberField("amount", totals.cost().amount());
            json.writeStringField("currency", totals.cost().currency());
            json.writeEndObject();
        }
        json.writeEndObject();
    }

    private static void layer(JsonGenerator json, Mix.Layer layer) throws IOException {
        json.writeStartObject();
        json.writeNumberField("number", layer.number());
        Json.number(json, "from_mm", layer.fromMm());
        Json.number(json, "to_mm", layer.toMm());
        Json.number(json, "room_mL", layer.roomMl());
        Json.number(json, "target_mL", layer.targetMl());
        json.writeNumberField("start_h", layer.startHours());
        json.writeArrayFieldStart("cups");
        for (Mix.Cup cup : layer.cups()) {
            json.writeStartObject();
            json.writeNumberField("number", cup.number());
            json.writeNumberField("total_g", cup.totalGrams());
            ratio(json, cup.achieved());
            json.writeArrayFieldStart("items");
            for (Mix.Weighing weighing : cup.items()) {
                weighing(json, weighing);
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static void ratio(JsonGenerator json, Mix.Achieved achieved) throws IOException {
        boolean finite = Double.isFinite(achieved.ratio());
        Json.number(json, "ratio_as_weighed", finite ? (Double) achieved.ratio() : null);
        Json.number(json, "ratio_error", finite ? (Double) achieved.ratioError() : null);
    }

    private static void weighing(JsonGenerator json, Mix.Weighing weighing) throws IOException {
        json.writeStartObject();
        json.writeStringField("item", weighing.item().id());
        json.writeNumberField("exact_g", weighing.exactGrams());
        json.writeNumberField("weigh_g", weighing.weighGrams());
        json.writeNumberField("low_g", weighing.lowGrams());
        json.writeNumberField("high_g", weighing.highGrams());
        json.writeNumberField("display_g", weighing.displayGrams());
        json.writeNumberField("step_g", weighing.scale().step().grams());
        json.writeNumberField("relative_error", weighing.relativeError());
        Json.text(
                json,
                "lot",
                weighing.lots().isEmpty() ? null : weighing.lots().get(0).lotId());
        json.writeArrayFieldStart("lots");
        for (Mix.LotGrams lot : weighing.lots()) {
            json.writeStartObject();
            json.writeStringField("lot", lot.lotId());
            json.writeNumberField("g", lot.grams());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static void timeline(JsonGenerator json, Timeline timeline) throws IOException {
        json.writeObjectFieldStart("timeline");
        Json.number(json, "pour_by_min", timeline.pourByMin());
        json.writeArrayFieldStart("surface_passes_min");
        for (double pass : timeline.surfacePassesMin()) {
            json.writeNumber(pass);
        }
        json.writeEndArray();
        json.writeArrayFieldStart("cups_min");
        for (Timeline.CupTimes cup : timeline.cupsMin()) {
            json.writeStartObject();
            json.writeNumberField("number", cup.number());
            json.writeNumberField("stir_from", cup.stirFrom());
            json.writeNumberField("second_stir_from", cup.secondStirFrom());
            json.writeNumberField("rest_from", cup.restFrom());
            json.writeNumberField("pour_from", cup.pourFrom());
            json.writeNumberField("end", cup.end());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("layers_h");
        for (Timeline.LayerTimes layer : timeline.layersHours()) {
            json.writeStartObject();
            json.writeNumberField("number", layer.number());
            json.writeNumberField("start", layer.start());
            Json.number(json, "next_from", layer.nextFrom());
            Json.number(json, "next_to", layer.nextTo());
            json.writeEndObject();
        }
        json.writeEndArray();
        Json.number(json, "demold_h", timeline.demoldHours());
        Json.number(json, "full_cure_h", timeline.fullCureHours());
        json.writeEndObject();
    }

    private static void offers(JsonGenerator json, Mix mix) throws IOException {
        json.writeArrayFieldStart("offers");
        for (Mix.Offer offer : mix.offers()) {
            json.writeStartObject();
            json.writeNumberField("layer", offer.layer());
            json.writeStringField("pigment", offer.pigment().id());
            json.writeNumberField("g", offer.grams());
            json.writeNumberField("least_g", offer.leastGrams());
            json.writeNumberField("batch_factor", offer.batchFactor());
            json.writeNumberField("finer_step_g", offer.finerStepGrams());
            Mix.Concentrate concentrate = offer.concentrate();
            if (concentrate == null) {
                json.writeNullField("concentrate");
            } else {
                json.writeObjectFieldStart("concentrate");
                json.writeStringField("id", concentrate.id());
                json.writeNumberField("g", concentrate.grams());
                json.writeNumberField("plain_part_A_saved_g", concentrate.plainPartASaved());
                json.writeEndObject();
            }
            json.writeEndObject();
        }
        json.writeEndArray();
    }
}
