package pigmentbook.store;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;

/** Reads the text of one file into a tree, within limits, and finds the line of any value in it again. */
final class JsonFile {

    /** A record larger than this is none. */
    static final int MOST_BYTES = 8 * 1024 * 1024;

    private static final int MOST_DEPTH = 64;
    private static final int MOST_TEXT = 1024 * 1024;
    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    static final JsonFactory FACTORY = JsonFactory.builder()
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(MOST_DEPTH)
                    .maxStringLength(MOST_TEXT)
                    .maxNumberLength(100)
                    .build())
            .build();

    private JsonFile() {}

    /**
     * Reads a file's bytes.
     *
     * @return the object that the file holds
     * @throws RefusedException if it holds none
     */
    static ObjectNode read(byte[] bytes) throws RefusedException {
        requireText(bytes);
        try (JsonParser parser = FACTORY.createParser(bytes, offset(bytes), bytes.length - offset(bytes))) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                throw new RefusedException(
                        line(parser), "not-a-record", "Here stands no record; a file begins with { and ends with }.");
            }
            ObjectNode object = object(parser);
            if (parser.nextToken() != null) {
                throw new RefusedException(
                        line(parser), "not-json", "After the closing } something follows; take it out.");
            }
            return object;
        } catch (StreamConstraintsException e) {
            throw new RefusedException(
                    1, "too-large", "The file is nested too deeply or holds too long a text; no record needs that.");
        } catch (JsonParseException e) {
            int line = e.getLocation() == null ? 1 : e.getLocation().getLineNr();
            throw unreadable(e, line);
        } catch (IOException e) {
            throw new RefusedException(1, "not-utf-8", "The file is not UTF-8 text. Save it again as UTF-8.");
        }
    }

    private static RefusedException unreadable(JsonParseException e, int line) {
        String said = e.getOriginalMessage();
        if (said.contains("end-of-input")) {
            return new RefusedException(
                    line, "truncated", "The file ends in the middle of a record. Fetch it again or complete it.");
        }
        if (said.contains("UTF-8")) {
            return notUtf8(line);
        }
        return new RefusedException(
                line,
                "not-json",
                "This line is no JSON: look for a missing or extra comma, quote or bracket here or on the line above.");
    }

    private static void requireText(byte[] bytes) throws RefusedException {
        if (bytes.length > MOST_BYTES) {
            throw tooLarge();
        }
        boolean blank = true;
        for (int i = offset(bytes); i < bytes.length && blank; i++) {
            blank = bytes[i] == ' ' || bytes[i] == '\n' || bytes[i] == '\r' || bytes[i] == '\t';
        }
        if (blank) {
            throw new RefusedException(1, "empty", "The file is empty. Fetch it again, or take it away.");
        }
        int first = bytes[0] & 0xff;
        int second = bytes.length > 1 ? bytes[1] & 0xff : -1;
        if ((first == 0xff && second == 0xfe) || (first == 0xfe && second == 0xff) || first == 0 || second == 0) {
            throw new RefusedException(1, "not-utf-8", "The file is UTF-16 text. Save it again as UTF-8.");
        }
        requireUtf8(bytes);
    }

    /** The parser lets some bytes pass that are no UTF-8, such as a quote in two bytes; saving would change them. */
    private static void requireUtf8(byte[] bytes) throws RefusedException {
        int ascii = 0;
        while (ascii < bytes.length && bytes[ascii] >= 0) {
            ascii++;
        }
        if (ascii == bytes.length) {
            return;
        }
        ByteBuffer in = ByteBuffer.wrap(bytes, ascii, bytes.length - ascii);
        CoderResult result = StandardCharsets.UTF_8.newDecoder().decode(in, CharBuffer.allocate(in.remaining()), true);
        if (result.isError()) {
            int line = 1;
            for (int i = 0; i < in.position(); i++) {
                line += bytes[i] == '\n' ? 1 : 0;
            }
            throw notUtf8(line);
        }
    }

    private static RefusedException notUtf8(int line) {
        return new RefusedException(
                line, "not-utf-8", "This line holds bytes that are no UTF-8 text. Save the file again as UTF-8.");
    }

    static RefusedException tooLarge() {
        return new RefusedException(
                1, "too-large", "The file is larger than " + MOST_BYTES / 1024 / 1024 + " MiB; no record needs that.");
    }

    /** Returns 3 behind a byte order mark, else 0. */
    static int offset(byte[] bytes) {
        return bytes.length >= 3 && bytes[0] == (byte) 0xef && bytes[1] == (byte) 0xbb && bytes[2] == (byte) 0xbf
                ? 3
                : 0;
    }

    private static int line(JsonParser parser) {
        return Math.max(1, parser.currentTokenLocation().getLineNr());
    }

    private static ObjectNode object(JsonParser parser) throws IOException, RefusedException {
        ObjectNode object = NODES.objectNode();
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            String name = parser.currentName();
            int line = line(parser);
            parser.nextToken();
            if (object.replace(name, value(parser)) != null) {
                throw new RefusedException(
                        line,
                        "duplicate-field",
                        "\"" + Records.shown(name) + "\" stands here a second time. Keep one of the two.");
            }
        }
        return object;
    }

    private static JsonNode value(JsonParser parser) throws IOException, RefusedException {
        return switch (parser.currentToken()) {
            case START_OBJECT -> object(parser);
            case START_ARRAY -> {
                ArrayNode array = NODES.arrayNode();
                while (parser.nextToken() != JsonToken.END_ARRAY) {
                    array.add(value(parser));
                }
                yield array;
            }
            case VALUE_STRING -> NODES.textNode(parser.getText());
            case VALUE_TRUE -> NODES.booleanNode(true);
            case VALUE_FALSE -> NODES.booleanNode(false);
            case VALUE_NULL -> NODES.nullNode();
            case VALUE_NUMBER_INT ->
                parser.getNumberType() == JsonParser.NumberType.INT
                        ? NODES.numberNode(parser.getIntValue())
                        : NODES.numberNode(parser.getDecimalValue());
            default -> NODES.numberNode(parser.getDecimalValue());
        };
    }

    /**
     * Returns the line, from 1, on which a value stands.
     *
     * @param bytes a file that could be read
     * @param path the way to the value, such as {@code /revisions/0/pigments/1/percent}; a part that is missing ends it
     */
    static int lineOf(byte[] bytes, String path) {
        int found = 1;
        try (JsonParser parser = FACTORY.createParser(bytes, offset(bytes), bytes.length - offset(bytes))) {
            while (parser.nextToken() != null) {
                String here = pointer(parser);
                if (path.equals(here) || (!here.isEmpty() && path.startsWith(here + "/"))) {
                    found = line(parser);
                    if (path.equals(here) && parser.currentToken() != JsonToken.FIELD_NAME) {
                        return found;
                    }
                }
            }
        } catch (IOException e) {
            return found;
        }
        return found;
    }

    private static String pointer(JsonParser parser) {
        return parser.getParsingContext().pathAsPointer().toString();
    }
}
