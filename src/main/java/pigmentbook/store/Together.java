package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Several records that change as one. What they are to be is written into one file first; from the moment that this
 * file is in its place the change is made, and whoever comes next finishes what a stop cut short. Before that moment
 * nothing was changed.
 */
final class Together {

    /** Hidden, so that it is no record and goes into no pack. */
    static final String FILE = ".together";

    private Together() {}

    /**
     * A record's file as it is to be.
     *
     * @param before the version it has now, or null where it is new
     * @param text its text
     */
    record Part(Kind kind, String id, @Nullable String before, String text) {}

    /** Writes the records, for somebody who holds the book. */
    static void write(RecordFiles files, Path folder, List<Part> parts) throws SaveFailedException {
        ObjectNode all = JsonNodeFactory.instance.objectNode();
        ArrayNode list = all.putArray("together");
        for (Part part : parts) {
            list.addObject()
                    .put("kind", part.kind().name())
                    .put("id", part.id())
                    .put("before", part.before())
                    .put("is", part.text());
        }
        byte[] bytes = JsonLayout.file(all).getBytes(StandardCharsets.UTF_8);
        try {
            read(bytes);
        } catch (RefusedException e) {
            // What could not be read again would stand in the way of every later change.
            throw new SaveFailedException("These records are too long to be changed together: "
                    + String.join(", ", parts.stream().map(Part::id).toList())
                    + ". Shorten their notes. Nothing was changed.");
        }
        files.put(folder.resolve(FILE), bytes);
        finish(files, folder);
    }

    /** Finishes what was begun, for somebody who holds the book. A record that says something else by now stays. */
    static void finish(RecordFiles files, Path folder) throws SaveFailedException {
        Path begun = folder.resolve(FILE);
        byte[] bytes = Files.exists(begun) ? RecordFiles.bytes(begun) : null;
        if (bytes == null) {
            return;
        }
        List<Part> parts;
        try {
            parts = read(bytes);
        } catch (RefusedException | SaveFailedException | IllegalArgumentException e) {
            throw new SaveFailedException("The file \"" + begun
                    + "\" is to finish a change of several records, but can't be read. Move it away, then look what"
                    + " those records say. Nothing was changed.");
        }
        for (Part part : parts) {
            Path path = files.find(part.kind(), part.id());
            byte[] there = RecordFiles.bytes(path);
            if (Objects.equals(there == null ? null : Versions.of(there), part.before())) {
                files.makeFolder(RecordFiles.parent(path));
                files.put(path, part.text().getBytes(StandardCharsets.UTF_8));
            }
        }
        try {
            Files.deleteIfExists(begun);
        } catch (IOException e) {
            throw SaveFailures.of(folder, e);
        }
        files.force(folder);
    }

    /** Reads all of it before any of it is done. */
    private static List<Part> read(byte[] bytes) throws RefusedException, SaveFailedException {
        List<Part> parts = new ArrayList<>();
        for (JsonNode part : JsonFile.read(bytes).path("together")) {
            Kind kind = Kind.valueOf(part.path("kind").asText());
            String id = part.path("id").asText();
            String text = part.path("is").asText();
            RecordFiles.requireId(kind, id);
            Records.read(kind, id, text.getBytes(StandardCharsets.UTF_8));
            parts.add(new Part(kind, id, part.path("before").textValue(), text));
        }
        return parts;
    }
}
