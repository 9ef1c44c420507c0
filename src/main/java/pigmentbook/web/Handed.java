package pigmentbook.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import pigmentbook.store.SaveFailedException;

/**
 * What a page hands in: a line of JSON with what is asked, then the file, which goes to the disk as it comes in and is
 * deleted when all is done. Its name is only ever shown.
 *
 * @param asked what is asked
 * @param file the file, under a name of our own
 * @param sum its SHA-256, in hexadecimal
 */
record Handed(JsonNode asked, Path file, String sum) implements AutoCloseable {

    /** The largest file that is taken in. */
    static final long MOST_BYTES = 256L * 1024 * 1024;

    private static final int MOST_ASKED = 64 * 1024;
    private static final int MOST_TEXT = 200;
    private static final int MOST_PAIRS = 400;
    private static final int PIECE = 64 * 1024;

    /**
     * Takes what comes in.
     *
     * @throws SaveFailedException if the file is too large
     * @throws SheetEdits.BadRequest if it is not as our own pages send it
     */
    static Handed of(Context context) throws IOException, SaveFailedException {
        InputStream in = new BufferedInputStream(context.bodyInputStream());
        JsonNode asked = asked(in);
        Path file = Files.createTempFile("handed-in", ".tmp");
        boolean whole = false;
        try {
            Handed handed = new Handed(asked, file, copy(in, file));
            whole = true;
            return handed;
        } finally {
            if (!whole) {
                Files.deleteIfExists(file);
            }
        }
    }

    private static JsonNode asked(InputStream in) throws IOException {
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        int each = in.read();
        while (each >= 0 && each != '\n' && line.size() < MOST_ASKED) {
            line.write(each);
            each = in.read();
        }
        try {
            JsonNode asked = each == '\n' ? SheetEdits.Json.MAPPER.readTree(line.toByteArray()) : null;
            if (asked != null && asked.isObject()) {
                return asked;
            }
        } catch (JsonProcessingException e) {
            throw unreadable();
        }
        throw unreadable();
    }

    private static SheetEdits.BadRequest unreadable() {
        return new SheetEdits.BadRequest("This could not be read. Nothing was changed.");
    }

    private static String copy(InputStream in, Path file) throws IOException, SaveFailedException {
        MessageDigest sum;
        try {
            sum = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
        long bytes = 0;
        byte[] piece = new byte[PIECE];
        try (OutputStream out = Files.newOutputStream(file)) {
            for (int read = in.read(piece); read >= 0; read = in.read(piece)) {
                bytes += read;
                if (bytes > MOST_BYTES) {
                    throw new SaveFailedException("The file is larger than " + MOST_BYTES / 1024 / 1024
                            + " MB. A larger pack is taken in with the command unpack. Nothing was kept.");
                }
                sum.update(piece, 0, read);
                out.write(piece, 0, read);
            }
        }
        if (bytes == 0) {
            throw new SaveFailedException("The file is empty. A table or a pack was expected.");
        }
        return HexFormat.of().formatHex(sum.digest());
    }

    String text(String name) {
        return Acts.cut(asked.path(name).asText(""), MOST_TEXT);
    }

    boolean is(String name) {
        return asked.path(name).asBoolean(false);
    }

    /** Returns texts by name; empty ones and those beyond any table's need are left out. */
    Map<String, String> pairs(String name) {
        Map<String, String> pairs = new LinkedHashMap<>();
        asked.path(name).properties().stream().limit(MOST_PAIRS).forEach(each -> {
            String text = Acts.cut(each.getValue().asText(""), MOST_TEXT);
            if (!text.isEmpty()) {
                pairs.put(each.getKey(), text);
            }
        });
        return pairs;
    }

    @Override
    public void close() throws IOException {
        Files.deleteIfExists(file);
    }
}
