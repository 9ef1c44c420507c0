package pigmentbook.store;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.Map;

/** Lays JSON out to be read by people: what fits on a line stands on a line. */
final class JsonLayout {

    private static final int WIDTH = 118;
    private static final String STEP = "  ";

    private JsonLayout() {}

    /** Returns the text of a whole file: the record over several lines, and a line's end. */
    static String file(JsonNode record) {
        StringBuilder out = new StringBuilder();
        broken(out, record, "");
        return out.append('\n').toString();
    }

    /**
     * Returns a value as it stands in a file.
     *
     * @param indent the white space that the value's line begins with
     */
    static String value(JsonNode node, String indent) {
        StringBuilder out = new StringBuilder();
        value(out, node, indent);
        return out.toString();
    }

    private static void value(StringBuilder out, JsonNode node, String indent) {
        int before = out.length();
        inline(out, node);
        if (node.isContainerNode() && !node.isEmpty() && out.length() - before + indent.length() > WIDTH) {
            out.setLength(before);
            broken(out, node, indent);
        }
    }

    private static void broken(StringBuilder out, JsonNode node, String indent) {
        if (!node.isContainerNode() || node.isEmpty()) {
            inline(out, node);
            return;
        }
        String deeper = indent + STEP;
        out.append(node.isObject() ? '{' : '[');
        String before = "\n";
        if (node.isObject()) {
            for (Map.Entry<String, JsonNode> field : node.properties()) {
                out.append(before).append(deeper);
                quote(out, field.getKey());
                out.append(": ");
                value(out, field.getValue(), deeper);
                before = ",\n";
            }
        } else {
            for (JsonNode element : node) {
                out.append(before).append(deeper);
                value(out, element, deeper);
                before = ",\n";
            }
        }
        out.append('\n').append(indent).append(node.isObject() ? '}' : ']');
    }

    private static void inline(StringBuilder out, JsonNode node) {
        if (node.isObject() && !node.isEmpty()) {
            String before = "{ ";
            for (Map.Entry<String, JsonNode> field : node.properties()) {
                out.append(before);
                quote(out, field.getKey());
                out.append(": ");
                inline(out, field.getValue());
                before = ", ";
            }
            out.append(" }");
        } else if (node.isArray() && !node.isEmpty()) {
            String before = "[";
            for (JsonNode element : node) {
                out.append(before);
                inline(out, element);
                before = ", ";
            }
            out.append(']');
        } else if (node.isTextual()) {
            quote(out, node.textValue());
        } else {
            out.append(node.isObject() ? "{}" : node.isArray() ? "[]" : node.asText());
        }
    }

    static void quote(StringBuilder out, String text) {
        out.append('"');
        JsonStringEncoder.getInstance().quoteAsString(text, out);
        out.append('"');
    }
}
