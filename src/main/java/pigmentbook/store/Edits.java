package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.BooleanNode;
import com.fasterxml.jackson.databind.node.IntNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.BadAmountException;

/** Puts edits into a record's JSON, and gives a value as the text that stands in a cell. */
public final class Edits {

    private static final int MOST_STEPS = 8;
    private static final int MOST_INDEX = 9_999;
    private static final int MOST_DIGITS = 9;
    private static final Pattern NUMBER = Pattern.compile("0|[1-9]\\d{0,3}");
    private static final Set<String> WHOLE_NUMBERS = Set.of("count", "rating", "reading");
    private static final Set<String> LISTS_OF_WORDS = Set.of("tags", "faults");
    private static final Set<String> YES_OR_NO = Set.of("secondPerson");
    private static final Set<String> COLOURS = Set.of("lab");

    private Edits() {}

    /** Returns a value as the text of a cell: nothing is empty, a list is its entries between commas. */
    public static String text(@Nullable JsonNode value) {
        if (value == null || value.isNull() || value.isMissingNode()) {
            return "";
        }
        if (value.isArray()) {
            StringBuilder text = new StringBuilder();
            value.forEach(each -> text.append(text.length() == 0 ? "" : ", ").append(text(each)));
            return text.toString();
        }
        if (value.isBoolean()) {
            return value.booleanValue() ? "yes" : "no";
        }
        return value.isObject() ? value.toString() : value.asText();
    }

    /** Returns what stands at a path, as the text of a cell. */
    static String textAt(ObjectNode record, Edit edit) {
        return text(record.at(edit.path()));
    }

    /** Returns whether what the person saw still stands there. */
    static boolean isAsSeen(ObjectNode record, Edit edit) throws RefusedException {
        steps(edit.path());
        return switch (edit.what()) {
            case SET -> textAt(record, edit).equals(edit.was());
            case ADD -> true;
            case TAKE_OUT -> JsonSplice.same(record.at(edit.path()), json(edit.was()));
        };
    }

    /** Puts an edit into a record. */
    static void put(ObjectNode record, Edit edit) throws RefusedException {
        List<String> steps = steps(edit.path());
        String last = steps.get(steps.size() - 1);
        JsonNode parent = record;
        for (int i = 0; i + 1 < steps.size(); i++) {
            boolean list = NUMBER.matcher(steps.get(i + 1)).matches();
            parent = child(parent, steps.get(i), list);
        }
        switch (edit.what()) {
            case SET -> set(record, steps, parent, last, edit.now());
            case ADD -> {
                ArrayNode entries = list(parent);
                entries.insert(Math.min(index(last), entries.size()), json(edit.now()));
            }
            case TAKE_OUT -> list(parent).remove(index(last));
        }
    }

    private static List<String> steps(String path) throws RefusedException {
        List<String> steps =
                Arrays.asList(path.substring(Math.min(1, path.length())).split("/", -1));
        boolean plain = path.startsWith("/") && steps.size() <= MOST_STEPS;
        for (String step : steps) {
            plain &= step.matches("[A-Za-z0-9]{1,40}");
        }
        if (!plain || steps.get(0).equals("id")) {
            throw new RefusedException(path, "bad-path", "This can't be changed here.");
        }
        return steps;
    }

    private static JsonNode child(JsonNode parent, String step, boolean list) throws RefusedException {
        JsonNode child = parent.isArray() ? parent.get(index(step)) : parent.get(step);
        if (child != null && child.isContainerNode()) {
            return child;
        }
        JsonNode made = list ? JsonNodeFactory.instance.arrayNode() : JsonNodeFactory.instance.objectNode();
        if (parent instanceof ObjectNode object) {
            object.set(step, made);
        } else {
            place(list(parent), index(step), made);
        }
        return made;
    }

    private static void set(ObjectNode record, List<String> steps, JsonNode parent, String last, String text)
            throws RefusedException {
        JsonNode value = node(last, text);
        if (parent instanceof ObjectNode object) {
            if (value == null) {
                // What is there stays as an empty field; what is not is not written in.
                if (object.has(last)) {
                    object.putNull(last);
                }
            } else {
                object.set(last, value);
            }
            forgetEmpty(record, steps);
        } else if (value == null) {
            list(parent).remove(index(last));
        } else {
            place(list(parent), index(last), value);
        }
    }

    /**
     * A part of a record that says nothing any more is none: a carrier without kind and share, a price without either.
     */
    private static void forgetEmpty(ObjectNode record, List<String> steps) {
        if (steps.size() != 2 || !(record.get(steps.get(0)) instanceof ObjectNode part)) {
            return;
        }
        for (JsonNode each : part) {
            if (!each.isNull()) {
                return;
            }
        }
        record.putNull(steps.get(0));
    }

    private static void place(ArrayNode list, int index, JsonNode value) throws RefusedException {
        if (index < list.size()) {
            list.set(index, value);
        } else if (index == list.size()) {
            list.add(value);
        } else {
            throw new RefusedException("", "bad-path", "This row is not there any more. Look at the page again.");
        }
    }

    private static @Nullable JsonNode node(String name, String text) throws RefusedException {
        if (LISTS_OF_WORDS.contains(name)) {
            ArrayNode words = JsonNodeFactory.instance.arrayNode();
            for (String word : text.split(",", -1)) {
                if (!word.isBlank()) {
                    words.add(word.strip());
                }
            }
            return words;
        }
        if (text.isEmpty()) {
            return null;
        }
        if (YES_OR_NO.contains(name)) {
            return yesOrNo(text);
        }
        if (COLOURS.contains(name)) {
            return lab(text);
        }
        boolean whole = WHOLE_NUMBERS.contains(name)
                && text.length() <= MOST_DIGITS
                && text.chars().allMatch(c -> c >= '0' && c <= '9');
        return whole ? IntNode.valueOf(Integer.parseInt(text)) : TextNode.valueOf(text);
    }

    private static JsonNode yesOrNo(String text) throws RefusedException {
        return switch (text.toLowerCase(Locale.ROOT)) {
            case "yes" -> BooleanNode.TRUE;
            case "no" -> BooleanNode.FALSE;
            default ->
                throw new RefusedException(
                        "", "wrong-type", "\"" + Records.shown(text) + "\" is neither yes nor no; write one of them.");
        };
    }

    private static JsonNode lab(String text) throws RefusedException {
        try {
            Lab lab = ColourText.parse(text);
            return JsonNodeFactory.instance
                    .arrayNode()
                    .add(lab.l())
                    .add(lab.a())
                    .add(lab.b());
        } catch (BadAmountException e) {
            throw new RefusedException("", "bad-amount", String.valueOf(e.getMessage()));
        }
    }

    private static ArrayNode list(JsonNode node) throws RefusedException {
        if (node instanceof ArrayNode list) {
            return list;
        }
        throw new RefusedException("", "bad-path", "This can't be changed here.");
    }

    private static int index(String step) throws RefusedException {
        if (!NUMBER.matcher(step).matches() || Integer.parseInt(step) > MOST_INDEX) {
            throw new RefusedException("", "bad-path", "This can't be changed here.");
        }
        return Integer.parseInt(step);
    }

    private static JsonNode json(String text) throws RefusedException {
        return JsonFile.read(("{\"entry\":" + text + "}").getBytes(StandardCharsets.UTF_8))
                .path("entry");
    }
}
