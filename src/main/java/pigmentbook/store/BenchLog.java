package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.Pour;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;

/**
 * What was entered at the bench, in the order it was entered. Nothing is ever taken out of the log: an entry that was
 * undone stays, and an {@code undo} follows it. What was weighed is worked out from it anew each time.
 *
 * <p>Entries: {@code weigh} adds grams of an item from a lot; {@code follow} makes the cup's other targets follow what
 * is too much in it; {@code note} keeps a deviation in words; {@code throw} throws the cup away; {@code check} is the
 * second person's; {@code poured} says that a cup is empty; {@code undo} takes an entry back; {@code done} ends the
 * pour.
 */
public final class BenchLog {

    private static final Set<String> WHATS =
            Set.of("weigh", "follow", "note", "throw", "check", "poured", "undo", "done");
    private static final int MOST_TEXT = 500;
    private static final int MOST_ID = 64;
    private static final int MOST_ENTRIES = 5_000;
    private static final double HIGHEST_GRAMS = 1e6;

    private BenchLog() {}

    /**
     * Entries to be added.
     *
     * @param device which phone or window they come from
     * @param base how many entries that device had seen of the log
     * @param entries what was entered, oldest first, each with an id of its own
     */
    public record Asked(String device, int base, List<JsonNode> entries) {}

    /** Thrown where another phone entered something that this one had not seen. */
    public static final class OtherPhone extends Exception {
        private static final long serialVersionUID = 1L;

        OtherPhone(String message) {
            super(message);
        }
    }

    /**
     * Adds entries to a pour's log and works out anew what was weighed. An entry whose id is there already is left out,
     * so handing in again does no harm.
     *
     * @param record the pour's record; it is changed
     * @param asked the entries
     * @param now the moment they are kept, ISO 8601 with its offset: an hour that a clock shows twice stays two
     * @param lots finds a lot by what was typed or scanned
     * @return the record
     * @throws SaveFailedException if an entry can't be taken; the record is to be left as it was
     * @throws OtherPhone if another phone entered something meanwhile that this one had not seen
     */
    static ObjectNode add(ObjectNode record, Asked asked, String now, LotFinder lots)
            throws SaveFailedException, OtherPhone {
        if (!(record.get("log") instanceof ArrayNode log)
                || !record.path("plan").isObject()) {
            throw new SaveFailedException("This pour was not weighed at the bench, so nothing can be entered there.");
        }
        Set<String> known = new HashSet<>();
        log.forEach(entry -> known.add(entry.path("id").asText()));
        List<JsonNode> fresh = new ArrayList<>();
        for (JsonNode entry : asked.entries()) {
            if (known.add(entry.path("id").asText())) {
                fresh.add(entry);
            }
        }
        if (!fresh.isEmpty()) {
            requireSeen(log, asked);
        }
        for (JsonNode entry : fresh) {
            log.add(checked(record, log, entry, asked.device(), now, lots));
        }
        if (log.size() > MOST_ENTRIES) {
            throw new SaveFailedException("A pour holds at most " + MOST_ENTRIES + " entries. Begin another one.");
        }
        derive(record);
        return record;
    }

    /** Finds a lot's id by what was typed or scanned; null where nothing on the shelf is called so. */
    public interface LotFinder {
        @Nullable
        String find(String item, String typed);
    }

    private static void requireSeen(ArrayNode log, Asked asked) throws OtherPhone {
        for (int i = Math.max(0, asked.base()); i < log.size(); i++) {
            JsonNode entry = log.get(i);
            if (!entry.path("device").asText().equals(asked.device())) {
                throw new OtherPhone(
                        "Another phone entered " + shown(entry)
                                + " meanwhile. Yours is held here: look at the bench as it is now, then enter it on top or drop it.");
            }
        }
    }

