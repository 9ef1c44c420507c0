package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Numbers;

/** Colours in answers. */
final class Colours {

    private Colours() {}

    /** Writes a colour as [L, a, b]. */
    static void write(JsonGenerator json, Lab lab) throws IOException {
        json.writeStartArray();
        json.writeNumber(lab.l());
        json.writeNumber(lab.a());
        json.writeNumber(lab.b());
        json.writeEndArray();
    }

    /** Returns a colour for a person: {@code 41.2, 22.8, 36.1}. */
    static String text(Lab lab) {
        return Numbers.fixed(lab.l(), 1) + ", " + Numbers.fixed(lab.a(), 1) + ", " + Numbers.fixed(lab.b(), 1);
    }
}
