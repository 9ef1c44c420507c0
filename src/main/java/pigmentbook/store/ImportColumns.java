package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** What columns of former tables were said to hold, kept in the book's {@code import/columns.json}. */
final class ImportColumns {

    private final Map<String, Meaning> learnt = new HashMap<>();
    private final TreeMap<String, String> words = new TreeMap<>();
    private byte @Nullable [] bytes;
    private @Nullable String trouble;

    /** Reads what was learnt. A file that can't be read is left as it is, and nothing is learnt then. */
    static ImportColumns of(Path folder) {
        ImportColumns columns = new ImportColumns();
        Path file = folder.resolve(PackPath.COLUMNS);
        if (!Files.exists(file)) {
            return columns;
        }
        try {
            columns.bytes = Files.readAllBytes(file);
            JsonNode said = JsonFile.read(columns.bytes).path("columns");
            said.properties().forEach(each -> {
                Meaning meaning = Meaning.ofWord(each.getValue().asText());
                if (meaning != null) {
                    columns.learn(each.getKey(), meaning);
                }
            });
        } catch (IOException | RefusedException e) {
            columns.trouble =
                    PackPath.COLUMNS + " in the book can't be read, so nothing was remembered: " + e.getMessage();
        }
        return columns;
    }

    private void learn(String head, Meaning meaning) {
        learnt.put(ImportTable.folded(head), meaning);
        words.put(ImportTable.folded(head), meaning.word());
    }

    /**
     * Adds what is said now.
     *
     * @throws ImportRefusedException if a word says no meaning
     */
    void add(Map<String, String> said) throws ImportRefusedException {
        for (Map.Entry<String, String> each : said.entrySet()) {
            Meaning meaning = Meaning.ofWord(each.getValue());
            if (meaning == null) {
                throw new ImportRefusedException("\"" + Records.shown(each.getValue())
                        + "\" is nothing that a column holds; one of " + Meaning.words() + " was expected.");
            }
            learn(each.getKey(), meaning);
        }
    }

    Map<String, Meaning> learnt() {
        return learnt;
    }

    @Nullable
    String trouble() {
        return trouble;
    }

    /** Returns the file to write, or null where nothing new is to be remembered. */
    Batch.@Nullable Write write() {
        if (words.isEmpty() || trouble != null) {
            return null;
        }
        ObjectNode file = JsonNodeFactory.instance.objectNode();
        ObjectNode columns = file.putObject("columns");
        words.forEach(columns::put);
        byte[] now = JsonLayout.file(file).getBytes(StandardCharsets.UTF_8);
        byte[] before = bytes;
        if (before != null && java.util.Arrays.equals(before, now)) {
            return null;
        }
        return new Batch.Write(PackPath.COLUMNS, before == null ? null : Versions.of(before), false, () -> now);
    }
}
