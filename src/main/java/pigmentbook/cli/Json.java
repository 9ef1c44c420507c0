package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Writes JSON answers: two spaces, UTF-8, a line feed at the end. */
final class Json {

    private Json() {}

    /** Something that is written. */
    interface Body {
        void write(JsonGenerator json) throws IOException;
    }

    /** Writes an answer. */
    static void write(PrintStream out, Body body) {
        try (JsonGenerator json = new JsonFactory()
                .createGenerator(out)
                .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
                .setPrettyPrinter(new DefaultPrettyPrinter()
                        .withArrayIndenter(new com.fasterxml.jackson.core.util.DefaultIndenter("  ", "\n"))
                        .withObjectIndenter(new com.fasterxml.jackson.core.util.DefaultIndenter("  ", "\n")))) {
            body.write(json);
            json.writeRaw('\n');
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Writes a number, or null where there is none. */
    static void number(JsonGenerator json, String name, @Nullable Double value) throws IOException {
        if (value == null) {
            json.writeNullField(name);
        } else {
            json.writeNumberField(name, value);
        }
    }

    /** Writes a text, or null where there is none. */
    static void text(JsonGenerator json, String name, @Nullable Object value) throws IOException {
        if (value == null) {
            json.writeNullField(name);
        } else {
            json.writeStringField(name, value.toString());
        }
    }

    /** Writes a list of texts. */
    static void texts(JsonGenerator json, String name, Iterable<String> values) throws IOException {
        json.writeArrayFieldStart(name);
        for (String each : values) {
            json.writeString(each);
        }
        json.writeEndArray();
    }

    /** Writes a value as it is. */
    static void tree(JsonGenerator json, JsonNode value) throws IOException {
        if (value.isObject()) {
            json.writeStartObject();
            for (Map.Entry<String, JsonNode> each : value.properties()) {
                json.writeFieldName(each.getKey());
                tree(json, each.getValue());
            }
            json.writeEndObject();
        } else if (value.isArray()) {
            json.writeStartArray();
            for (JsonNode each : value) {
                tree(json, each);
            }
            json.writeEndArray();
        } else if (value.isInt()) {
            json.writeNumber(value.intValue());
        } else if (value.isNumber()) {
            json.writeNumber(value.decimalValue());
        } else if (value.isTextual()) {
            json.writeString(value.textValue());
        } else if (value.isBoolean()) {
            json.writeBoolean(value.booleanValue());
        } else {
            json.writeNull();
        }
    }
}
