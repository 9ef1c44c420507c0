package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Item;
import pigmentbook.book.Recipe;
import pigmentbook.mix.Caution;
import pigmentbook.mix.OverPour;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Opened;

/** Says what to add to a cup that got too much of something. */
@Command(
        name = "over",
        mixinStandardHelpOptions = true,
        description = {
            "Say what to add to a cup that got too much of something, so that ratio and colour are right again.",
            "The file says what was meant and what is in the cup, in grams:",
            "  { \"recipe\": \"ember\", \"revision\": 4, \"total_g\": 500, \"in_cup\": { \"part A\": 360, \"amber-paste\": 5.7 } }",
            "It gives resin_g or total_g; absent items are 0; part A is the plain part A. It may add cup_g, the most the cup",
            "takes, and layer_g, the most the layer takes."
        },
        footer = {"", "Examples:", "  pigment-book over cup.json", "  pigment-book over - --format json < cup.json"})
final class OverCommand implements Callable<Integer> {

    private static final int MOST_BYTES = 1024 * 1024;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "CUP-FILE", description = "The file, or - for standard input.")
    @SuppressWarnings("NullAway.Init")
    private String file;

    @Override
    public Integer call() throws Exception {
        JsonNode cup = read();
        Opened opened = book.open();
        Recipe recipe = book.recipe(opened, text(cup, "recipe"));
        JsonNode number = cup.path("revision");
        Recipe.Revision revision = number.isMissingNode() || number.isNull()
                ? recipe.current()
                : MixCommand.revision(recipe, number.asText());
        Double cupMost = grams(cup, "cup_g");
        OverPour over = OverPour.of(
                opened.book(),
                recipe,
                revision,
                new OverPour.Cup(
                        grams(cup, "total_g"),
                        grams(cup, "resin_g"),
                        inCup(cup.path("in_cup")),
                        cupMost == null ? null : Mass.ofGrams(cupMost),
                        grams(cup, "layer_g")));
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeNumberField("factor", over.factor());
                grams(json, "add_g", over.addGrams());
                grams(json, "weigh_g", over.weighGrams());
                json.writeNumberField("new_total_g", over.newTotalGrams());
                MixJson.cautions(json, over.cautions());
                json.writeEndObject();
            });
        } else {
            book.context().out().print(shown(over));
        }
        book.tellProblems(opened);
        return Main.DONE;
    }

    private static void grams(com.fasterxml.jackson.core.JsonGenerator json, String name, Map<Item, Double> grams)
            throws IOException {
        json.writeObjectFieldStart(name);
        for (Map.Entry<Item, Double> each : grams.entrySet()) {
            json.writeNumberField(each.getKey().id(), each.getValue());
        }
        json.writeEndObject();
    }

    private JsonNode read() {
        JsonNode read;
        try (InputStream in = file.equals("-") ? System.in : Files.newInputStream(path())) {
            byte[] bytes = in.readNBytes(MOST_BYTES + 1);
            if (bytes.length > MOST_BYTES) {
                throw new RequestException("\"" + file + "\" is larger than 1 MB; a cup's file was expected.");
            }
            read = JsonMapper.builder()
                    .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
                    .enable(com.fasterxml.jackson.core.StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .build()
                    .readTree(bytes);
        } catch (JsonProcessingException e) {
            throw new RequestException("\"" + file + "\" is no JSON (line "
                    + (e.getLocation() == null ? 1 : e.getLocation().getLineNr())
                    + "); \"pigment-book over --help\" shows what such a file says.");
        } catch (IOException e) {
            throw new RequestException("\"" + file + "\" can't be read. Is it there, and is it a file?");
        }
        if (read == null || !read.isObject()) {
            throw new RequestException("\"" + file
                    + "\" says nothing of a cup; \"pigment-book over --help\" shows what such a file says.");
        }
        return read;
    }

    private Path path() {
        try {
            return book.context().here().resolve(file);
        } catch (java.nio.file.InvalidPathException e) {
            throw new RequestException("\"" + file + "\" is no file's name.");
        }
    }

    private String text(JsonNode cup, String name) {
        JsonNode there = cup.path(name);
        if (!there.isTextual()) {
            throw new RequestException("\"" + file + "\": \"" + name + "\" is missing; its id was expected.");
        }
        return there.asText();
    }

    private @Nullable Double grams(JsonNode cup, String name) {
        JsonNode there = cup.path(name);
        if (there.isMissingNode() || there.isNull()) {
            return null;
        }
        if (!there.isNumber()) {
            throw new RequestException(
                    "\"" + file + "\": \"" + name + "\" is " + there + "; a number of grams was expected.");
        }
        return there.doubleValue();
    }

    private Map<Item, Double> inCup(JsonNode there) {
        if (!there.isObject()) {
            throw new RequestException(
                    "\"" + file + "\": \"in_cup\" is missing; the grams of each item in the cup were expected.");
        }
        Map<Item, Double> inCup = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> each : there.properties()) {
            Double grams = grams(there, each.getKey());
            inCup.put(Item.of(each.getKey()), grams == null ? 0 : grams);
        }
        return inCup;
    }

    private String shown(OverPour over) {
        Lines lines = new Lines(book.context().colour());
        lines.head(
                over.factor() > 1
                        ? "Add this; the cup grows to " + Numbers.fixed(over.newTotalGrams(), 1) + " g, × "
                                + Numbers.fixed(over.factor(), 3)
                        : "Nothing is over. Still to add, to " + Numbers.fixed(over.newTotalGrams(), 1) + " g");
        List<List<String>> rows = new ArrayList<>();
        over.weighGrams().forEach((item, grams) -> rows.add(List.of(item.id(), Numbers.fixed(grams, 2))));
        lines.table(List.of("Item", "Add, g"), List.of(Lines.Side.LEFT, Lines.Side.RIGHT), rows);
        for (Caution caution : over.cautions()) {
            lines.hanging(
                    caution.severity().name().toLowerCase(Locale.ROOT) + ": ",
                    caution.text() + " [" + caution.basis() + "]");
        }
        return lines.toString();
    }
}
