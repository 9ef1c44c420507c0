package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Trees, the many ways people lay them out in a file, and changes to them. */
final class RandomJson {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final List<String> TEXTS = List.of(
            "",
            "1.2 %",
            "ember",
            "a \"quoted\" word",
            "back\\slash",
            "Größe",
            "\u20ac",
            "\ud83d\ude00",
            "tab\there",
            "{",
            "],",
            "\ud800",
            ":");
    private static final List<String> SPACES =
            List.of("", "", " ", "  ", "\n", "\r\n", "\t", "\n  ", "\r\n\t", "\n\n    ", " \n");

    private final Random random;

    RandomJson(long seed) {
        this.random = new Random(seed);
    }

    private <T> T one(List<T> of) {
        return of.get(random.nextInt(of.size()));
    }

    ObjectNode object(int depth) {
        ObjectNode object = NODES.objectNode();
        int fields = random.nextInt(5);
        for (int i = 0; i < fields; i++) {
            object.set(name(), value(depth - 1));
        }
        return object;
    }

    private String name() {
        // Half a surrogate pair is a text to the parser, but no name.
        String odd = one(TEXTS);
        return random.nextInt(8) == 0 && !odd.equals("\ud800") ? odd : "f" + random.nextInt(9);
    }

    JsonNode value(int depth) {
        int kind = random.nextInt(depth > 0 ? 9 : 5);
        return switch (kind) {
            case 0 -> NODES.numberNode(random.nextInt(2000) - 1000);
            case 1 -> NODES.numberNode(BigDecimal.valueOf(random.nextInt(100_000), random.nextInt(6)));
            case 2 -> NODES.booleanNode(random.nextBoolean());
            case 3 -> NODES.nullNode();
            case 4 -> NODES.textNode(one(TEXTS));
            case 5, 6 -> object(depth);
            default -> {
                ArrayNode array = NODES.arrayNode();
                int size = random.nextInt(5);
                for (int i = 0; i < size; i++) {
                    array.add(value(depth - 1));
                }
                yield array;
            }
        };
    }

    /** Returns a tree with a few things changed, added or taken out. */
    JsonNode changed(JsonNode from, int depth) {
        int chance = random.nextInt(10);
        if (chance == 0) {
            return value(depth);
        }
        if (from.isObject()) {
            ObjectNode to = NODES.objectNode();
            for (Map.Entry<String, JsonNode> each : from.properties()) {
                if (random.nextInt(6) > 0) {
                    to.set(each.getKey(), random.nextBoolean() ? each.getValue() : changed(each.getValue(), depth - 1));
                }
            }
            while (random.nextInt(3) == 0) {
                to.set(name(), value(depth - 1));
            }
            return to;
        }
        if (from.isArray()) {
            ArrayNode to = NODES.arrayNode();
            for (JsonNode each : from) {
                while (random.nextInt(6) == 0) {
                    to.add(value(depth - 1));
                }
                if (random.nextInt(6) > 0) {
                    to.add(random.nextBoolean() ? each : changed(each, depth - 1));
                }
            }
            while (random.nextInt(3) == 0) {
                to.add(value(depth - 1));
            }
            return to;
        }
        return random.nextBoolean() ? from : value(0);
    }

    private String space() {
        return one(SPACES);
    }

    /** Returns a text that says the tree, laid out oddly. */
    String text(JsonNode value) {
        return space() + member(value) + space();
    }

    private String member(JsonNode value) {
        List<String> members = new ArrayList<>();
        if (value.isObject()) {
            for (Map.Entry<String, JsonNode> each : value.properties()) {
                members.add(spelled(each.getKey()) + space() + ":" + space() + member(each.getValue()));
            }
            return "{" + joined(members) + "}";
        }
        if (value.isArray()) {
            value.forEach(each -> members.add(member(each)));
            return "[" + joined(members) + "]";
        }
        return value.isTextual() ? spelled(value.textValue()) : number(value);
    }

    private String joined(List<String> members) {
        StringBuilder out = new StringBuilder(space());
        for (int i = 0; i < members.size(); i++) {
            out.append(members.get(i)).append(space());
            if (i + 1 < members.size()) {
                out.append(',').append(space());
            }
        }
        return out.toString();
    }

    private String number(JsonNode value) {
        String plain = value.isBigDecimal() ? value.decimalValue().toPlainString() : value.asText();
        return value.isNumber() && random.nextInt(4) == 0 ? plain + "E0" : plain;
    }

    /** Returns a text in quotes, some of its characters as their codes. */
    private String spelled(String text) {
        StringBuilder out = new StringBuilder("\"");
        for (int point : text.codePoints().toArray()) {
            boolean must = point < ' ' || point == '"' || point == '\\' || point == 0xd800;
            if (must || random.nextInt(10) == 0) {
                for (char each : Character.toChars(point)) {
                    out.append('\\')
                            .append('u')
                            .append(Integer.toHexString(0x10000 + each).substring(1));
                }
            } else {
                out.appendCodePoint(point);
            }
        }
        return out.append('"').toString();
    }
}
