package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The command {@code mix} on the demo book: its answers, its files, its refusals. */
class MixCommandTest {

    @TempDir
    Path exports;

    private static List<String> names(JsonNode node) {
        List<String> names = new ArrayList<>();
        node.fieldNames().forEachRemaining(names::add);
        return names;
    }

    @Test
    void theJsonAnswerHasEveryFieldOfTheContract() {
        Ran ran = Ran.of("mix", "ember", "--mold", "lamp-panel-large", "--format", "json");
        assertThat(ran.status()).isZero();
        JsonNode mix = ran.json();
        assertThat(names(mix))
                .contains(
                        "recipe",
                        "revision",
                        "resin",
                        "mold",
                        "percent_of",
                        "room_mL",
                        "target_mL",
                        "mixed_density_g_per_mL",
                        "limited_by",
                        "totals",
                        "layers",
                        "working_time_min",
                        "cautions",
                        "working");
        assertThat(names(mix.get("totals")))
                .containsExactly("mixed_resin_g", "part_A_g", "part_B_g", "pigments_g", "total_g", "cost");
        assertThat(names(mix.get("layers").get(0)))
                .containsExactly("number", "from_mm", "to_mm", "room_mL", "target_mL", "start_h", "cups");
        JsonNode item = mix.get("layers").get(0).get("cups").get(0).get("items").get(0);
        assertThat(names(item)).contains("item", "exact_g", "weigh_g", "lot", "lots");
        assertThat(names(mix.get("cautions").get(0))).containsExactly("code", "severity", "text", "basis");
        // 560 × 280 × 48 less two strips of 500 × 45 × 24 and one of 500 × 20 × 40, in mL.
        assertThat(mix.get("room_mL").doubleValue()).isCloseTo(6046.4, within(1e-9));
        assertThat(mix.get("layers")).hasSize(3);
    }

    @Test
    void aRequestByMassHasNoRoomAndNoDepth() {
        JsonNode mix =
                Ran.of("mix", "ember", "--total", "1 kg", "--format", "json").json();
        assertThat(mix.get("room_mL").isNull()).isTrue();
        assertThat(mix.get("target_mL").isNull()).isTrue();
        assertThat(mix.get("mold").isNull()).isTrue();
        assertThat(mix.get("layers").get(0).get("from_mm").isNull()).isTrue();
        assertThat(mix.get("totals").get("total_g").doubleValue()).isCloseTo(1000, within(1e-9));
    }

    @Test
    void anOlderRevisionIsMixedWhenItIsNamed() {
        JsonNode mix =
                Ran.of("mix", "ember@1", "--resin", "100 g", "--format", "json").json();
        assertThat(mix.get("revision").intValue()).isEqualTo(1);
        assertThat(names(mix.get("totals").get("pigments_g"))).containsExactly("amber-paste", "copper-mica");
    }

    @Test
    void theTextFitsEightyColumnsAndEndsWithTheStandingCautions() {
        Ran ran = Ran.of("mix", "ember", "--mold", "lamp-panel-large");
        assertThat(ran.out().lines()).allMatch(line -> line.length() <= 80);
        assertThat(ran.out())
                .contains("Layer 2 of 3, 16 to 32 mm, from 6 h after the first: 2 equal cups of")
                .contains("Beware: 2 lots of Copper mica:")
                .endsWith(
                        "The product's SDS and TDS, local rules and licensed practice come first.\n  [common practice]\n");
    }

    @Test
    void anAnswerIsTheSameInEveryCountry() {
        Ran here = Ran.of("mix", "ember", "--mold", "lamp-panel", "--format", "json");
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertThat(Ran.of("mix", "ember", "--mold", "lamp-panel", "--format", "json"))
                    .isEqualTo(here);
            Locale.setDefault(Locale.GERMANY);
            assertThat(Ran.of("mix", "ember", "--mold", "lamp-panel").out())
                    .contains("Weigh, g")
                    .doesNotContain(",65");
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void toAFolderWithoutAFormatWritesThreeSheetsAndPrintsTheText() {
        Ran ran = Ran.of("mix", "ember", "--mold", "lamp-panel", "--to", exports.toString());
        assertThat(ran.status()).isZero();
        assertThat(exports.toFile().list())
                .containsExactlyInAnyOrder("ember-lamp-panel.xlsx", "ember-lamp-panel.ods", "ember-lamp-panel.csv");
        assertThat(ran.out()).startsWith("Ember, revision 4 for Lamp panel\n").contains("Written: ");
    }

    @Test
    void aNameThatIsTakenGetsTheNextNumber() {
        Ran.of("mix", "ember", "--mold", "lamp-panel", "--format", "csv", "--to", exports.toString());
        Ran.of("mix", "ember", "--mold", "lamp-panel", "--format", "csv", "--to", exports.toString());
        assertThat(exports.toFile().list()).containsExactlyInAnyOrder("ember-lamp-panel.csv", "ember-lamp-panel-2.csv");
    }

    @Test
    void aFileThatIsThereIsReplacedOnlyWhenAsked() throws IOException {
        Path file = exports.resolve("mine.csv");
        Files.writeString(file, "mine");
        Ran refused = Ran.of("mix", "ember", "--mold", "lamp-panel", "--to", file.toString());
        assertThat(refused)
                .isEqualTo(
                        new Ran(
                                1,
                                "",
                                "The file \"mine.csv\" is there already. Add --replace to write over it, or give another name.\n"));
        assertThat(file).hasContent("mine");
        Ran replaced = Ran.of("mix", "ember", "--mold", "lamp-panel", "--to", file.toString(), "--replace");
        assertThat(replaced.status()).isZero();
        assertThat(Files.readString(file, StandardCharsets.UTF_8))
                .contains("part A")
                .contains("\r\n");
    }

    @Test
    void aPlaceThatCannotTakeFilesIsTold() throws IOException {
        Path file = Files.writeString(exports.resolve("exports"), "a file");
        assertThat(Ran.of(
                                "mix",
                                "ember",
                                "--mold",
                                "lamp-panel",
                                "--to",
                                file.resolve("x.csv").toString())
                        .err())
                .isEqualTo("\"" + file + "\" is a file, so nothing can be written into it. Name a folder.\n");
        Path missing = exports.resolve("nowhere");
        assertThat(Ran.of("mix", "ember", "--mold", "lamp-panel", "--to", missing.toString())
                        .err())
                .isEqualTo("There is no folder \"" + missing
                        + "\". Make it first, or name a file that ends in .xlsx, .ods, .csv, .html, .json or .txt.\n");
        assertThat(Ran.of(
                                "mix",
                                "ember",
                                "--mold",
                                "lamp-panel",
                                "--to",
                                exports.resolve("a.doc").toString())
                        .err())
                .isEqualTo("The ending of \"" + exports.resolve("a.doc")
                        + "\" names no format; .xlsx, .ods, .csv, .html, .json or .txt was expected, or --format.\n");
    }

    @ParameterizedTest
    @ValueSource(strings = {"json", "csv", "html", "text"})
    void everyPlainFormatComesOutOnStandardOutput(String format) {
        Ran ran = Ran.of("mix", "ember", "--mold", "lamp-panel", "--format", format);
        assertThat(ran.status()).isZero();
        assertThat(ran.out()).contains("amber");
    }

    private static void refused(String text, String... args) {
        assertThat(Ran.of(args)).isEqualTo(new Ran(1, "", text + "\n"));
    }

    private static void misused(String text, String... args) {
        Ran ran = Ran.of(args);
        assertThat(ran.status()).isEqualTo(2);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).startsWith(text);
    }

