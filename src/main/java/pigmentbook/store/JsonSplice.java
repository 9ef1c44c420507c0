package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Writes a changed record into the text it came from, so that only what changed is written anew: white space, the order
 * of fields and the spelling of numbers stay as the person left them.
 */
final class JsonSplice {

    private final String text;
    private final JsonLayout layout;
    private final List<Edit> edits = new ArrayList<>();

    private record Edit(int from, int to, String text) {}

    private JsonSplice(String text, JsonLayout layout) {
        this.text = text;
        this.layout = layout;
    }

    /**
     * Returns the text with the changes written in.
     *
     * @param text JSON that could be read, without a byte order mark
     * @param before what the text says
     * @param after what it should say
     */
    static String apply(String text, ObjectNode before, ObjectNode after) {
        JsonSpan root = JsonSpan.of(text);
        JsonSplice splice = new JsonSplice(text, layout(text, root));
        splice.value(root, before, after);
        return splice.applied();
    }

    private String applied() {
        edits.sort(Comparator.comparingInt(Edit::from).thenComparingInt(Edit::to));
        StringBuilder out = new StringBuilder(text.length() + 64);
        int at = 0;
        for (Edit edit : edits) {
            out.append(text, at, edit.from()).append(edit.text());
            at = edit.to();
        }
        return out.append(text, at, text.length()).toString();
    }

    /** Returns whether two values say the same; 1.0 and 1 do, and the order of an object's fields says nothing. */
    static boolean same(JsonNode a, JsonNode b) {
        if (a.isNumber() && b.isNumber()) {
            return a.equals(b) || (finite(a) && finite(b) && a.decimalValue().compareTo(b.decimalValue()) == 0);
        }
        if (a.getNodeType() != b.getNodeType() || a.size() != b.size()) {
            return false;
        }
        if (a.isArray()) {
            for (int i = 0; i < a.size(); i++) {
                if (!same(a.get(i), b.get(i))) {
                    return false;
                }
            }
            return true;
        }
        if (a.isObject()) {
            for (Map.Entry<String, JsonNode> each : a.properties()) {
                JsonNode other = b.get(each.getKey());
                if (other == null || !same(each.getValue(), other)) {
                    return false;
                }
            }
            return true;
        }
        return a.equals(b);
    }

    private static boolean finite(JsonNode number) {
        return number.isBigDecimal() || number.isIntegralNumber() || Double.isFinite(number.doubleValue());
    }

    private void value(JsonSpan span, JsonNode before, JsonNode after) {
        if (same(before, after)) {
            return;
        }
        boolean bothFilled = !before.isEmpty() && !after.isEmpty();
        if (bothFilled && before.isObject() && after.isObject()) {
            object(span, before, after);
        } else if (bothFilled && before.isArray() && after.isArray()) {
            list(span, before, after);
        } else {
            edits.add(new Edit(span.from(), span.to(), written(after, span.from())));
        }
    }

    private void object(JsonSpan span, JsonNode before, JsonNode after) {
        List<JsonSpan.Member> members = span.members();
        Set<Integer> removed = new HashSet<>();
        int lastKept = -1;
        for (int i = 0; i < members.size(); i++) {
            String name = String.valueOf(members.get(i).name());
            JsonNode value = after.get(name);
            if (value == null) {
                removed.add(i);
            } else {
                value(members.get(i).value(), before.get(name), value);
                lastKept = i;
            }
        }
        if (lastKept < 0) {
            edits.add(new Edit(span.from(), span.to(), written(after, span.from())));
            return;
        }
        remove(members, removed);
        StringBuilder added = new StringBuilder();
        String separator = separator(span);
        int at = members.get(lastKept).to();
        for (Map.Entry<String, JsonNode> each : after.properties()) {
            if (!before.has(each.getKey())) {
                String name = JsonLayout.quoted(each.getKey()) + layout.colon();
                added.append(separator).append(name).append(member(each.getValue(), separator, at));
            }
        }
        if (added.length() > 0) {
            edits.add(new Edit(at, at, added.toString()));
        }
    }

    /** Keeps what the two lists begin and end with, and writes what is between value by value. */
    private void list(JsonSpan span, JsonNode before, JsonNode after) {
        int begin = 0;
        int shorter = Math.min(before.size(), after.size());
        while (begin < shorter && same(before.get(begin), after.get(begin))) {
            begin++;
        }
        int end = 0;
        while (end < shorter - begin && same(before.get(before.size() - 1 - end), after.get(after.size() - 1 - end))) {
            end++;
        }
        List<JsonSpan.Member> members = span.members();
        for (int i = begin; i < shorter - end; i++) {
            value(members.get(i).value(), before.get(i), after.get(i));
        }
        Set<Integer> removed = new HashSet<>();
        for (int i = shorter - end; i < before.size() - end; i++) {
            removed.add(i);
        }
        remove(members, removed);
        insert(span, shorter - end, after, shorter - end, after.size() - end);
    }

