package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code pack} and {@code unpack} as they are typed. */
class PackCommandTest {

    private static final String DEMO = Path.of("recipes").toAbsolutePath().toString();

    @TempDir
    Path here;

    private Ran ran(String... args) {
        return Ran.in(here, Map.of("PIGMENT_BOOK", DEMO), args);
    }

    @Test
    void aPackIsWrittenOnceAndTaken() throws Exception {
        Ran packed = ran("pack", "workshop.zip", "--format", "json");
        assertThat(packed.status()).isZero();
        assertThat(packed.json().get("file").textValue())
                .isEqualTo(here.resolve("workshop.zip").toString());
        assertThat(packed.json().get("packed").toString()).contains("\"ember.json\"", "\"shelf/lots/A-2402.json\"");
        assertThat(packed.json().get("set_aside")).isEmpty();
        byte[] bytes = Files.readAllBytes(here.resolve("workshop.zip"));
        assertThat(ran("pack", "workshop.zip"))
                .isEqualTo(new Ran(
                        1,
                        "",
                        "The file \"workshop.zip\" is there already. Add --replace to write over it, or give another"
                                + " name.\n"));
        assertThat(ran("pack", "workshop.zip", "--replace").status()).isZero();
        assertThat(Files.readAllBytes(here.resolve("workshop.zip"))).isEqualTo(bytes);

        JsonNode look = ran("--book", "second", "unpack", "workshop.zip", "--format", "json")
                .json();
        assertThat(look.get("new")).isEqualTo(packed.json().get("packed"));
        assertThat(look.get("saved")).isEmpty();
        assertThat(here.resolve("second")).doesNotExist();
        JsonNode saved = ran("--book", "second", "unpack", "workshop.zip", "--save", "--format", "json")
                .json();
        assertThat(saved.get("saved")).isEqualTo(look.get("new"));
        assertThat(ran("--book", "second", "check").out()).isEqualTo("The book is in order.\n");
        Ran same = ran("unpack", "workshop.zip");
        assertThat(same.out()).startsWith("0 new, ").contains(" the same, 0 different, 0 set aside.");
        assertThat(same.out()).endsWith("Nothing was written. With --save the new ones are taken in.\n");
    }

    @Test
    void packingLeavesNothingBesideAndNamesWhatIsMissing() throws Exception {
        assertThat(ran("pack", "ember.zip", "--recipe", "embr").err())
                .isEqualTo("There is no recipe \"embr\" in the book. Nearest: ember.\n");
        assertThat(ran("pack", "ember.zip", "--mix", "2026-03-02-embr-1").err())
                .startsWith(
                        "There is no recipe or pour \"2026-03-02-embr-1\" in the book. Nearest: 2026-03-02-ember-1");
        assertThat(ran("pack", "none/ember.zip").err())
                .isEqualTo(
                        "There is no folder \"" + here.resolve("none") + "\". Make it first, or name another one.\n");
        assertThat(ran("pack", "a.zip", "--recipe", "ember", "--mix", "ember").status())
                .isEqualTo(2);
        assertThat(ran("unpack", "a.zip", "--take-theirs").status()).isEqualTo(2);
        assertThat(ran("unpack", "a.zip"))
                .isEqualTo(new Ran(1, "", "There is no file \"" + here.resolve("a.zip") + "\". Name the pack.\n"));
        assertThat(Files.list(here)).isEmpty();
        assertThat(ran("pack", "ember.zip", "--mix", "2026-03-02-ember-1").out())
                .endsWith("packed into ember.zip.\n");
    }

    @Test
    void whatDiffersIsShownAndReplacedOnlyWhenAsked() throws Exception {
        ran("pack", "workshop.zip");
        ran("--book", "second", "unpack", "workshop.zip", "--save");
        Path ember = here.resolve("second/ember.json");
        String ours = Files.readString(ember).replace("The colour people ask for again.", "Ours.");
        Files.writeString(ember, ours);
        Ran kept = ran("--book", "second", "unpack", "workshop.zip", "--save");
        assertThat(kept.out()).contains("Different: ember.json (notes)\n").contains("--take-theirs would replace\nit.");
        assertThat(ember).hasContent(ours);
        Ran taken = ran("--book", "second", "unpack", "workshop.zip", "--save", "--take-theirs");
        assertThat(taken.out()).contains("Replaced: ember.json; the old one is kept as put-away/replaced/ember.json\n");
        assertThat(here.resolve("second/put-away/replaced/ember.json")).hasContent(ours);
        assertThat(ember).hasSameTextualContentAs(Path.of(DEMO, "ember.json"));
    }
}
