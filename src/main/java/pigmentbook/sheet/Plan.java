package pigmentbook.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.mix.Mix;
import pigmentbook.store.LooseJson;

/**
 * What a mix sheet was when it was made. It stands hidden on the sheet, so that reading back can tell what a person
 * changed, whatever an office program made of the formulas.
 *
 * @param recipeId the recipe's id
 * @param moldId the mold's id, or null
 * @param totalGrams the sum of everything weighed, in g, above 0
 * @param layers the layers, lowest first
 */
record Plan(String recipeId, @Nullable String moldId, double totalGrams, List<Layer> layers) {

    /** More rows than this are on no sheet. */
    private static final int MOST_ROWS = 20_000;

    /**
     * One layer.
     *
     * @param depthMm its depth in mm, or null
     * @param cups its cups, each with its items in the order of work
     */
    record Layer(@Nullable Double depthMm, List<List<Planned>> cups) {}

    /**
     * One row.
     *
     * @param item what is weighed
     * @param grams the exact target in g
     * @param lot the planned lot, or null
     */
    record Planned(Item item, double grams, @Nullable String lot) {}

    static Plan of(Mix mix) {
        List<Layer> layers = new ArrayList<>();
        for (Mix.Layer layer : mix.layers()) {
            List<List<Planned>> cups = new ArrayList<>();
            for (Mix.Cup cup : layer.cups()) {
                cups.add(cup.items().stream()
                        .map(each -> new Planned(each.item(), each.exactGrams(), lot(each)))
                        .toList());
            }
            Double depth = layer.fromMm() == null || layer.toMm() == null ? null : layer.toMm() - layer.fromMm();
            layers.add(new Layer(depth, cups));
        }
        return new Plan(
                mix.recipe().id(),
                mix.mold() == null ? null : mix.mold().id(),
                mix.totals().totalGrams(),
                layers);
    }

    private static @Nullable String lot(Mix.Weighing weighing) {
        return weighing.lots().isEmpty() ? null : weighing.lots().get(0).lotId();
    }

    /** Returns the plan on one line. The cups of a layer are alike, so each layer stands there once. */
    String text() {
        JsonNodeFactory nodes = JsonNodeFactory.instance;
        ObjectNode plan =
                nodes.objectNode().put("recipe", recipeId).put("mold", moldId).put("total_g", totalGrams);
        ArrayNode all = plan.putArray("layers");
        ObjectNode otherLots = nodes.objectNode();
        for (int l = 0; l < layers.size(); l++) {
            Layer layer = layers.get(l);
            ObjectNode one = all.addObject().put("depth_mm", layer.depthMm());
            one.put("cups", layer.cups().size());
            ArrayNode items = one.putArray("items");
            List<Planned> first = layer.cups().get(0);
            first.forEach(each -> items.addObject()
                    .put("item", each.item().id())
                    .put("g", each.grams())
                    .put("lot", each.lot()));
            for (int c = 1; c < layer.cups().size(); c++) {
                for (int i = 0; i < first.size(); i++) {
                    Planned each = layer.cups().get(c).get(i);
                    if (!Objects.equals(each.lot(), first.get(i).lot())) {
                        otherLots.put(CellNames.record(l + 1, c + 1, each.item()), each.lot());
                    }
                }
            }
        }
        plan.set("other_lots", otherLots);
        return LooseJson.line(plan);
    }

    /** Reads a plan; null where the text is none, since what is seen on the sheet then has to do. */
    static @Nullable Plan read(String text) {
        try {
            ObjectNode plan = LooseJson.read(text.getBytes(StandardCharsets.UTF_8));
            JsonNode otherLots = plan.path("other_lots");
            List<Layer> layers = new ArrayList<>();
            int rows = 0;
            for (JsonNode layer : plan.path("layers")) {
                JsonNode items = layer.path("items");
                int cups = layer.path("cups").asInt();
                rows += Math.min(MOST_ROWS, cups) * Math.min(MOST_ROWS, items.size());
                if (cups < 1 || cups > MOST_ROWS || items.size() > MOST_ROWS || rows < 1 || rows > MOST_ROWS) {
                    return null;
                }
                layers.add(layer(layer, layers.size() + 1, cups, otherLots));
            }
            double total = plan.path("total_g").asDouble();
            return layers.isEmpty() || !(total > 0) || Double.isInfinite(total)
                    ? null
                    : new Plan(plan.path("recipe").asText(), text(plan.path("mold")), total, layers);
        } catch (IOException e) {
            return null;
        }
    }

    private static Layer layer(JsonNode layer, int number, int cups, JsonNode otherLots) {
        List<List<Planned>> all = new ArrayList<>();
        for (int cup = 1; cup <= cups; cup++) {
            List<Planned> one = new ArrayList<>();
            for (JsonNode each : layer.path("items")) {
                Item item = Item.of(each.path("item").asText());
                JsonNode other = otherLots.path(CellNames.record(number, cup, item));
                one.add(new Planned(
                        item, each.path("g").asDouble(), text(other.isMissingNode() ? each.path("lot") : other)));
            }
            all.add(one);
        }
        JsonNode depth = layer.path("depth_mm");
        return new Layer(depth.isNumber() ? (Double) depth.asDouble() : null, all);
    }

    private static @Nullable String text(JsonNode node) {
        return node.isTextual() ? node.textValue() : null;
    }
}
