package pigmentbook.store;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Where a value stands in a text.
 *
 * @param from its first character
 * @param to behind its last character
 * @param members what an object or a list holds, in order; empty for other values
 */
record JsonSpan(int from, int to, List<Member> members) {

    /**
     * One field of an object, or one value of a list.
     *
     * @param name the field's name; null in a list
     * @param from where the name begins; in a list, where the value begins
     * @param value where the value stands
     */
    record Member(@Nullable String name, int from, JsonSpan value) {
        int to() {
            return value.to();
        }
    }

    /**
     * Finds every value of a text.
     *
     * @param text JSON that could be read, without a byte order mark
     */
    static JsonSpan of(String text) {
        char[] chars = text.toCharArray();
        try (JsonParser parser = JsonFile.FACTORY.createParser(chars, 0, chars.length)) {
            parser.nextToken();
            return value(parser);
        } catch (IOException e) {
            throw new IllegalArgumentException("only text that could be read has spans", e);
        }
    }

    private static int from(JsonParser parser) {
        return (int) parser.currentTokenLocation().getCharOffset();
    }

    private static JsonSpan value(JsonParser parser) throws IOException {
        int from = from(parser);
        List<Member> members = new ArrayList<>();
        if (parser.currentToken() == JsonToken.START_OBJECT) {
            while (parser.nextToken() != JsonToken.END_OBJECT) {
                String name = parser.currentName();
                int nameFrom = from(parser);
                parser.nextToken();
                members.add(new Member(name, nameFrom, value(parser)));
            }
        } else if (parser.currentToken() == JsonToken.START_ARRAY) {
            while (parser.nextToken() != JsonToken.END_ARRAY) {
                JsonSpan value = value(parser);
                members.add(new Member(null, value.from(), value));
            }
        } else {
            parser.finishToken();
        }
        return new JsonSpan(from, (int) parser.currentLocation().getCharOffset(), List.copyOf(members));
    }
}