    private void insert(JsonSpan span, int place, JsonNode after, int from, int to) {
        if (from >= to) {
            return;
        }
        String separator = separator(span);
        StringBuilder added = new StringBuilder();
        int at = place == 0
                ? span.members().get(0).from()
                : span.members().get(place - 1).to();
        for (int i = from; i < to; i++) {
            String value = member(after.get(i), separator, at);
            if (place == 0) {
                added.append(value).append(separator);
            } else {
                added.append(separator).append(value);
            }
        }
        edits.add(new Edit(at, at, added.toString()));
    }

    /** Takes members out together with the comma that they no longer need; at least one stays. */
    private void remove(List<JsonSpan.Member> members, Set<Integer> removed) {
        boolean keptBefore = false;
        for (int i = 0; i < members.size(); i++) {
            if (!removed.contains(i)) {
                keptBefore = true;
            } else if (keptBefore) {
                edits.add(new Edit(members.get(i - 1).to(), members.get(i).to(), ""));
            } else {
                edits.add(new Edit(members.get(i).from(), members.get(i + 1).from(), ""));
            }
        }
    }

    /** Returns what stands between two members of this object or list, or would. */
    private String separator(JsonSpan span) {
        List<JsonSpan.Member> members = span.members();
        int last = members.size() - 1;
        if (last > 0) {
            return text.substring(members.get(last - 1).to(), members.get(last).from());
        }
        String lead = text.substring(span.from() + 1, members.get(0).from());
        return lead.indexOf('\n') < 0 ? layout.comma() : "," + lead;
    }

    private String member(JsonNode value, String separator, int at) {
        int line = Math.max(separator.lastIndexOf('\n'), separator.lastIndexOf('\r'));
        if (line < 0) {
            return layout.value(value, base(at), at - lineStart(at) + separator.length());
        }
        String base = separator.substring(line + 1);
        return layout.value(value, base.replace(",", ""), base.length());
    }

    private String written(JsonNode value, int at) {
        return layout.value(value, base(at), at - lineStart(at));
    }

    private int lineStart(int at) {
        return Math.max(text.lastIndexOf('\n', at - 1), text.lastIndexOf('\r', at - 1)) + 1;
    }

    /** Returns what the line with this place is moved in by. */
    private String base(int at) {
        int from = lineStart(at);
        int to = from;
        while (to < at && (text.charAt(to) == ' ' || text.charAt(to) == '\t')) {
            to++;
        }
        return text.substring(from, to);
    }

    /** Finds out how a file is laid out, from its first field. */
    private static JsonLayout layout(String text, JsonSpan root) {
        Iterator<JsonSpan.Member> members = root.members().iterator();
        if (!members.hasNext()) {
            return JsonLayout.OWN;
        }
        JsonSpan.Member first = members.next();
        String lead = text.substring(root.from() + 1, first.from());
        String colon = colon(text.substring(first.from(), first.value().from()));
        int line = lead.lastIndexOf('\n');
        if (line < 0) {
            boolean tight = lead.isEmpty() && colon.equals(":");
            return new JsonLayout(newlineAnywhere(text), "  ", colon, lead.isEmpty() ? "" : " ", tight ? "," : ", ");
        }
        String newline = line > 0 && lead.charAt(line - 1) == '\r' ? "\r\n" : "\n";
        String indent = lead.substring(line + 1);
        return new JsonLayout(newline, indent.isEmpty() ? "" : indent, colon, " ", ", ");
    }

    /** Returns the colon with the white space around it, from a field's name and what follows up to its value. */
    private static String colon(String nameAndColon) {
        int to = nameAndColon.lastIndexOf(':');
        int from = to;
        while (from > 0 && Character.isWhitespace(nameAndColon.charAt(from - 1))) {
            from--;
        }
        String colon = nameAndColon.substring(from);
        return colon.indexOf('\n') < 0 ? colon : ": ";
    }

    private static String newlineAnywhere(String text) {
        int line = text.stripTrailing().indexOf('\n');
        return line < 0 ? "" : line > 0 && text.charAt(line - 1) == '\r' ? "\r\n" : "\n";
    }
}
