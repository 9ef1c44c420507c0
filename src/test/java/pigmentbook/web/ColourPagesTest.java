package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Pour;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.store.BookFolder;

/** Looks, tints, matches, corrections and readings from photos, as the page shows them. */
class ColourPagesTest extends ServedCopy {

    private HttpResponse<String> form(String path, String... fields) {
        return served.form(path, fields);
    }

    @Test
    void aLookAnswersForAnyDepthAndSaysWhatItCannot() {
        assertThat(served.get("/looks?resin=slow-cast&p=amber-paste:1.2&depth=6+mm&backing=white")
                        .body())
                .contains("worked out, 6 mm over white");
        assertThat(served.get("/looks?resin=slow-cast&p=no-such:1&depth=6+mm&backing=white")
                        .body())
                .contains("has no reading yet");
        assertThat(served.get("/looks?resin=slow-cast&p=amber-paste:1.2&depth=0+mm&backing=white")
                        .body())
                .contains("give one above 0");
        assertThat(served.get("/looks?resin=slow-cast&p=amber-paste:1.2&depth=6+mm")
                        .body())
                .contains("Say what lies beneath");
        assertThat(served.get("/looks?resin=slow-cast&p=amber-paste&depth=6+mm&backing=white")
                        .body())
                .contains("is no pigment with its percent");
    }

    @Test
    void theSameLookStandsOnThePageAndTheCommandLine() {
        String page = served.get("/recipes/ember").body();
        assertThat(page).contains("worked out, 6 mm over white, #").contains("worked out, 25 mm over black, #");
    }

    @Test
    void aMixIsDrawnAsItWillLookAndSaysOnceWhatKeepsTheLook() {
        String page =
                served.get("/recipes/ember/mix?lead=mold&mold=lamp-panel-large").body();
        List<String> hexes = Served.found("aria-label=\"worked out, [^\"]*, (#[0-9a-f]{6})\"", page);
        assertThat(hexes).hasSize(2).doesNotHaveDuplicates();
        String drawings = page.substring(page.indexOf("id=\"part-drawings\""));
        assertThat(drawings).contains("fill=\"" + hexes.get(1) + "\"").doesNotContain(hexes.get(0));
        assertThat(Served.found("(keeps the look)", page)).hasSize(1);
        assertThat(page).contains("value=\"48.0\""); // the depth that is slid begins at the mold's
    }

    /** What was weighed is in percent of mixed resin, whatever the recipe's own percents are of. */
    @Test
    void theLoadingThatKeepsTheLookOfAPourHasThePourAsItWasWeighed() throws IOException {
        String pour = "2026-11-24-tawny-1";
        Files.writeString(folder.resolve("tawny.json"), """
                {"id": "tawny", "name": "Tawny", "revisions": [{"number": 1, "resin": "slow-cast", "percentOf": "part A",
                 "pigments": [{"pigment": "amber-paste", "percent": "3 %"}, {"pigment": "rust-paste", "percent": "0.3 %"}]}]}
                """);
        Files.writeString(folder.resolve("pours/2026/" + pour + ".json"), """
                {"id": "%s", "recipe": "tawny", "revision": 1, "kind": "sample", "started": "2026-11-24T08:00", "by": "",
                 "layers": [{"depth": "6 mm", "cups": [{"weighed": [
                   {"item": "part A", "lot": "unknown", "actual": "28.0 g"}, {"item": "part B", "lot": "unknown", "actual": "12.2 g"},
                   {"item": "amber-paste", "lot": "unknown", "actual": "0.85 g"}]}]}], "readings": [], "photos": []}
                """.formatted(pour));
        served.close();
        served = new Served(folder);
        String page = served.get("/recipes/tawny/mix?pour=" + pour + "&as=weighed&lead=mold&mold=lamp-panel-large")
                .body();
        double sum = Double.parseDouble(
                Served.found("\\(([0-9.]+) % in all\\) keeps the look", page).get(0));
        String use = Served.found("<a href=\"([^\"]*)\">Use this loading", page)
                .get(0)
                .replace("&amp;", "&");
        String recipe = served.get(use).body();
        assertThat(recipe).contains("<option selected>mixed resin</option>");
        assertThat(Served.found("data-field=\"percent-rust-paste\"[^>]*>([^<]*)<", recipe))
                .containsExactly("");
        assertThat(Double.parseDouble(Served.found("data-field=\"percent-amber-paste\"[^>]*>([0-9.]+) %<", recipe)
                        .get(0)))
                .isCloseTo(sum, within(0.006));
    }

