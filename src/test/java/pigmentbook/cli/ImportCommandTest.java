package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code import} as it is typed. */
class ImportCommandTest {

    private static final String DEMO = Path.of("recipes").toAbsolutePath().toString();

    @TempDir
    Path here;

    private Ran ran(String... args) {
        return Ran.in(here, Map.of(), args);
    }

    private void demo() {
        Ran.in(here, Map.of("PIGMENT_BOOK", DEMO), "pack", "demo.zip");
        assertThat(ran("unpack", "demo.zip", "--save").status()).isZero();
    }

    @Test
    void aTrialShowsWhatWouldComeInAndSavingDoesIt() throws Exception {
        demo();
        Files.writeString(
                here.resolve("colours.csv"),
                "Shade,Resin,Pigment,\"Dose, g\",Resin grams\nHearth,slow-cast,amber-paste,3.6,300\n"
                        + "Kiln,slow-cast,amber-paste,a pinch,300\nEmber,slow-cast,amber-paste,3,300\n");
        Ran trial = ran("import", "colours.csv", "--columns", "Shade=recipe,Dose, g=grams");
        assertThat(trial).isEqualTo(new Ran(0, """
                Columns: Shade is recipe; Resin is resin; Pigment is pigment; Dose, g is grams;
                         Resin grams is resin grams.
                1 new, 0 the same, 1 different, 1 set aside.
                New: hearth.json
                Different: ember.json, revisions was slow-cast: amber-paste 1.2 %, copper-mica
                           0.35 %, rust-paste 0.18 %, smoke-paste 0.06 %, is slow-cast:
                           amber-paste 1 %
                Set aside: row 3, column Dose, g: "a pinch" is different each time. Measure it
                           out once more, weigh it on the fine scale, and write the grams.

                Nothing was written. With --save the new and the different ones are.
                """, ""));
        assertThat(here.resolve("recipes/hearth.json")).doesNotExist();
        JsonNode saved = ran(
                        "import",
                        "colours.csv",
                        "--columns",
                        "Shade=recipe",
                        "--columns",
                        "Dose, g=grams",
                        "--save",
                        "--format",
                        "json")
                .json();
        assertThat(saved.get("saved").toString()).isEqualTo("[\"hearth.json\",\"import/columns.json\"]");
        assertThat(saved.get("changed").toString()).isEqualTo("[\"ember.json\"]");
        assertThat(saved.get("columns").get("Shade").textValue()).isEqualTo("recipe");
        JsonNode aside = saved.get("set_aside").get(0);
        assertThat(aside.get("row").intValue()).isEqualTo(3);
        assertThat(aside.get("column").textValue()).isEqualTo("Dose, g");
        assertThat(ran("check").out()).isEqualTo("The book is in order.\n");
        JsonNode again =
                ran("import", "colours.csv", "--save", "--format", "json").json();
        assertThat(again.get("same").toString()).isEqualTo("[\"hearth.json\",\"ember.json\"]");
        assertThat(again.get("new")).isEmpty();
        assertThat(again.get("different")).isEmpty();
    }

    @Test
    void whatIsNoTableOrNoPairIsRefused() throws Exception {
        demo();
        assertThat(ran("import", "none.csv").err())
                .isEqualTo("There is no file \"" + here.resolve("none.csv") + "\". Name the table.\n");
        assertThat(ran("import", "demo.zip"))
                .isEqualTo(
                        new Ran(1, "", "This is a zip file, but no workbook. A pack is taken in with \"unpack\".\n"));
        Files.writeString(here.resolve("a.csv"), "Recipe,Pigment,Percent\n");
        Ran wrong = ran("import", "a.csv", "--columns", "Recipe");
        assertThat(wrong.status()).isEqualTo(2);
        assertThat(wrong.err()).startsWith("--columns \"Recipe\" has no two sides; write Head=meaning.");
        assertThat(ran("import", "a.csv", "--as", "pours").status()).isEqualTo(2);
    }
}
