package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The commands about colours, on the demo book. */
class ColourCommandsTest {

    private static List<String> names(JsonNode node) {
        List<String> names = new ArrayList<>();
        node.fieldNames().forEachRemaining(names::add);
        return names;
    }

    /** Pair 1 of Sharma, Wu, Dalal 2005, table 1: 2.0425. */
    @Test
    void theDifferenceIsThePublishedOne() {
        JsonNode told = Ran.of("difference", "50,2.6772,-79.7751", "50,0,-82.7485", "--format", "json")
                .json();
        assertThat(told.get("dE00").doubleValue()).isCloseTo(2.0425, within(5.1e-5));
        assertThat(told.get("dE76").doubleValue()).isCloseTo(Math.hypot(2.6772, 82.7485 - 79.7751), within(1e-12));
        assertThat(told.get("lab").toString()).isEqualTo("[[50.0,2.6772,-79.7751],[50.0,0.0,-82.7485]]");
        assertThat(Ran.of("difference", "50,2.6772,-79.7751", "50,0,-82.7485").out())
                .startsWith("ΔE00 2.04 (about 1 can barely be seen), ΔE76 4.00, ");
    }

    @Test
    void theNearestReadingOfAReadingIsItself() {
        JsonNode found = Ran.of("nearest", "57.1,36.0,64.7", "--format", "json").json();
        assertThat(found).hasSize(5);
        assertThat(names(found.get(0))).containsExactly("recipe", "pour", "reading", "lab", "dE00");
        assertThat(found.get(0).get("recipe").textValue()).isEqualTo("ember");
        assertThat(found.get(0).get("pour").textValue()).isEqualTo("2026-03-02-ember-1");
        assertThat(found.get(0).get("reading").intValue()).isZero();
        assertThat(found.get(0).get("dE00").doubleValue()).isZero();
        for (int i = 1; i < 5; i++) {
            assertThat(found.get(i).get("dE00").doubleValue())
                    .isGreaterThanOrEqualTo(found.get(i - 1).get("dE00").doubleValue());
        }
        assertThat(Ran.of("nearest", "57.1,36.0,64.7", "--count", "1").out().lines())
                .hasSize(2);
    }

    @Test
    void everyPigmentThatWasReadTellsHowWellItIsKnown() {
        JsonNode tints = Ran.of("tint", "--format", "json").json();
        assertThat(tints.findValuesAsText("pigment"))
                .contains("amber-paste", "copper-mica")
                .isSorted();
        for (JsonNode each : tints) {
            assertThat(names(each))
                    .containsExactly("pigment", "readings", "median_dE00", "worst_dE00", "spread_dE00", "next");
            assertThat(each.get("readings").intValue()).isPositive();
            assertThat(each.get("worst_dE00").doubleValue())
                    .isGreaterThanOrEqualTo(each.get("median_dE00").doubleValue());
            assertThat(each.get("spread_dE00").doubleValue()).isPositive();
            assertThat(names(each.get("next"))).containsExactly("percent", "depth_mm", "backing");
            assertThat(each.get("next").get("backing").textValue()).isIn("white", "black");
        }
        assertThat(Ran.of("tint").out().lines()).allMatch(line -> line.length() <= 80);
    }

    @Test
    void aRecipeIsForetoldWithItsSpread() {
        JsonNode look = Ran.of("look", "ember@1", "--depth", "6 mm", "--backing", "white", "--format", "json")
                .json();
        assertThat(names(look)).containsExactly("lab", "srgb", "in_gamut", "spread_dE00");
        assertThat(look.get("srgb").textValue()).matches("#[0-9a-f]{6}");
        assertThat(look.get("spread_dE00").doubleValue()).isPositive();
        JsonNode deeper = Ran.of("look", "ember@1", "--depth", "24 mm", "--backing", "white", "--format", "json")
                .json();
        assertThat(deeper.get("lab").get(0).doubleValue())
                .isLessThan(look.get("lab").get(0).doubleValue() - 5);
        assertThat(Ran.of("look", "ember", "--depth", "1/2 in", "--backing", "70,6,20")
                        .out())
                .startsWith("Ember, revision 4, 1/2 in deep over 70,6,20\nL*a*b* ")
                .contains("Nine of ten fresh readings would lie within ΔE00 ");
    }

    @Test
    void aColourOutOfReachIsSaidToBeSo() {
        assertThat(Ran.of("match", "#0000ff", "--depth", "6 mm", "--backing", "white", "--resin", "slow-cast")
                        .out()
                        .replaceAll("\\s+", " "))
                .containsPattern(
                        "This colour can’t be reached with these pigments 6 mm deep over white; the nearest that can"
                                + " is shown first, ΔE00 \\d+\\.\\d away\\.");
        assertThat(Ran.of("match", "#a8541c", "--depth", "6 mm", "--backing", "white", "--resin", "slow-cast")
                        .out())
                .doesNotContain("can’t be reached");
    }

