package pigmentbook.store;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Changes values in the text of a file and leaves every other character as it was: order of fields, white space, a
 * person's spelling of amounts, fields this program does not know.
 */
final class JsonSplice {

    private final String text;
    private final List<Change> changes = new ArrayList<>();

    private JsonSplice(String text) {
        this.text = text;
    }

    /** Some text to put in the place of another. */
    private record Change(int from, int to, String with) {}

    /**
     * Where a value stands.
     *
     * @param keyStart where the name of its field begins, or its own start
     * @param start where it begins
     * @param end where it ends
     * @param members an object's fields, in order
     * @param elements a list's elements
     */
    private record Span(int keyStart, int start, int end, Map<String, Span> members, List<Span> elements) {}

    /**
     * Returns the text with the changes made.
     *
     * @param text the file's text, which holds {@code before}
     * @param before what it says
     * @param after what it is to say
     */
    static String apply(String text, JsonNode before, JsonNode after) throws IOException {
        JsonSplice splice = new JsonSplice(text);
        try (JsonParser parser = JsonFile.FACTORY.createParser(text)) {
            parser.nextToken();
            splice.change(splice.span(parser, offset(parser)), before, after);
        }
        splice.changes.sort((a, b) -> Integer.compare(a.from(), b.from()));
        StringBuilder out = new StringBuilder(text.length() + 64);
        int at = 0;
        for (Change change : splice.changes) {
            out.append(text, at, change.from()).append(change.with());
            at = change.to();
        }
        return out.append(text, at, text.length()).toString();
    }

    private static int offset(JsonParser parser) {
        return (int) parser.currentTokenLocation().getCharOffset();
    }

    private Span span(JsonParser parser, int keyStart) throws IOException {
        int start = offset(parser);
        Map<String, Span> members = new LinkedHashMap<>();
        List<Span> elements = new ArrayList<>();
        if (parser.currentToken() == JsonToken.START_OBJECT) {
            while (parser.nextToken() != JsonToken.END_OBJECT) {
                String name = parser.currentName();
                int key = offset(parser);
                parser.nextToken();
                members.put(name, span(parser, key));
            }
        } else if (parser.currentToken() == JsonToken.START_ARRAY) {
            while (parser.nextToken() != JsonToken.END_ARRAY) {
                elements.add(span(parser, offset(parser)));
            }
        } else {
            return new Span(keyStart, start, start + length(parser, start), members, elements);
        }
        return new Span(keyStart, start, offset(parser) + 1, members, elements);
    }

    /** Returns how long a plain value is: a text up to its closing quote, else up to what can't belong to it. */
    private int length(JsonParser parser, int start) {
        if (parser.currentToken() == JsonToken.VALUE_STRING) {
            int at = start + 1;
            while (text.charAt(at) != '"') {
                at += text.charAt(at) == '\\' ? 2 : 1;
            }
            return at + 1 - start;
        }
        int at = start;
        while (at < text.length() && ",]} \t\r\n".indexOf(text.charAt(at)) < 0) {
            at++;
        }
        return at - start;
    }

    private void change(Span span, JsonNode before, JsonNode after) {
        if (before.equals(after)) {
            return;
        }
        boolean objects = before.isObject() && after.isObject() && !before.isEmpty() && keepsSome(before, after);
        boolean lists = before.isArray() && after.isArray() && !before.isEmpty() && !after.isEmpty();
        if (objects) {
            members(span, before, after);
        } else if (lists) {
            elements(span, before, after);
        } else {
            changes.add(new Change(span.start(), span.end(), value(after, span.start())));
        }
    }

    private static boolean keepsSome(JsonNode before, JsonNode after) {
        for (Iterator<String> names = before.fieldNames(); names.hasNext(); ) {
            if (after.has(names.next())) {
                return true;
            }
        }
        return false;
    }

    private String value(JsonNode node, int at) {
        return JsonLayout.value(node, indentAt(at)).replace("\n", lineEnd());
    }