    @Test
    void theNearestColourIsShownAsTheVeryReadingThatIsNear() throws Exception {
        Pour.Reading wood = new BookFolder(folder)
                .open().book().poursOf("ember").stream()
                        .flatMap(pour -> pour.readings().stream())
                        .filter(reading -> reading.backing() != null
                                && "wood".equals(reading.backing().name()))
                        .findFirst()
                        .orElseThrow();
        String asked =
                wood.lab().l() + ", " + wood.lab().a() + ", " + wood.lab().b();
        String page = served.get("/recipes?near=" + URLEncoder.encode(asked, StandardCharsets.UTF_8))
                .body();
        String first = page.substring(page.indexOf("<li>"), page.indexOf("</li>"));
        assertThat(first)
                .contains("/recipes/ember", "ΔE00 0", "as read over wood, ", "fill=\"" + Srgb.hex(wood.lab()) + "\"");
        assertThat(page).contains("Match this colour");
    }

    @Test
    void aColourThatNobodyReadIsListedAsWorkedOutOnceItsPigmentsAreKnownAndElseWithoutAColour() throws IOException {
        Files.writeString(
                folder.resolve("shelf/pigments/new-dust.json"),
                "{\"id\": \"new-dust\", \"name\": \"New dust\", \"kind\": \"powder\"}");
        unread("tawny", "amber-paste", "1.2 %");
        unread("dusty", "new-dust", "1 %");
        served.close();
        served = new Served(folder);
        String look = served.get("/looks?resin=slow-cast&p=amber-paste:1.2&depth=6+mm&backing=white")
                .body();
        String hex = look.substring(look.indexOf("fill=\"#") + 6, look.indexOf("fill=\"#") + 13);
        assertThat(card("tawny"))
                .contains(
                        "aria-label=\"Tawny, not read yet; worked out, 6 mm over white, " + hex + ", ± ",
                        "fill=\"" + hex + "\"",
                        "class=\"guess\"",
                        "<span>not read yet; worked out, 6 mm over white, ± ")
                .doesNotContain("class=\"own\"");
        assertThat(card("dusty"))
                .contains("aria-label=\"Dusty, not read yet\"", "class=\"resin none\"", "<span>not read yet</span>")
                .doesNotContain("fill=", "class=\"guess\"", "class=\"own\"");
        assertThat(card("ember")).contains("class=\"own\"").doesNotContain("class=\"guess\"", "not read yet");
    }

    /** The list is of colours over white; whatever else a recipe is known by is said. */
    @Test
    void aColourReadElsewhereThanOverWhiteSaysWhere() throws IOException {
        String pour = "2026-11-24-tawny-1";
        unread("tawny", "amber-paste", "1.2 %");
        Files.writeString(folder.resolve("pours/2026/" + pour + ".json"), """
                {"id": "%s", "recipe": "tawny", "revision": 1, "kind": "sample", "started": "2026-11-24T08:00", "by": "",
                 "layers": [], "photos": [], "readings": [{"lab": [35, 20, 30], "depth": "5 mm", "backing": "black"}]}
                """.formatted(pour));
        served.close();
        served = new Served(folder);
        assertThat(card("tawny"))
                .contains(
                        "aria-label=\"Tawny as read over black, 5 mm\"",
                        "fill=\"" + Srgb.hex(new Lab(35, 20, 30)) + "\"",
                        "<span>as read over black, 5 mm</span>")
                .doesNotContain("not read yet");
        assertThat(card("smoked-oak")).contains("<span>as read over wood, 15 mm</span>", ", and over black\"");
        assertThat(card("ember")).doesNotContain("<span>as read");
    }

    private void unread(String id, String pigment, String percent) throws IOException {
        Files.writeString(folder.resolve(id + ".json"), """
                {"id": "%s", "name": "%s", "revisions": [{"number": 1, "resin": "slow-cast", "percentOf": "mixed resin",
                 "pigments": [{"pigment": "%s", "percent": "%s"}], "why": "first try"}]}
                """.formatted(
                        id, id.substring(0, 1).toUpperCase(Locale.ROOT) + id.substring(1), pigment, percent));
    }