    private static String shown(JsonNode entry) {
        String item = entry.path("item").asText();
        return switch (entry.path("what").asText()) {
            case "weigh" -> entry.path("grams").asText() + " of " + item;
            case "undo" -> "an undo";
            case "poured" -> "that a cup is poured";
            case "throw" -> "that a cup was thrown away";
            default -> "\"" + entry.path("what").asText() + "\"" + (item.isEmpty() ? "" : " for " + item);
        };
    }

    private static ObjectNode checked(
            ObjectNode record, ArrayNode log, JsonNode entry, String device, String now, LotFinder lots)
            throws SaveFailedException {
        String id = entry.path("id").asText();
        String what = entry.path("what").asText();
        if (!id.matches("[A-Za-z0-9-]{1," + MOST_ID + "}") || !WHATS.contains(what)) {
            throw new SaveFailedException("This is no entry of the bench. Nothing was kept of it.");
        }
        ObjectNode kept = JsonNodeFactory.instance.objectNode();
        kept.put("id", id).put("what", what);
        if (what.equals("undo")) {
            kept.put("of", undone(log, entry.path("of").asText()));
        } else if (!what.equals("done")) {
            place(record, entry, kept);
        }
        if (what.equals("weigh")) {
            String item = entry.path("item").asText();
            kept.put("grams", grams(entry.path("grams").asText()));
            kept.put("lot", lot(item, entry.path("lot").asText().strip(), lots));
        }
        for (String word : List.of("by", "text", "at")) {
            String said = entry.path(word).asText("").strip();
            if (!said.isEmpty()) {
                kept.put(word, said.length() > MOST_TEXT ? said.substring(0, MOST_TEXT) : said);
            }
        }
        return kept.put("device", device).put("kept", now);
    }

    private static String undone(ArrayNode log, String of) throws SaveFailedException {
        for (JsonNode each : log) {
            if (each.path("id").asText().equals(of)
                    && !each.path("what").asText().equals("undo")) {
                return of;
            }
        }
        throw new SaveFailedException("There is no such entry to undo. Look at the bench again.");
    }

    private static void place(ObjectNode record, JsonNode entry, ObjectNode kept) throws SaveFailedException {
        int layer = entry.path("layer").asInt();
        int cup = entry.path("cup").asInt();
        JsonNode items = record.path("plan")
                .path("layers")
                .path(layer - 1)
                .path("cups")
                .path(cup - 1)
                .path("items");
        if (layer < 1 || cup < 1 || !items.isArray()) {
            throw new SaveFailedException("The plan has no cup " + cup + " in a layer " + layer + ".");
        }
        kept.put("layer", layer).put("cup", cup);
        String item = entry.path("item").asText("");
        if (item.isEmpty()) {
            return;
        }
        for (JsonNode each : items) {
            if (each.path("item").asText().equals(item)) {
                kept.put("item", item);
                return;
            }
        }
        throw new SaveFailedException("The plan has no \"" + Records.shown(item) + "\" in this cup.");
    }

    /** A bare number is in grams, for that is what the scale shows. */
    private static String grams(String typed) throws SaveFailedException {
        String text = typed.strip();
        try {
            Mass mass = Mass.parse(text.matches("[0-9.,]+") ? text + " g" : text);
            if (!(mass.grams() > 0) || mass.grams() > HIGHEST_GRAMS) {
                throw new SaveFailedException("\"" + Records.shown(typed)
                        + "\" is no weight of a cup; grams above 0 and below a million were expected.");
            }
            return mass.written();
        } catch (BadAmountException e) {
            throw new SaveFailedException(String.valueOf(e.getMessage()));
        }
    }

    private static String lot(String item, String typed, LotFinder lots) throws SaveFailedException {
        String found = typed.equals(Pour.UNKNOWN_LOT) ? Pour.UNKNOWN_LOT : lots.find(item, typed);
        if (found == null) {
            throw new SaveFailedException((typed.isEmpty()
                            ? "The lot of " + item + " is missing."
                            : "There is no lot \"" + Records.shown(typed) + "\" of " + item + " on the shelf.")
                    + " Type what stands on its label, or type " + Pour.UNKNOWN_LOT + ".");
        }
        return found;
    }

