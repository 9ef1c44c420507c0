package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The commands beside {@code mix}, on the demo book. */
class OtherCommandsTest {

    @Test
    void recipesAreFoundByTagAndByPigment() {
        JsonNode all = Ran.of("recipes", "--format", "json").json();
        JsonNode pearls =
                Ran.of("recipes", "--tag", "Pearl", "--format", "json").json();
        JsonNode mica =
                Ran.of("recipes", "--with", "copper-mica", "--format", "json").json();
        assertThat(all.size()).isGreaterThanOrEqualTo(10);
        assertThat(pearls.findValuesAsText("id")).containsExactly("copper-glow", "ember", "gold-hour");
        assertThat(mica.findValuesAsText("id")).containsExactly("chips-copper-mica", "copper-glow", "ember");
        JsonNode ember = mica.get(2);
        assertThat(ember.get("revision").intValue()).isEqualTo(4);
        assertThat(ember.get("last_made").textValue()).isEqualTo("2026-11-18");
        assertThat(ember.get("rating").intValue()).isEqualTo(5);
        assertThat(Ran.of("recipes", "--tag", "none-such").out()).isEqualTo("No recipe fits.\n");
        assertThat(Ran.of("recipes", "--with", "coper-mica"))
                .isEqualTo(new Ran(1, "", "There is no pigment \"coper-mica\" in the book. Nearest: copper-mica.\n"));
    }

    @Test
    void aRecipeComesWithItsRevisionsAndPours() {
        JsonNode ember = Ran.of("recipe", "ember", "--format", "json").json();
        assertThat(ember.get("revisions")).hasSize(4);
        assertThat(ember.get("pours").size()).isGreaterThanOrEqualTo(7);
        assertThat(Ran.of("recipe", "ember").out().lines()).allMatch(line -> line.length() <= 80);
    }

    @Test
    void aMoldTellsWhatItHoldsBetweenTwoHeights() {
        JsonNode whole = Ran.of("mold", "lamp-panel", "--format", "json").json();
        // 16 × 10 × 1/2 in less two strips of 14 × 3 × 3/8 in, in mL: 16.387064 mL to the cubic inch.
        assertThat(whole.get("volume_mL").doubleValue()).isCloseTo(80 * 16.387064, within(1e-9));
        assertThat(whole.get("displaced_mL").doubleValue()).isCloseTo(31.5 * 16.387064, within(1e-9));
        assertThat(whole.get("room_mL").doubleValue()).isCloseTo(48.5 * 16.387064, within(1e-9));
        assertThat(whole.get("area_mm2").doubleValue()).isCloseTo(160 * 645.16, within(1e-9));
        assertThat(whole.get("simpson_mL").isNull()).isTrue();
        JsonNode without = Ran.of("mold", "lamp-panel", "--count-inserts", "no", "--format", "json")
                .json();
        assertThat(without.get("displaced_mL").doubleValue()).isZero();
        JsonNode slice = Ran.of("mold", "lamp-panel", "--from", "1/4 in", "--fill", "3/8 in", "--format", "json")
                .json();
        assertThat(slice.get("volume_mL").doubleValue()).isCloseTo(20 * 16.387064, within(1e-9));
    }

    @Test
    void stationsTellBothRules() {
        JsonNode edge = Ran.of("mold", "bark-edge", "--format", "json").json();
        assertThat(edge.get("trapezoid_mL").doubleValue())
                .isEqualTo(edge.get("volume_mL").doubleValue());
        assertThat(edge.get("simpson_mL").doubleValue())
                .isNotEqualTo(edge.get("trapezoid_mL").doubleValue());
    }

    @Test
    void aMoldWithoutHeightsAndHeightsOutsideAMoldAreRefused() {
        assertThat(Ran.of("mold", "finial", "--fill", "1 in").err())
                .isEqualTo(
                        "The mold finial is known by its volume alone, so it has no heights. Leave --fill and --from out.\n");
        assertThat(Ran.of("mold", "lamp-panel", "--from", "1/2 in", "--fill", "1/4 in")
                        .err())
                .isEqualTo("From \"1/2 in\" to \"1/4 in\" goes downwards; give the lower height to --from.\n");
        assertThat(Ran.of("mold", "lamp-panel", "--fill", "2 in").status()).isEqualTo(1);
    }

