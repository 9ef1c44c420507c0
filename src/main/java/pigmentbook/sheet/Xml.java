package pigmentbook.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;

/**
 * Builds XML and HTML as UTF-8; everything that is not mark-up is escaped. It fills bytes by hand, for a sheet has ten
 * thousand small pieces and should take no longer to write than to compress.
 */
final class Xml {

    private byte[] out = new byte[1 << 14];
    private int size;
    private final Deque<String> open = new ArrayDeque<>();
    private boolean inTag;

    /** Adds text as it stands: a declaration, a style sheet. */
    Xml raw(String text) {
        endTag();
        plain(text);
        return this;
    }

    Xml open(String name) {
        endTag();
        put('<');
        ascii(name);
        open.push(name);
        inTag = true;
        return this;
    }

    Xml attr(String name, String value) {
        put(' ');
        ascii(name);
        put('=');
        put('"');
        escaped(value, true);
        put('"');
        return this;
    }

    Xml attr(String name, int value) {
        return attr(name, Integer.toString(value));
    }

    Xml text(String text) {
        endTag();
        escaped(text, false);
        return this;
    }

    /** Ends the element that was opened last; an empty one in the short form. */
    Xml close() {
        String name = open.pop();
        if (inTag) {
            put('/');
            inTag = false;
        } else {
            put('<');
            put('/');
            ascii(name);
        }
        put('>');
        return this;
    }

    /** Ends the element that was opened last in the long form, as HTML wants it. */
    Xml closeLong() {
        endTag();
        return close();
    }

    /** Writes what is built so far and goes on from there. */
    void moveTo(OutputStream stream) throws IOException {
        endTag();
        stream.write(out, 0, size);
        size = 0;
    }

    private void endTag() {
        if (inTag) {
            put('>');
            inTag = false;
        }
    }

    private void plain(String text) {
        if (isAscii(text)) {
            ascii(text);
        } else {
            encoded(text);
        }
    }

    private static boolean isAscii(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) >= 0x80) {
                return false;
            }
        }
        return true;
    }

    /** Copies the low bytes of a text that has no others; the quickest way there is. */
    @SuppressWarnings("deprecation")
    private void ascii(String text) {
        room(text.length());
        text.getBytes(0, text.length(), out, size);
        size += text.length();
    }

    private void escaped(String text, boolean attribute) {
        int length = text.length();
        room(length);
        for (int i = 0; i < length; i++) {
            char c = text.charAt(i);
            if (c >= 0x80) {
                int end = i + 1;
                while (end < length && text.charAt(end) >= 0x80) {
                    end++;
                }
                encoded(text.substring(i, end));
                i = end - 1;
                room(length - i);
            } else if (c == '&' || c == '<' || c == '>' || c == '"' || (attribute && c < ' ')) {
                plain(reference(c));
                room(length - i);
            } else {
                out[size++] = (byte) c;
            }
        }
    }

    private static String reference(char c) {
        return switch (c) {
            case '&' -> "&amp;";
            case '<' -> "&lt;";
            case '>' -> "&gt;";
            case '"' -> "&quot;";
            default -> "&#" + (int) c + ";";
        };
    }

    private void encoded(String text) {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        room(bytes.length);
        System.arraycopy(bytes, 0, out, size, bytes.length);
        size += bytes.length;
    }

    private void put(char c) {
        room(1);
        out[size++] = (byte) c;
    }

    private void room(int more) {
        if (size + more > out.length) {
            out = Arrays.copyOf(out, Math.max(out.length * 2, size + more));
        }
    }
}