    private String lineEnd() {
        return text.contains("\r\n") ? "\r\n" : "\n";
    }

    private String indentAt(int at) {
        int line = text.lastIndexOf('\n', Math.max(0, at - 1)) + 1;
        int end = line;
        while (end < text.length() && (text.charAt(end) == ' ' || text.charAt(end) == '\t')) {
            end++;
        }
        return text.substring(line, end);
    }

    private void members(Span span, JsonNode before, JsonNode after) {
        List<Map.Entry<String, Span>> all = new ArrayList<>(span.members().entrySet());
        int first = 0;
        while (!after.has(all.get(first).getKey())) {
            first++;
        }
        if (first > 0) {
            changes.add(new Change(
                    all.get(0).getValue().keyStart(), all.get(first).getValue().keyStart(), ""));
        }
        int lastEnd = 0;
        for (int i = first; i < all.size(); i++) {
            String name = all.get(i).getKey();
            Span member = all.get(i).getValue();
            JsonNode old = before.get(name);
            JsonNode now = after.get(name);
            if (now == null) {
                changes.add(new Change(all.get(i - 1).getValue().end(), member.end(), ""));
            } else if (old != null) {
                change(member, old, now);
            }
            lastEnd = member.end();
        }
        StringBuilder added = new StringBuilder();
        String between = all.size() > 1
                ? gap(all.get(0).getValue().end(), all.get(1).getValue().keyStart())
                : text.substring(span.start() + 1, all.get(0).getValue().keyStart());
        for (Map.Entry<String, JsonNode> field : after.properties()) {
            if (!span.members().containsKey(field.getKey())) {
                added.append(',').append(between.isEmpty() ? " " : between);
                JsonLayout.quote(added, field.getKey());
                added.append(": ")
                        .append(value(field.getValue(), all.get(0).getValue().keyStart()));
            }
        }
        if (added.length() > 0) {
            changes.add(new Change(lastEnd, lastEnd, added.toString()));
        }
    }

    /** Returns the white space behind the comma between two values. */
    private String gap(int end, int next) {
        return text.substring(text.indexOf(',', end) + 1, next);
    }

    private void elements(Span span, JsonNode before, JsonNode after) {
        int prefix = 0;
        int shorter = Math.min(before.size(), after.size());
        while (prefix < shorter && before.get(prefix).equals(after.get(prefix))) {
            prefix++;
        }
        int suffix = 0;
        while (suffix < shorter - prefix
                && before.get(before.size() - 1 - suffix).equals(after.get(after.size() - 1 - suffix))) {
            suffix++;
        }
        List<Span> all = span.elements();
        int oldMiddle = before.size() - prefix - suffix;
        int newMiddle = after.size() - prefix - suffix;
        int paired = Math.min(oldMiddle, newMiddle);
        for (int i = prefix; i < prefix + paired; i++) {
            change(all.get(i), before.get(i), after.get(i));
        }
        int at = prefix + paired;
        if (oldMiddle > newMiddle) {
            int until = prefix + oldMiddle;
            if (at > 0) {
                changes.add(new Change(all.get(at - 1).end(), all.get(until - 1).end(), ""));
            } else {
                changes.add(new Change(all.get(0).start(), all.get(until).start(), ""));
            }
        } else if (newMiddle > oldMiddle) {
            String between = all.size() > 1
                    ? gap(all.get(0).end(), all.get(1).start())
                    : text.substring(span.start() + 1, all.get(0).start());
            String space = between.isEmpty() ? " " : between;
            StringBuilder added = new StringBuilder();
            for (int i = at; i < prefix + newMiddle; i++) {
                String value = value(after.get(i), all.get(0).start());
                added.append(at > 0 ? "," + space + value : value + "," + space);
            }
            int where = at > 0 ? all.get(at - 1).end() : all.get(0).start();
            changes.add(new Change(where, where, added.toString()));
        }
    }
}
