package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The same colour again, and what to add to a cup that got too much. */
class AgainAndOverTest {

    @TempDir
    Path folder;

    /** Works the file's own amounts out by hand, from the contract's rule for "again". */
    @Test
    void aPourMadeAgainHasThePercentsThatWereReallyWeighed() throws IOException {
        JsonNode again = Ran.of("again", "2026-03-02-ember-1", "--total", "500 g", "--format", "json")
                .json();
        JsonNode pour = file("recipes/pours/2026/2026-03-02-ember-1.json");
        double partA = 0;
        double partB = 0;
        double carried = 0;
        Map<String, Double> colour = new java.util.LinkedHashMap<>();
        for (JsonNode layer : pour.get("layers")) {
            for (JsonNode cup : layer.get("cups")) {
                for (JsonNode weighed : cup.get("weighed")) {
                    double grams = grams(weighed.get("actual"));
                    String item = weighed.get("item").asText();
                    if (item.equals("part A")) {
                        partA += grams;
                    } else if (item.equals("part B")) {
                        partB += grams;
                    } else {
                        JsonNode carrier =
                                file("recipes/shelf/pigments/" + item + ".json").path("carrier");
                        carried += carrier.path("is").asText().equals("part A")
                                ? grams * grams(carrier.get("share")) / 100
                                : 0;
                        JsonNode strength = file("recipes/shelf/lots/"
                                        + weighed.get("lot").asText() + ".json")
                                .path("strength");
                        colour.merge(item, grams * (strength.isTextual() ? grams(strength) / 100 : 1), Double::sum);
                    }
                }
            }
        }
        double resin = partA + partB + carried;
        assertThat(again.get("of_pour").asText()).isEqualTo("2026-03-02-ember-1");
        assertThat(again.get("revision").asInt()).isEqualTo(1);
        double mixed = again.at("/totals/mixed_resin_g").doubleValue();
        assertThat(colour).isNotEmpty();
        JsonNode items = again.at("/layers/0/cups/0/items");
        colour.forEach((pigment, grams) -> {
            for (JsonNode item : items) {
                if (item.get("item").asText().equals(pigment)) {
                    JsonNode strength = strength(item.get("lot").asText());
                    double factor = strength.isTextual() ? grams(strength) / 100 : 1;
                    assertThat(item.get("exact_g").doubleValue() * factor / mixed)
                            .as(pigment)
                            .isCloseTo(grams / resin, within(1e-12));
                }
            }
        });
        assertThat(again.at("/totals/total_g").doubleValue()).isCloseTo(500, within(1e-9));
    }

    @Test
    void whatIsNotTheSameAsThenIsTold() {
        JsonNode again = Ran.of("again", "2026-03-02-ember-1", "--mold", "lamp-panel", "--format", "json")
                .json();
        List<String> codes = new ArrayList<>();
        again.get("cautions").forEach(caution -> codes.add(caution.get("code").asText()));
        assertThat(codes).contains("other-lots", "backing-as-read", "standing-skin");
        assertThat(codes.indexOf("other-lots")).isLessThan(codes.indexOf("standing-skin"));
    }

    @Test
    void itSaysThatItIsAPoursFormulaAndTheSheetSaysItToo() {
        assertThat(Ran.of("again", "2026-03-02-ember-1", "--total", "500 g").out())
                .startsWith("Ember, as weighed in 2026-03-02-ember-1\n");
        assertThat(Ran.of("again", "2026-03-02-ember-1", "--total", "500 g", "--format", "html")
                        .out())
                .contains("Formula as weighed in 2026-03-02-ember-1.");
    }

    @Test
    void anUnknownPourNamesTheNearestAndALayerItLacksIsRefused() {
        Ran unknown = Ran.of("again", "2026-03-02-ember-2", "--total", "500 g");
        assertThat(unknown.status()).isEqualTo(1);
        assertThat(unknown.err())
                .startsWith("There is no pour \"2026-03-02-ember-2\" in the book. Nearest: 2026-03-02-ember-1");
        assertThat(Ran.of("again", "2026-03-02-ember-1", "--layer", "9", "--total", "500 g")
                        .err())
                .isEqualTo("The pour 2026-03-02-ember-1 has one layer, not a layer 9.\n");
        assertThat(Ran.of("again", "2026-03-02-ember-1").status()).isEqualTo(2);
    }

