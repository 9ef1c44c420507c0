package pigmentbook.sheet;

import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;

/** Builds XML and HTML as text; everything that is not mark-up is escaped. */
final class Xml {

    private final StringBuilder out = new StringBuilder(1 << 16);
    private final Deque<String> open = new ArrayDeque<>();
    private boolean inTag;

    /** Adds text as it stands: a declaration. */
    Xml raw(String text) {
        endTag();
        out.append(text);
        return this;
    }

    Xml open(String name) {
        endTag();
        out.append('<').append(name);
        open.push(name);
        inTag = true;
        return this;
    }

    Xml attr(String name, String value) {
        out.append(' ').append(name).append("=\"");
        escape(value, true);
        out.append('"');
        return this;
    }

    Xml attr(String name, int value) {
        return attr(name, Integer.toString(value));
    }

    Xml text(String text) {
        endTag();
        escape(text, false);
        return this;
    }

    /** Ends the element that was opened last; an empty one in the short form. */
    Xml close() {
        String name = open.pop();
        if (inTag) {
            out.append("/>");
            inTag = false;
        } else {
            out.append("</").append(name).append('>');
        }
        return this;
    }

    /** Ends the element that was opened last in the long form, as HTML wants it. */
    Xml closeLong() {
        endTag();
        return close();
    }

    @Override
    public String toString() {
        return out.toString();
    }

    byte[] bytes() {
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }

    private void endTag() {
        if (inTag) {
            out.append('>');
            inTag = false;
        }
    }

    private void escape(String text, boolean attribute) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\n', '\t', '\r' -> {
                    if (attribute) {
                        out.append("&#").append((int) c).append(';');
                    } else {
                        out.append(c);
                    }
                }
                default -> out.append(c);
            }
        }
    }
}
