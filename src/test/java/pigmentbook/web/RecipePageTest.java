package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** A recipe's page over HTTP: where its links lead. */
class RecipePageTest extends ServedCopy {

    @Test
    void aPourIsMixedAgainAsItWasWeighed() throws IOException {
        String unweighed = "2026-11-24-ember-1";
        Path pour = folder.resolve("pours/2026/2026-11-18-ember-1.json");
        Files.writeString(pour.resolveSibling(unweighed + ".json"), """
                {"id": "%s", "recipe": "ember", "revision": 4, "kind": "sample", "started": "2026-11-24T08:00", "by": "",
                 "layers": [], "result": {"rating": 4}, "readings": [], "photos": []}
                """.formatted(unweighed));
        served.close();
        served = new Served(folder);
        assertThat(Served.found(
                        "<a href=\"([^\"]*)\">Mix this one again",
                        served.get("/recipes/ember").body()))
                .contains("/recipes/ember/mix?pour=2026-11-18-ember-1&amp;as=weighed")
                // Of a pour that nobody weighed there are only its revision's percents.
                .contains("/recipes/ember/mix?pour=" + unweighed);
    }

    @Test
    void aMixAfterAPourSaysWhoseAmountsItHas() {
        String current = "aria-current=\"true\">([^<]*)";
        String pour = "/recipes/ember/mix?pour=2026-11-18-ember-1";
        assertThat(Served.found(current, served.get(pour).body())).containsExactly("As revision 4 is written");
        assertThat(Served.found(current, served.get(pour + "&as=weighed").body()))
                .containsExactly("As weighed on 18 Nov 2026");
        assertThat(Served.found(current, served.get("/recipes/ember/mix").body()))
                .isEmpty();
    }
}