    @Test
    void keptItBecomesANewRevisionThatLinksToItsPour() throws IOException {
        pigmentbook.store.DemoBook.copyTo(folder);
        Ran kept = Ran.of(
                "--book",
                folder.toString(),
                "again",
                "2026-03-02-ember-1",
                "--total",
                "500 g",
                "--keep",
                "--why",
                "the one that was liked");
        assertThat(kept.err()).isEqualTo("Kept as revision 5 of ember.\n");
        JsonNode revisions =
                new JsonMapper().readTree(folder.resolve("ember.json").toFile()).get("revisions");
        JsonNode last = revisions.get(revisions.size() - 1);
        assertThat(last.get("ofPour").asText()).isEqualTo("2026-03-02-ember-1");
        assertThat(last.get("why").asText()).isEqualTo("the one that was liked (as weighed in 2026-03-02-ember-1)");
        JsonNode asKept = Ran.of("--book", folder.toString(), "mix", "ember@5", "--resin", "1 kg", "--format", "json")
                .json();
        JsonNode asPoured = Ran.of(
                        "--book",
                        folder.toString(),
                        "again",
                        "2026-03-02-ember-1",
                        "--resin",
                        "1 kg",
                        "--format",
                        "json")
                .json();
        asPoured.at("/totals/pigments_g")
                .properties()
                .forEach(each -> assertThat(
                                asKept.at("/totals/pigments_g/" + each.getKey()).doubleValue())
                        .isCloseTo(
                                each.getValue().doubleValue(),
                                within(each.getValue().doubleValue() * 1e-5)));
    }

    /** f·target − actual with f = max(actual/target, 1): by hand for 500 g of ember's current revision. */
    @Test
    void tooMuchOfOneThingMakesTheOthersFollow() throws IOException {
        JsonNode mix =
                Ran.of("mix", "ember", "--total", "500 g", "--format", "json").json();
        double partA = mix.at("/totals/part_A_g").doubleValue();
        JsonNode over = over("{\"recipe\":\"ember\",\"total_g\":500,\"in_cup\":{\"part A\":" + partA * 1.1 + "}}");
        assertThat(over.get("factor").doubleValue()).isCloseTo(1.1, within(1e-3));
        assertThat(over.get("new_total_g").doubleValue())
                .isCloseTo(500 * over.get("factor").doubleValue(), within(1e-9));
        assertThat(over.at("/add_g/part A").doubleValue()).isCloseTo(0, within(1e-9));
        double sum = partA * 1.1;
        for (JsonNode add : over.get("add_g")) {
            sum += add.doubleValue();
        }
        assertThat(sum).isCloseTo(over.get("new_total_g").doubleValue(), within(1e-9));
    }

    @Test
    void whateverIsInTheCupTheRatioAndThePercentsEndRight() throws IOException {
        Random random = new Random(7);
        JsonNode clean =
                over("{\"recipe\":\"ember\",\"resin_g\":1000,\"in_cup\":{}}").get("add_g");
        for (int run = 0; run < 40; run++) {
            StringBuilder cup = new StringBuilder();
            Map<String, Double> inCup = new java.util.LinkedHashMap<>();
            for (Map.Entry<String, JsonNode> target : clean.properties()) {
                double grams = random.nextInt(3) == 0
                        ? 0
                        : target.getValue().doubleValue() * 0.4 * (0.2 + 1.3 * random.nextDouble());
                inCup.put(target.getKey(), grams);
                cup.append(cup.length() == 0 ? "" : ",")
                        .append('"')
                        .append(target.getKey())
                        .append("\":")
                        .append(grams);
            }
            JsonNode over = over("{\"recipe\":\"ember\",\"resin_g\":400,\"in_cup\":{" + cup + "}}");
            double factor = over.get("factor").doubleValue();
            assertThat(factor).isGreaterThanOrEqualTo(1);
            for (Map.Entry<String, JsonNode> target : clean.properties()) {
                double add = over.get("add_g").get(target.getKey()).doubleValue();
                assertThat(add).isGreaterThanOrEqualTo(0);
                assertThat(inCup.get(target.getKey()) + add)
                        .isCloseTo(factor * 0.4 * target.getValue().doubleValue(), within(1e-9));
            }
        }
    }