    /** Returns a finder that takes a lot's id in any case, or the supplier's code. */
    public static LotFinder finder(Book book, String resinId) {
        return (item, typed) -> {
            String found = null;
            for (Lot lot : book.lotsOf(resinId, Item.of(item))) {
                if (lot.id().equals(typed)) {
                    return lot.id();
                }
                if (lot.id().equalsIgnoreCase(typed)
                        || (!typed.isEmpty() && lot.code().equalsIgnoreCase(typed))) {
                    found = lot.id();
                }
            }
            return found;
        };
    }

    /** Returns what is in a cup now, by item, as grams of the strength that the targets count on. */
    public static Map<Item, Double> inCup(JsonNode record, int layer, int cup) {
        InCup in = new InCup(record);
        for (JsonNode entry : standing(record)) {
            boolean here =
                    entry.path("layer").asInt() == layer && entry.path("cup").asInt() == cup;
            if (here && entry.path("what").asText().equals("throw")) {
                in = new InCup(record);
            } else if (here && entry.path("what").asText().equals("weigh")) {
                in.add(entry);
            }
        }
        Map<Item, Double> inCup = new LinkedHashMap<>();
        for (JsonNode item : planned(record, layer, cup)) {
            if (in.grams.containsKey(item.path("item").asText())) {
                inCup.put(Item.of(item.path("item").asText()), in.asPlanned(item));
            }
        }
        return inCup;
    }

    /** Returns the entries that stand, oldest first: without those that were undone, and without the undoing. */
    static List<JsonNode> standing(JsonNode record) {
        Set<String> undone = new HashSet<>();
        record.path("log").forEach(entry -> {
            if (isUndo(entry)) {
                undone.add(entry.path("of").asText());
            }
        });
        List<JsonNode> standing = new ArrayList<>();
        record.path("log").forEach(entry -> {
            if (!isUndo(entry) && !undone.contains(entry.path("id").asText())) {
                standing.add(entry);
            }
        });
        return standing;
    }

    private static boolean isUndo(JsonNode entry) {
        return entry.path("what").asText().equals("undo");
    }

    /** Works {@code layers}, {@code thrown} and {@code by} out from the log. */
    private static void derive(ObjectNode record) {
        Map<String, InCup> cups = new LinkedHashMap<>();
        ArrayNode thrown = JsonNodeFactory.instance.arrayNode();
        Set<String> by = new java.util.LinkedHashSet<>();
        for (JsonNode entry : standing(record)) {
            String key = entry.path("layer").asInt() + "/" + entry.path("cup").asInt();
            switch (entry.path("what").asText()) {
                case "weigh" -> {
                    cups.computeIfAbsent(key, none -> new InCup(record)).add(entry);
                    if (entry.has("by")) {
                        by.add(entry.path("by").asText());
                    }
                }
                case "follow" ->
                    cups.computeIfAbsent(key, none -> new InCup(record)).follow(planned(record, entry));
                case "throw" -> {
                    InCup cup = cups.remove(key);
                    if (cup != null) {
                        thrown.addAll(cup.weighed(planned(record, entry)));
                    }
                }
                default -> {}
            }
        }
        ArrayNode layers = JsonNodeFactory.instance.arrayNode();
        int number = 0;
        for (JsonNode layer : record.path("plan").path("layers")) {
            number++;
            ArrayNode weighed = cups(layer, number, cups);
            if (!weighed.isEmpty()) {
                ObjectNode to = layers.addObject();
                to.put("depth", layer.has("depth") ? layer.path("depth").asText() : null);
                to.set("cups", weighed);
            }
        }
        record.set("layers", layers);
        if (!thrown.isEmpty() || record.has("thrown")) {
            record.set("thrown", thrown);
        }
        if (!by.isEmpty()) {
            record.put("by", String.join(", ", by));
        }
    }

