package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;

/** JSON that is no record of the book, read within the same limits. */
public final class LooseJson {

    private LooseJson() {}

    /**
     * Reads an object.
     *
     * @throws IOException if the bytes hold none; the message says why, in whole sentences
     */
    public static ObjectNode read(byte[] bytes) throws IOException {
        try {
            return JsonFile.read(bytes);
        } catch (RefusedException e) {
            throw new IOException(e.getMessage());
        }
    }

    /** Returns the text of a value, laid out as the book's files are. */
    public static String text(ObjectNode value) {
        return JsonLayout.file(value);
    }

    /** Returns a value on one line. */
    public static String line(ObjectNode value) {
        return new JsonLayout("", "", ":", "", ",").value(value, "", 0);
    }
}
