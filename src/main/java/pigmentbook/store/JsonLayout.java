package pigmentbook.store;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/**
 * How values are written into a file: each on one line where it fits, else its members each on a line of its own.
 *
 * @param newline what ends a line; empty where the whole file is one line
 * @param indent what a line is moved in by for each level
 * @param colon what stands between a field's name and its value
 * @param pad what stands inside the braces of an object on one line
 * @param comma what stands between two members on one line
 */
record JsonLayout(String newline, String indent, String colon, String pad, String comma) {

    /** The layout of new files. */
    static final JsonLayout OWN = new JsonLayout("\n", "  ", ": ", " ", ", ");

    private static final int MOST_COLUMNS = 118;

    /** Returns the text of a new file. */
    static String file(JsonNode record) {
        StringBuilder out = new StringBuilder();
        OWN.expanded(record, "", out);
        return out.append('\n').toString();
    }

    /**
     * Returns a value's text.
     *
     * @param base what the line that it begins on is moved in by
     * @param column how many characters stand before it on that line, its name not counted
     */
    String value(JsonNode value, String base, int column) {
        StringBuilder out = new StringBuilder();
        value(value, base, column, out);
        return out.toString();
    }

    private void value(JsonNode value, String base, int column, StringBuilder out) {
        int from = out.length();
        flat(value, out);
        boolean fits = column + out.length() - from <= MOST_COLUMNS;
        if (!fits && !newline.isEmpty() && value.isContainerNode() && !value.isEmpty()) {
            out.setLength(from);
            expanded(value, base, out);
        }
    }

    private void expanded(JsonNode value, String base, StringBuilder out) {
        String inner = base + indent;
        out.append(value.isObject() ? '{' : '[');
        String between = "";
        for (Member member : members(value)) {
            out.append(between).append(newline).append(inner);
            if (value.isObject()) {
                out.append(quoted(member.name())).append(colon);
            }
            value(member.value(), inner, inner.length(), out);
            between = ",";
        }
        out.append(newline).append(base).append(value.isObject() ? '}' : ']');
    }

    private record Member(String name, JsonNode value) {}

    private static List<Member> members(JsonNode value) {
        List<Member> members = new ArrayList<>(value.size());
        if (value.isObject()) {
            value.properties().forEach(each -> members.add(new Member(each.getKey(), each.getValue())));
        } else {
            value.forEach(each -> members.add(new Member("", each)));
        }
        return members;
    }

    private void flat(JsonNode value, StringBuilder out) {
        if (value.isTextual()) {
            out.append(quoted(value.textValue()));
        } else if (value.isNumber()) {
            out.append(number(value));
        } else if (!value.isContainerNode()) {
            out.append(value.asText());
        } else if (value.isEmpty()) {
            out.append(value.isObject() ? "{}" : "[]");
        } else if (value.isObject()) {
            String between = "{" + pad;
            for (Member member : members(value)) {
                out.append(between).append(quoted(member.name())).append(colon);
                flat(member.value(), out);
                between = comma;
            }
            out.append(pad).append('}');
        } else {
            String between = "[";
            for (JsonNode each : value) {
                out.append(between);
                flat(each, out);
                between = comma;
            }
            out.append(']');
        }
    }

    private static String number(JsonNode value) {
        if (value.isIntegralNumber()) {
            return value.asText();
        }
        double asDouble = value.doubleValue();
        if (!Double.isFinite(asDouble) && !value.isBigDecimal()) {
            return value.asText();
        }
        BigDecimal decimal = value.decimalValue();
        return Math.abs(decimal.scale()) > 30 ? decimal.toString() : decimal.toPlainString();
    }

    /** Returns a text in quotes; half a surrogate pair, which UTF-8 can't hold, as its code. */
    static String quoted(String text) {
        char[] quoted = JsonStringEncoder.getInstance().quoteAsString(text);
        StringBuilder out = new StringBuilder(quoted.length + 2).append('"');
        for (int i = 0; i < quoted.length; i++) {
            char each = quoted[i];
            boolean pair =
                    Character.isHighSurrogate(each) && i + 1 < quoted.length && Character.isLowSurrogate(quoted[i + 1]);
            if (pair) {
                out.append(each).append(quoted[++i]);
            } else if (Character.isSurrogate(each)) {
                out.append("\\u").append(Integer.toHexString(each));
            } else {
                out.append(each);
            }
        }
        return out.append('"').toString();
    }
}