    @Test
    void aCupThatNoLongerFitsSaysWhatIsLeftToChoose() throws IOException {
        JsonNode over = over("{\"recipe\":\"ember\",\"total_g\":900,\"cup_g\":1000,\"layer_g\":880,"
                + "\"in_cup\":{\"part A\":800,\"part B\":260}}");
        List<String> codes = new ArrayList<>();
        over.get("cautions").forEach(caution -> codes.add(caution.get("code").asText()));
        assertThat(codes)
                .contains("over-poured", "cup-too-small", "layer-too-small", "part-b-is-in", "ratio-must-be-mended");
        assertThat(over.get("cautions").toString())
                .contains("Pour over into a bigger cup before adding, or part the cup in two and mend each");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{ | \"cup.json\" is no JSON (line 1); \"pigment-book over --help\" shows what such a file says.",
                "[] | \"cup.json\" says nothing of a cup; \"pigment-book over --help\" shows what such a file says.",
                "{\"total_g\":5} | \"cup.json\": \"recipe\" is missing; its id was expected.",
                "{\"recipe\":\"embre\",\"total_g\":5,\"in_cup\":{}} | There is no recipe \"embre\" in the book. Nearest: ember.",
                "{\"recipe\":\"ember\",\"in_cup\":{}} | How much was the cup meant to hold? Give resin_g or total_g, one of the two, in grams.",
                "{\"recipe\":\"ember\",\"total_g\":0,\"in_cup\":{}} | The cup must have been meant for more than 0 g.",
                "{\"recipe\":\"ember\",\"total_g\":\"500 g\",\"in_cup\":{}} | \"cup.json\": \"total_g\" is \"500 g\"; a number of grams was expected.",
                "{\"recipe\":\"ember\",\"total_g\":500} | \"cup.json\": \"in_cup\" is missing; the grams of each item in the cup were expected.",
                "{\"recipe\":\"ember\",\"total_g\":500,\"in_cup\":{\"part A\":-1}} | In the cup there are \"-1\" g of part A; a number of grams, 0 or more, was expected.",
                "{\"recipe\":\"ember\",\"total_g\":500,\"in_cup\":{\"amber-past\":1}} | The recipe ember takes no \"amber-past\". Nearest: amber-paste.",
                "{\"recipe\":\"ember\",\"total_g\":500,\"in_cup\":{\"part A\":1,\"part A\":2}} | \"cup.json\" is no JSON (line 1); \"pigment-book over --help\" shows what such a file says.",
            })
    void whatIsWrongWithACupsFileIsSaid(String text, String letter) throws IOException {
        Files.writeString(folder.resolve("cup.json"), text);
        Ran ran = Ran.of("over", folder.resolve("cup.json").toString());
        assertThat(ran.status()).isEqualTo(1);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err().replace(folder + "/", "")).isEqualTo(letter + "\n");
    }

    @Test
    void aCupsFileThatIsNotThereIsSaid() {
        assertThat(Ran.of("over", "no-such-cup.json").err())
                .isEqualTo("\"no-such-cup.json\" can't be read. Is it there, and is it a file?\n");
    }

    private JsonNode over(String cup) throws IOException {
        Path file = folder.resolve("cup.json");
        Files.writeString(file, cup);
        return Ran.of("over", file.toString(), "--format", "json").json();
    }

    private static JsonNode strength(String lot) {
        try {
            return file("recipes/shelf/lots/" + lot + ".json").path("strength");
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static JsonNode file(String name) throws IOException {
        return new JsonMapper().readTree(Path.of(name).toFile());
    }

    private static double grams(JsonNode text) {
        return Double.parseDouble(text.asText().replaceAll("[^0-9.]", ""));
    }
}