    @Test
    void whatCannotBeMetEndsWithOneAndSaysWhatWouldBeAccepted() {
        refused("There is no recipe \"embre\" in the book. Nearest: ember.", "mix", "embre", "--resin", "1 kg");
        refused("The recipe ember has no revision \"9\"; it has 1, 2, 3, 4.", "mix", "ember@9", "--resin", "1 kg");
        refused(
                "There is no mold \"lamp-pannel\" in the book. Nearest: lamp-panel.",
                "mix",
                "ember",
                "--mold",
                "lamp-pannel");
        refused(
                "A fill of \"1 in\" is above the mold lamp-panel, which is \"3/4 in\" deep. Give a height up to that.",
                "mix",
                "ember",
                "--mold",
                "lamp-panel",
                "--fill",
                "1 in");
        refused(
                "--on is \"yesterday\"; a day such as 2026-03-31 was expected.",
                "mix",
                "ember",
                "--shelf",
                "--on",
                "yesterday");
        assertThat(Ran.of("mix", "ember", "--total", "8 in").err()).startsWith("--total: ");
        assertThat(Ran.of("mix", "ember", "--total", "-5 g").status()).isEqualTo(1);
        assertThat(Ran.of("mix", "ember", "--total", "1,500 g").err())
                .contains("1.5 g")
                .contains("1500 g");
    }

    @Test
    void wrongUsageEndsWithTwo() {
        misused("How much? Give one of --mold, --volume, --total, --resin, --use or --shelf", "mix", "ember");
        misused("Only one figure can lead; give one of", "mix", "ember", "--shelf", "--resin", "1 kg");
        misused("Missing required parameter", "mix", "--shelf");
        misused("Unknown options: '--moldy', 'x'. Did you mean --mold?", "mix", "ember", "--moldy", "x");
        misused("--fill goes with --mold", "mix", "ember", "--resin", "1 kg", "--fill", "1 in");
        misused("Unmatched argument", "pour");
        misused("Invalid value for option '--format'", "mix", "ember", "--shelf", "--format", "pdf");
        misused(
                "Invalid value for option '--layers': 'two' is not a whole number",
                "mix",
                "ember",
                "--shelf",
                "--layers",
                "two");
    }

    @Test
    void depthsArePartedByCommasOrSemicolons() {
        assertThat(Ran.of("mix", "ember", "--mold", "lamp-panel", "--layer-depths", "6.7mm,6mm")
                        .status())
                .isZero();
        assertThat(Ran.of("mix", "ember", "--mold", "lamp-panel", "--layer-depths", "6,7 mm; 6 mm")
                        .status())
                .isZero();
        assertThat(Ran.of("mix", "ember", "--mold", "lamp-panel", "--layer-depths", "6,7 mm,6 mm")
                        .err())
                .startsWith("--layer-depths: \"6,7 mm,6 mm\" can be read two ways.");
    }

    @Test
    void theBookIsNamedByOptionElseByVariableElseItIsTheFolderRecipes(@TempDir Path here) {
        String book = Path.of("recipes").toAbsolutePath().toString();
        assertThat(Ran.in(here, Map.of(), "--book", book, "stock").status()).isZero();
        assertThat(Ran.in(here, Map.of(), "stock", "--book", book).status()).isZero();
        assertThat(Ran.in(here, Map.of("PIGMENT_BOOK", book), "stock").status()).isZero();
        Ran none = Ran.in(here, Map.of(), "stock");
        assertThat(none)
                .isEqualTo(
                        new Ran(
                                1,
                                "",
                                "There is no folder \"" + here.resolve("recipes")
                                        + "\". Name the book's folder with --book, or go to the folder that \"recipes\" lies in.\n"));
    }
}