    /** Returns a recipe's part of the list. */
    private String card(String id) {
        String list = served.get("/recipes").body();
        int at = list.indexOf("<a href=\"/recipes/" + id + "\">");
        assertThat(at).as("%s is listed", id).isPositive();
        return list.substring(list.lastIndexOf("<li>", at), list.indexOf("</li>", at));
    }

    @Test
    void aRecipeShowsLessAndMoreOfItsPigmentsAgainstDepths() {
        String page = served.get("/recipes/ember").body();
        assertThat(page).contains("Less and more of all pigments, over white").contains("½ ×", "4 ×");
        // Smoked oak holds 1.2 % in a resin that takes 4 %, so four times that is too much.
        assertThat(served.get("/recipes/smoked-oak").body()).contains("above top loading");
    }

    @Test
    void readingsThatContradictEachOtherStandSideBySide() throws IOException {
        Path pour = folder.resolve("pours/2026/2026-10-06-ember-1.json");
        String other = Files.readString(pour)
                .replace("2026-10-06-ember-1", "2026-10-07-ember-1")
                .replace("[41.2, 39.2, 42.0]", "[80, 0, 0]");
        Files.writeString(pour.resolveSibling("2026-10-07-ember-1.json"), other);
        served.close();
        served = new Served(folder);
        assertThat(served.get("/tints/amber-paste").body())
                .contains("Can’t both be right")
                .contains("2026-10-06-ember-1", "2026-10-07-ember-1", "80.0, 0.0, 0.0")
                .contains("look at this one first");
    }

    @Test
    void aPigmentShowsItsLadderAndWhatToPourNext() {
        String page = served.get("/tints/amber-paste").body();
        assertThat(page)
                .contains("Left half: read. Right half: worked out.")
                .contains("The chip that would teach most");
        assertThat(page).contains("It takes most");
        assertThat(page).contains("29 readings, from lots AP-05, AP-07").contains("Readings of mixes with it");
        assertThat(served.get("/tints/no-such").statusCode()).isEqualTo(404);
        assertThat(served.post("/tints/gold-mica/chip-sheets", "").body())
                .isEqualTo("/recipes/chips-gold-mica/chips?lead=total&total=40+g");
        assertThat(served.post("/tints/gold-mica/chips", "").body())
                .isEqualTo("/recipes/chips-gold-mica/mix?lead=total&total=40+g&revision=1");
        String mix = served.get("/recipes/chips-gold-mica/mix?lead=total&total=40+g&revision=1")
                .body();
        assertThat(mix).contains("/recipes/chips-gold-mica/mix?revision=2&amp;lead=total&amp;total=40+g");
        String sheets = served.get("/recipes/chips-gold-mica/chips?lead=total&total=40+g")
                .body();
        assertThat(sheets.split("<main", -1)).hasSize(4 + 1);
        assertThat(sheets).contains("revision 1", "revision 4");
        assertThat(served.get("/recipes/ember/chips").body()).contains("Ember is no recipe of sample chips.");
    }