    private static ArrayNode cups(JsonNode layer, int number, Map<String, InCup> cups) {
        ArrayNode all = JsonNodeFactory.instance.arrayNode();
        int at = 0;
        for (JsonNode planned : layer.path("cups")) {
            at++;
            InCup cup = cups.get(number + "/" + at);
            if (cup != null && !cup.grams.isEmpty()) {
                all.addObject().set("weighed", cup.weighed(planned.path("items")));
            }
        }
        return all;
    }

    private static JsonNode planned(JsonNode record, JsonNode entry) {
        return planned(record, entry.path("layer").asInt(), entry.path("cup").asInt());
    }

    private static JsonNode planned(JsonNode record, int layer, int cup) {
        return record.path("plan")
                .path("layers")
                .path(layer - 1)
                .path("cups")
                .path(cup - 1)
                .path("items");
    }

    /** What is in a cup: the grams of each item, lot by lot. */
    private static final class InCup {
        private final Map<String, Map<String, List<Double>>> grams = new LinkedHashMap<>();
        private final JsonNode lots;
        private double factor = 1;

        InCup(JsonNode record) {
            this.lots = record.path("plan").path("lots");
        }

        private void add(JsonNode entry) {
            grams.computeIfAbsent(entry.path("item").asText(), item -> new LinkedHashMap<>())
                    .computeIfAbsent(entry.path("lot").asText(), lot -> new ArrayList<>())
                    .add(Mass.parse(entry.path("grams").asText()).grams());
        }

        /** The targets follow what is most over; they never go down again. */
        private void follow(JsonNode planned) {
            for (JsonNode item : planned) {
                double target = Mass.parse(item.path("target").asText()).grams();
                if (target > 0) {
                    factor = Math.max(factor, asPlanned(item) / target);
                }
            }
        }

        /** Returns what is in as grams of the strength that the target counts on. */
        private double asPlanned(JsonNode item) {
            double sum = 0;
            String name = item.path("item").asText();
            for (Map.Entry<String, List<Double>> lot :
                    grams.getOrDefault(name, Map.of()).entrySet()) {
                sum += sum(lot.getValue()) * strength(name, lot.getKey()) / strength(item);
            }
            return sum;
        }

        /** Returns the target in grams as they were weighed: what is still short of it comes from the last lot. */
        private double target(JsonNode item) {
            double missing = Mass.parse(item.path("target").asText()).grams() * factor - asPlanned(item);
            String name = item.path("item").asText();
            double sum = 0;
            double last = strength(item);
            for (Map.Entry<String, List<Double>> lot :
                    grams.getOrDefault(name, Map.of()).entrySet()) {
                sum += sum(lot.getValue());
                last = strength(name, lot.getKey());
            }
            return sum + missing * strength(item) / last;
        }

        private static double sum(List<Double> all) {
            double sum = 0;
            for (double each : all) {
                sum += each;
            }
            return sum;
        }

        /** A lot that nobody knows counts as strong as the reference lot. */
        private double strength(String item, String lot) {
            for (JsonNode each : lots.path(item)) {
                if (each.path("lot").asText().equals(lot)) {
                    return strength(each);
                }
            }
            return 1;
        }

        private static double strength(JsonNode of) {
            String text = of.path("strength").asText();
            return text.isEmpty() ? 1 : Percent.parse(text).fraction();
        }

        private ArrayNode weighed(JsonNode planned) {
            ArrayNode weighed = JsonNodeFactory.instance.arrayNode();
            for (JsonNode item : planned) {
                String name = item.path("item").asText();
                boolean first = true;
                for (Map.Entry<String, List<Double>> lot :
                        grams.getOrDefault(name, Map.of()).entrySet()) {
                    ObjectNode to = weighed.addObject();
                    to.put("item", name).put("lot", lot.getKey());
                    to.put("target", first ? written(target(item)) : null);
                    to.put("actual", written(sum(lot.getValue())));
                    first = false;
                }
            }
            return weighed;
        }

        /** To a tenth of a milligram: sums of weights carry no binary dust into the file. */
        private static String written(double grams) {
            return Numbers.plain(Math.rint(grams * 1e4) / 1e4) + " g";
        }
    }
}