    @Test
    void whatTheTheoryCantTellOfAMicaStandsBesideItsLook() {
        assertThat(Ran.of("look", "ember", "--depth", "6 mm", "--backing", "white")
                        .out())
                .contains("A mica changes with the angle");
        assertThat(Ran.of("look", "smoked-oak", "--depth", "6 mm", "--backing", "white")
                        .out())
                .doesNotContain("mica");
    }

    @Test
    void aMatchTellsItsMixesBestFirst() {
        JsonNode mixes = Ran.of(
                        "match",
                        "#a8541c",
                        "--depth",
                        "6 mm",
                        "--backing",
                        "white",
                        "--resin",
                        "slow-cast",
                        "--most",
                        "2",
                        "--count",
                        "3",
                        "--format",
                        "json")
                .json();
        assertThat(mixes).hasSize(3);
        for (JsonNode each : mixes) {
            assertThat(names(each)).containsExactly("pigments", "lab", "dE00", "spread_dE00", "cost");
            assertThat(each.get("pigments").size()).isBetween(1, 2);
        }
        Ran text = Ran.of(
                "match",
                "#a8541c",
                "--depth",
                "6 mm",
                "--backing",
                "white",
                "--resin",
                "slow-cast",
                "--pigments",
                "amber-paste,rust-paste");
        assertThat(text.out()).contains("amber-paste").contains("Pour a sample at this depth first");
        assertThat(text.out().lines()).allMatch(line -> line.length() <= 80);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            difference|blue|50,0,0||1|"blue" is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot).
            nearest|101,0,0|||1|"101,0,0" is no colour; L* goes from 0 to 100, a* and b* from -200 to 200.
            look|ember|--depth=0 mm|--backing=white|1|--depth: "0 mm" is no depth to look through; give one above 0.
            look|ember|--depth=6 mm|--backing=slate|1|--backing: "slate" is no backing; white, black, wood or a colour such as 70,6,20 was expected.
            look|embr|--depth=6 mm|--backing=white|1|There is no recipe "embr" in the book. Nearest: ember.
            nearest|50,0,0|--count=0||2|--count takes 1 or more
            """)
    void whatCannotBeToldIsRefused(String command, String first, String second, String third, int status, String told) {
        Ran ran = Ran.of(Stream.of(command, first, second, third)
                .filter(each -> each != null)
                .toArray(String[]::new));
        assertThat(ran.status()).isEqualTo(status);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).startsWith(told);
    }

    @Test
    void aResinOrAPigmentTheBookLacksIsRefusedByName() {
        assertThat(Ran.of("match", "50,0,0", "--depth", "6 mm", "--backing", "white", "--resin", "slow-cas")
                        .err())
                .isEqualTo("There is no resin \"slow-cas\" in the book. Nearest: slow-cast.\n");
        assertThat(Ran.of(
                                "match",
                                "50,0,0",
                                "--depth",
                                "6 mm",
                                "--backing",
                                "white",
                                "--resin",
                                "slow-cast",
                                "--pigments",
                                "amber-past")
                        .err())
                .isEqualTo("There is no pigment \"amber-past\" in the book. Nearest: amber-paste.\n");
    }

    /** A recipe may take a pigment that nobody has read yet. */
    @Test
    void aPigmentWithoutReadingsIsRefusedByName(@TempDir Path book) throws IOException {
        Files.writeString(
                book.resolve("lamp.json"),
                "{ \"id\": \"lamp\", \"name\": \"Lamp\", \"revisions\": [ { \"number\": 1, \"resin\": \"r\","
                        + " \"percentOf\": \"mixed resin\", \"pigments\": [ { \"pigment\": \"amber-paste\","
                        + " \"percent\": \"1 %\" } ] } ] }");
        Ran ran = Ran.in(book, Map.of(), "--book", ".", "look", "lamp", "--depth", "6 mm", "--backing", "white");
        assertThat(ran.status()).isEqualTo(1);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).startsWith("The pigment \"amber-paste\" has no reading yet, so nobody knows its colour.");
        assertThat(Ran.in(book, Map.of(), "--book", ".", "tint").out())
                .startsWith("No pigment has a reading yet. Pour chips");
        assertThat(Ran.in(book, Map.of(), "--book", ".", "nearest", "50,0,0").out())
                .isEqualTo("No pour has a reading yet.\n");
    }
}