    @Test
    void aColourIsMatchedKeptPouredReadAndCorrected() throws IOException {
        String page = served.get("/match?colour=%23a8541c&depth=6+mm&backing=white&resin=slow-cast&most=2")
                .body();
        assertThat(page).contains("Keep and pour a 40 g sample");
        HttpResponse<String> kept = form(
                "/match/keep",
                "colour",
                "#a8541c",
                "depth",
                "6 mm",
                "backing",
                "white",
                "resin",
                "slow-cast",
                "name",
                "Tawny",
                "p",
                "amber-paste:2.1",
                "p",
                "rust-paste:0.4");
        assertThat(kept.body()).isEqualTo("/recipes/tawny/mix?lead=total&total=40+g");
        assertThat(Files.readString(folder.resolve("tawny.json"))).contains("\"wanted\"");
        String pour = "2026-11-25-tawny-1";
        Files.writeString(folder.resolve("pours/2026/" + pour + ".json"), """
                {"id": "%s", "recipe": "tawny", "revision": 1, "kind": "sample", "started": "2026-11-25T08:00", "by": "",
                 "layers": [{"depth": "6 mm", "cups": [{"weighed": [
                   {"item": "part A", "lot": "unknown", "actual": "28.0 g"}, {"item": "part B", "lot": "unknown", "actual": "12.2 g"},
                   {"item": "amber-paste", "lot": "unknown", "actual": "0.85 g"}, {"item": "rust-paste", "lot": "unknown", "actual": "0.16 g"}]}]}],
                 "readings": [{"lab": [52, 28, 52], "depth": "6 mm", "backing": "white", "how": "meter", "date": "2026-11-25"}], "photos": []}
                """.formatted(pour));
        form("/pours/2026-11-18-ember-1/result");
        String shown = served.get("/pours/" + pour).body();
        assertThat(shown).contains("wanted | this sample, ΔE00");
        HttpResponse<String> corrected = form("/pours/" + pour + "/corrected/free");
        assertThat(corrected.statusCode()).as(corrected.body()).isEqualTo(200);
        JsonNode revisions =
                new JsonMapper().readTree(folder.resolve("tawny.json").toFile()).get("revisions");
        assertThat(revisions).hasSize(2);
        assertThat(revisions.get(1).get("why").asText()).isEqualTo("corrected from the reading of " + pour);
    }

    private static String answers(String page) {
        return page.substring(page.indexOf("<ol"), page.indexOf("</ol>"));
    }

    @Test
    void aMatchUsesThePigmentsThatWereChosenAndSaysWhatTheTheoryCantTellOfThem() {
        String asked = "/match?colour=%23a8541c&depth=6+mm&backing=white&resin=slow-cast";
        assertThat(served.get(asked).body()).contains("From 13 of 13 pigments that were read");
        assertThat(served.get(asked + "&use=no-such").body()).contains("From 13 of 13 pigments that were read");
        String page = served.get(asked + "&use=gold-mica&use=rust-paste").body();
        assertThat(page).contains("From 2 of 13 pigments that were read");
        assertThat(answers(page))
                .contains("Gold mica")
                .contains("A mica changes with the angle")
                .doesNotContain("Amber paste");
    }

    @Test
    void aPigmentWhoseLotIsUsedUpIsLeftOutUnlessAskedFor() {
        form("/shelf/lots/SP-11/correct", "left", "0 g", "change", "", "why", "spilt");
        String asked = "/match?colour=%23a8541c&depth=6+mm&backing=white&resin=slow-cast";
        String page = served.get(asked).body();
        assertThat(page).contains("used up").contains("From 12 of 13 pigments that were read");
        assertThat(answers(page)).doesNotContain("Smoke paste");
        assertThat(answers(
                        served.get(asked + "&use=smoke-paste&use=amber-paste").body()))
                .contains("Smoke paste");
    }

    @Test
    void whatCannotBeMatchedSaysSo() {
        assertThat(served.get("/match?colour=brown").body()).contains("is no colour");
        assertThat(served.get("/match?colour=%230000ff").body()).contains("This colour can’t be reached");
        assertThat(served.get("/match?colour=%23a8541c&depth=deep").body()).contains("This can’t be met");
        assertThat(form("/match/keep", "colour", "#a8541c", "resin", "none", "p", "amber-paste:1")
                        .statusCode())
                .isEqualTo(422);
    }

    @Test
    void aColourIsReadOffAPhotoBesideACard() throws IOException {
        HttpResponse<String> answer =
                served.send(served.request("/photo-reading?with=card&L=50&points=0.25,0.5;0.75,0.5")
                        .header("X-Book-Token", served.get("/token").body())
                        .POST(HttpRequest.BodyPublishers.ofByteArray(PieceBesideCard.png()))
                        .build());
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        String colour = new JsonMapper().readTree(answer.body()).get("colour").asText();
        assertThat(Ciede2000.between(ColourText.parse(colour), ColourText.parse("#a8541c")))
                .isLessThan(0.5);
        assertThat(served.post("/photo-reading?with=card&points=0.2,0.5;0.7,0.5", "no photo")
                        .body())
                .isEqualTo("This is no photo that can be read; a JPEG or a PNG was expected.");
        assertThat(served.post("/photo-reading?with=card&points=here", "no photo")
                        .body())
                .isEqualTo("Point at the card and then at the resin.");
    }
}
