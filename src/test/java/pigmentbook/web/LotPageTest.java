package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.store.BookFolder;

/** A lot is corrected with its why, its strength and drops are found, and two lots become one. */
class LotPageTest extends ServedCopy {

    private HttpResponse<String> form(String path, String... fields) {
        return served.form("/shelf/lots/" + path, fields);
    }

    private Book book() throws Exception {
        return new BookFolder(folder).open().book();
    }

    private Lot lot(String id) throws Exception {
        return Objects.requireNonNull(book().lots().get(id));
    }

    @Test
    void whatTheScaleSaysIsLeftDecides() throws Exception {
        assertThat(form("A-2409/correct", "left", "1.25 kg", "change", "", "why", "weighed")
                        .statusCode())
                .isEqualTo(200);
        assertThat(book().leftGrams(lot("A-2409"))).isCloseTo(1250, within(1e-3));
        assertThat(form("A-2409/correct", "left", "", "change", "-50", "why", "spilled")
                        .statusCode())
                .isEqualTo(200);
        assertThat(book().leftGrams(lot("A-2409"))).isCloseTo(1200, within(1e-3));
        assertThat(served.get("/shelf/lots/A-2409").body()).contains("corrected: spilled");
    }

    @Test
    void aCorrectionNeedsItsWhyAndOneFigure() {
        assertThat(form("A-2409/correct", "left", "5 g", "change", "", "why", "")
                        .body())
                .isEqualTo("Say why: spilled, weighed, used up. Nothing was changed.");
        assertThat(form("A-2409/correct", "left", "", "change", "", "why", "x").body())
                .isEqualTo("Type what is left now, or by how much it changed; one of the two.");
        assertThat(form("A-2409/correct", "left", "a lot", "change", "", "why", "x")
                        .body())
                .startsWith("Left now: \"a lot\"");
        assertThat(form("no-lot/correct", "left", "5 g", "change", "", "why", "x")
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void dropsAreWeighedTogether() throws Exception {
        assertThat(form("AP-07/drops", "count", "20", "weigh", "0.62").statusCode())
                .isEqualTo(200);
        assertThat(Objects.requireNonNull(lot("AP-07").dropMass()).grams()).isCloseTo(0.031, within(1e-12));
        assertThat(form("AP-07/drops", "count", "none", "weigh", "1").statusCode())
                .isEqualTo(422);
    }

    /** Strengths add up by mass: 40 g and 60 g are 0.4 of the one and 0.6 of the other. */
    @Test
    void twoLotsBecomeOneWithTheirShares() throws Exception {
        double a = lot("AP-07").strengthFactor();
        double b = lot("AP-05").strengthFactor();
        assertThat(a).isNotEqualTo(b);
        double leftA = book().leftGrams(lot("AP-07"));
        HttpResponse<String> answer =
                form("AP-07/intermix", "own", "40 g", "other", "AP-05", "more", "60 g", "into", "AP-MIX");
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        Lot mixed = lot("AP-MIX");
        assertThat(mixed.quantity().grams()).isEqualTo(100);
        assertThat(mixed.strengthFactor()).isCloseTo(0.4 * a + 0.6 * b, within(1e-4));
        assertThat(book().leftGrams(lot("AP-07"))).isCloseTo(leftA - 40, within(1e-9));
        assertThat(form("AP-07/intermix", "own", "40 g", "other", "AP-05", "more", "60 g", "into", "AP-MIX")
                        .statusCode())
                .isEqualTo(409);
    }

    /** ISO 9001:2015, 8.5.2: where a thing went stays known, also through what it was put into. */
    @Test
    void whereALotWentIsFollowedThroughTheLotItWasPutInto() throws Exception {
        List<String> before = book().whereUsed(lot("AP-07")).pourIds();
        form("AP-07/intermix", "own", "40 g", "other", "AP-05", "more", "60 g", "into", "AP-MIX");
        Path pour = folder.resolve("pours/2026/2026-11-20-ember-9.json");
        Files.writeString(pour, """
                { "id": "2026-11-20-ember-9", "recipe": "ember", "revision": 1, "started": "2026-11-20T10:00",
                  "layers": [ { "cups": [ { "weighed": [
                    { "item": "amber-paste", "lot": "AP-MIX", "target": "10 g", "actual": "10 g" } ] } ] } ] }
                """);
        Book now = book();
        assertThat(before).doesNotContain("2026-11-20-ember-9");
        assertThat(now.whereUsed(lot("AP-07")).pourIds()).containsAll(before).contains("2026-11-20-ember-9");
        assertThat(now.whereUsed(lot("AP-07")).lotIds()).containsExactly("AP-MIX");
        assertThat(now.whereUsed(lot("AP-07")).recipeIds()).contains("ember");
        assertThat(now.leftGrams(lot("AP-MIX"))).isCloseTo(90, within(1e-9));
        assertThat(served.get("/shelf/lots/AP-07").body())
                .contains("Some of it is in lot <a href=\"/shelf/lots/AP-MIX\">AP-MIX</a>.");
        assertThat(served.get("/shelf/lots/AP-MIX").body())
                .contains("Put together from 40 g of <a href=\"/shelf/lots/AP-07\">AP-07</a> and 60 g of"
                        + " <a href=\"/shelf/lots/AP-05\">AP-05</a>.");
        assertThat(new BookFolder(folder).open().check()).isEmpty();
    }

    @Test
    void aLotIsNotPutTogetherWithItselfNorWithAnotherProduct() throws Exception {
        for (String other : new String[] {"AP-07", "CM-03"}) {
            assertThat(form("AP-07/intermix", "own", "40 g", "other", other, "more", "60 g", "into", "AP-MIX")
                            .body())
                    .startsWith("Two different lots of one product are put together");
        }
        assertThat(book().lots()).doesNotContainKey("AP-MIX");
    }

    /** K/S = (1 − R)²/(2R), Kubelka and Munk 1931: R 0.25 and 0.30 give 1.125 and 0.81667, so 72.6 %. */
    @Test
    void aWeakerLotsLetdownIsPaler() throws Exception {
        // L* of Y = 0.25 and 0.30 (CIE 15): 57.075 and 61.654; neutral, so all three reflectances are the same.
        assertThat(form("AP-07/strength", "reference", "57.0753, 0, 0", "own", "61.6542, 0, 0")
                        .statusCode())
                .isEqualTo(200);
        assertThat(lot("AP-07").strengthFactor()).isCloseTo(0.81667 / 1.125, within(1e-3));
        assertThat(form("AP-07/strength", "reference", "100, 0, 0", "own", "100, 0, 0")
                        .body())
                .startsWith("These two are too pale");
    }
}