    @Test
    void stockIsWhatCameLessPoursWithCorrections() {
        JsonNode stock = Ran.of("stock", "A-2402", "--format", "json").json().get(0);
        assertThat(stock.get("left_g").doubleValue())
                .isCloseTo(
                        stock.get("received_g").doubleValue()
                                - stock.get("poured_g").doubleValue()
                                + stock.get("corrected_g").doubleValue(),
                        within(1e-9));
        assertThat(stock.get("corrected_g").doubleValue()).isEqualTo(-140);
        assertThat(stock.get("pours").size()).isGreaterThan(5);
        assertThat(Ran.of("stock").out().lines()).allMatch(line -> line.length() <= 80);
        assertThat(Ran.of("stock", "A-2403").err())
                .isEqualTo("There is no lot \"A-2403\" in the book. Nearest: A-2402, A-2409, B-2402.\n");
    }

    @Test
    void aLotTellsWhereItWent() {
        JsonNode used = Ran.of("where-used", "CM-03", "--format", "json").json();
        assertThat(used.get("lot").textValue()).isEqualTo("CM-03");
        assertThat(used.get("recipes").toString()).isEqualTo("[\"copper-glow\",\"ember\"]");
        assertThat(Ran.of("where-used", "CM-04").out()).isEqualTo("Pours:   none\nRecipes: none\n");
    }

    @Test
    void checkEndsWithOneWhereSomethingIsWrong(@TempDir Path book) throws IOException {
        Files.writeString(book.resolve("ember.json"), "{ \"id\": \"ember\",\n  \"revisions\": [ }");
        Ran ran = Ran.in(book, Map.of(), "check", "--book", ".", "--format", "json");
        assertThat(ran.status()).isEqualTo(1);
        JsonNode problem = ran.json().get("problems").get(0);
        assertThat(problem.get("file").textValue()).isEqualTo("ember.json");
        assertThat(problem.get("line").intValue()).isEqualTo(2);
        assertThat(problem.get("code").textValue()).isEqualTo("not-json");
        // Asking for the recipe itself tells the same.
        assertThat(Ran.in(book, Map.of(), "--book", ".", "recipe", "ember").err())
                .startsWith("ember.json:2: This line is no JSON");
        assertThat(Ran.of("check")).isEqualTo(new Ran(0, "The book is in order.\n", ""));
    }

    @Test
    void everyCommandHasAHelpThatTeachesByExamples() {
        assertThat(Ran.of("--help").out()).contains("Examples:").contains("mix").contains("where-used");
        for (String command : Commands.all().keySet()) {
            Ran help = Ran.of(command, "--help");
            assertThat(help.status()).isZero();
            assertThat(help.out()).contains("Examples:").contains("pigment-book " + command);
            assertThat(help.out().lines()).allMatch(line -> line.length() <= 80);
        }
        assertThat(Ran.of("--version").out()).startsWith("pigment-book ");
    }

    /** Without a command the page would open: where there is no book, it says so as {@code open} does. */
    @Test
    void withoutACommandThePageOpens(@TempDir Path here) {
        assertThat(Ran.in(here, Map.of())).isEqualTo(Ran.in(here, Map.of(), "open"));
        assertThat(Ran.in(here, Map.of()).status()).isEqualTo(1);
        assertThat(Ran.in(here, Map.of()).err()).startsWith("There is no folder ");
    }

    /** The README lists every command and every option, and no others. */
    @Test
    void theReadmeNamesEveryCommandAndOption() throws IOException {
        String readme = Files.readString(Path.of("README.md"));
        TreeSet<String> missing = new TreeSet<>();
        Commands.all().forEach((name, command) -> {
            CommandLine line = new CommandLine(
                    command.get(),
                    new Commands(new BookOptions(
                            new Context(System.out, System.err, Map.of(), Ran.CLOCK, Path.of(""), false))));
            if (!readme.contains("`" + name)) {
                missing.add(name);
            }
            line.getCommandSpec().options().forEach(option -> {
                if (!readme.contains(option.longestName())) {
                    missing.add(name + " " + option.longestName());
                }
            });
        });
        assertThat(missing).isEmpty();
    }

    /**
     * What the README shows of a mix is what the program prints, line by line; an ellipsis stands for what is left out.
     */
    @Test
    void theReadmesExampleIsWhatTheProgramPrints() throws IOException {
        String readme = Files.readString(Path.of("README.md"));
        String command = "    $ pigment-book mix ember --mold lamp-panel\n";
        int from = readme.indexOf(command) + command.length();
        String shown = readme.substring(from, readme.indexOf("\n\n(", from)).replaceAll("(?m)^    ", "");
        String printed = Ran.of("mix", "ember", "--mold", "lamp-panel").out();
        assertThat(shown).contains("Part B").contains("…");
        for (String part : shown.split("…\n")) {
            assertThat(printed).contains(part.strip());
        }
    }
}
