package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;

/** At the bench one thing at a time is weighed, and each entry is on the disk at once. */
@Tag("browser")
class BenchBrowserTest extends CopiedBookInBrowser {

    private static final int PHONE = 390;

    private String begin(String query) {
        String path = served.post("/recipes/ember/bench?" + query, "").body();
        browser.go(served.url() + path.substring(1), PHONE);
        browser.script("localStorage.clear(); sessionStorage.clear()");
        browser.driver.navigate().refresh();
        browser.waitFor("the first item", () -> title().equals("Part A"));
        return path.split("/")[2];
    }

    private static String title() {
        return browser.text(".bench h1");
    }

    private static void press(String label) {
        for (var button : browser.driver.findElements(org.openqa.selenium.By.cssSelector(".bench button, .bench a"))) {
            if (button.getText().startsWith(label)) {
                button.click();
                return;
            }
        }
        throw new AssertionError("no button \"" + label + "\" at " + browser.text(".bench"));
    }

    private static void weigh(String grams) {
        browser.find("#g").clear();
        browser.find("#g").sendKeys(grams);
        press("Enter");
    }

    private static String target() {
        return browser.text(".target").replaceAll("[^0-9.]", "");
    }

    private JsonNode record(String pour) throws IOException {
        return new JsonMapper().readTree(file("pours/2026/" + pour + ".json"));
    }

    private static void shot(String name) throws IOException {
        String folder = System.getProperty("shots");
        if (folder != null) {
            Files.write(Path.of(folder, name + ".png"), browser.driver.getScreenshotAs(OutputType.BYTES));
        }
    }

    @Test
    void aCupIsWeighedFromPartAToTheClock() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        shot("bench-weigh");
        browser.accessible();
        weigh("347");
        assertThat(browser.text(".told")).isEqualTo("Type who weighs first; the record says it.");
        browser.find("#who").sendKeys("Ida");
        assertThat(browser.text(".told")).as("who weighs is typed now").isEmpty();
        weigh(target());
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        onDisk("pours/2026/" + pour + ".json", "\"by\": \"Ida\"");
        weigh("6.90");
        browser.waitFor(
                "it stops and offers",
                () -> browser.text(".bench .caution.stop").contains("too much Amber paste"));
        shot("bench-over");
        browser.accessible();
        press("Add");
        browser.waitFor("part A follows", () -> title().equals("Add Part A"));
        weigh(target());
        for (String next : List.of("Copper mica", "Rust paste", "Smoke paste")) {
            browser.waitFor(next, () -> title().equals(next));
            assertThat(browser.text(".at-item").contains("Wet the mica out in a little part A first."))
                    .isEqualTo(next.equals("Copper mica"));
            shot("bench-" + next.replace(' ', '-'));
            weigh(target());
        }
        browser.waitFor("a second person checks", () -> title().equals("A second person checks"));
        assertThat(browser.text(".to-do").lines())
                .containsExactly(
                        "Wet the mica out in a little part A first",
                        "Stir all pigments into part A, 3 min, scraping the wall",
                        "Rest 10 min so that bubbles rise");
        shot("bench-check");
        browser.accessible();
        browser.find("#second").sendKeys("Ida");
        press("Checked");
        assertThat(browser.text(".told")).startsWith("A second person checks, not the one who weighed");
        browser.find("#second").clear();
        browser.find("#second").sendKeys("Jo");
        press("Checked");
        browser.waitFor("part B", () -> title().equals("Part B"));
        weigh(target());
        browser.waitFor("the clock runs", () -> browser.count("[role=timer]") == 1);
        browser.waitFor("the title shows it", () -> browser.driver.getTitle().matches("3\\d:\\d\\d left.*"));
        shot("bench-clock");
        browser.accessible();
        browser.script("const real = Date.now; Date.now = () => real() + 3 * 3600e3;");
        long set = System.nanoTime();
        browser.waitFor(
                "a clock that is set on changes nothing once the book said the time",
                () -> System.nanoTime() - set > 4_000_000_000L
                        && browser.text("[role=timer]").matches("(?s)3\\d:\\d\\d.*"));
        browser.driver.navigate().refresh();
        browser.waitFor(
                "it runs on after a reload", () -> browser.text("[role=timer]").matches("(?s)3\\d:\\d\\d.*"));
        press("Cup 1 is poured");
        browser.waitFor("all poured", () -> title().equals("All cups are poured"));
        press("End this pour");
        browser.waitFor("ended", () -> browser.text(".bench").contains("This pour is ended."));
        JsonNode weighed = record(pour).at("/layers/0/cups/0/weighed");
        assertThat(weighed).hasSize(6);
        // The percents of what was really weighed are those of the recipe again, to the steps of the scale.
        assertThat(weighed.get(1).get("actual").asText()).isEqualTo("6.9 g");
        double resin = grams(weighed, 0) + 0.6 * 6.9 + grams(weighed, 5);
        JsonNode lot = new JsonMapper()
                .readTree(file("shelf/lots/" + weighed.get(1).get("lot").asText() + ".json"));
        String strength = lot.path("strength").asText("100 %").replace(" %", "");
        double percent = 6.9 * Double.parseDouble(strength) / resin;
        assertThat(percent).isBetween(1.19, 1.21);
        browser.noConsoleErrors();
    }

    @Test
    void aBookMayDoWithoutASecondPerson() throws IOException {
        Path book = folder.resolve("book.json");
        Files.writeString(
                book, Files.readString(book).replace("\"defaults\": {", "\"defaults\": { \"secondPerson\": false,"));
        served.close();
        served = new Served(folder);
        begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        for (String next : List.of("Part A", "Amber paste", "Copper mica", "Rust paste", "Smoke paste")) {
            browser.waitFor(next, () -> title().equals(next));
            weigh(target());
        }
        browser.waitFor("the recipe's steps", () -> title().equals("Before part B"));
        assertThat(browser.text(".to-do")).contains("Rest 10 min so that bubbles rise");
        press("Done, weigh part B");
        browser.waitFor("part B without a check", () -> title().equals("Part B"));
        assertThat(served.get("/recipes/ember/bench-file?lead=total&total=500+g")
                        .body())
                .contains("\"secondPerson\":false");
    }

    private static String firstChoice() {
        return browser.text(".bench button.next b");
    }

    private void overIs(String first) {
        browser.waitFor(first, () -> browser.count(".bench button.next b") == 1);
        assertThat(firstChoice()).isEqualTo(first);
    }

    @Test
    void theWholeDisplayTypedForANetIsSeenAndItsNetEntered() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        String net = target();
        String display = browser.text(".shows b");
        assertThat(Double.parseDouble(display) - Double.parseDouble(net)).isEqualTo(38);
        browser.find("#g").sendKeys(display);
        assertThat(browser.text(".bench button.next")).isEqualTo("Enter " + display + " g, 38 g too much");
        press("Enter");
        overIs("You typed the whole display; net is " + net + " g");
        shot("bench-whole");
        browser.accessible();
        press("You typed the whole display");
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        browser.waitFor("it is on the disk", () -> {
            try {
                return record(pour).get("log").size() == 3;
            } catch (IOException e) {
                throw new java.io.UncheckedIOException(e);
            }
        });
        JsonNode weighed = record(pour).at("/layers/0/cups/0/weighed");
        assertThat(weighed).hasSize(1);
        assertThat(weighed.get(0).get("actual").asText()).isEqualTo(net + " g");
    }

    @Test
    void addingIsNoFirstChoiceWhereItWasTypedWrongOrTheCupIsTooSmall() throws IOException {
        begin("lead=total&total=500+g&cup=550+g");
        browser.find("#who").sendKeys("Ida");
        weigh(target());
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        String paste = target();
        weigh(String.valueOf(3 * Double.parseDouble(paste)));
        overIs("It was typed wrong");
        press("It was typed wrong");
        browser.waitFor("it is typed again", () -> title().equals("Amber paste"));
        // 6.9 of 5.71 g: 500 g grow to 604 g, and the cup takes 550 g.
        weigh("6.9");
        overIs("It is still in the boat: take some off");
        assertThat(browser.text(".bench .caution.stop")).contains("6.90 g is weighed.");
        assertThat(browser.text(".bench")).contains("That is more than the cup's 550 g: only in a bigger cup.");
        shot("bench-small-cup");
        browser.accessible();
        press("It is still in the boat");
        browser.waitFor("it is weighed again", () -> title().equals("Amber paste"));
        weigh("5.7");
        browser.waitFor("it goes on", () -> title().equals("Copper mica"));
        assertThat(browser.text(".bench")).contains("Undo Amber paste, 5.70 g");
    }

    @Test
    void figuresAndEnterGoToTheAmountAndTheKeysStayWhereTheyAre() {
        begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        String net = target();
        int y = browser.find(".pad").getLocation().getY();
        press(net.substring(0, 1));
        browser.driver.switchTo().activeElement().sendKeys(net.substring(1));
        assertThat(browser.find("#g").getAttribute("value")).isEqualTo(net);
        browser.driver.switchTo().activeElement().sendKeys(Keys.ENTER);
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        assertThat(browser.find(".pad").getLocation().getY()).isEqualTo(y);
        press("8");
        browser.driver.switchTo().activeElement().sendKeys("8", Keys.BACK_SPACE, Keys.ENTER);
        browser.waitFor("8 g is too much", () -> browser.count(".bench .caution.stop") == 1);
        assertThat(browser.text(".bench .caution.stop")).contains("8.00 g is weighed.");
        press("It was typed wrong");
        browser.waitFor("it is typed again", () -> title().equals("Amber paste"));
        browser.driver.switchTo().activeElement().sendKeys("5.");
        assertThat(browser.find("#g").getAttribute("value")).isEqualTo("5.");
    }

    /** AP-07 is 104 % strong, AP-05 as strong as the reference lot: the same colour takes 1.04 times as much of it. */
    @Test
    void anotherLotsStrengthChangesTheTarget() throws IOException {
        begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        weigh(target());
        browser.waitFor("the next item", () -> title().equals("Amber paste"));
        double planned = Double.parseDouble(target());
        press("Change lot");
        shot("bench-lots");
        browser.find("[data-lot='AP-05']").click();
        browser.waitFor("the target follows", () -> Math.abs(Double.parseDouble(target()) - planned * 1.04) < 0.011);
        assertThat(browser.text(".at-item"))
                .contains("Lot AP-05 is 100 % strong, the plan counted on 104 %: the amount is worked out for it.");
        shot("bench-strength");
        weigh(target());
        browser.waitFor("it is within its range", () -> title().equals("Copper mica"));
    }

    @Test
    void whoWeighsCanChangeWithinACup() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        weigh(target());
        browser.waitFor("the next item", () -> title().equals("Amber paste"));
        press("Someone else");
        browser.find("#who").sendKeys("Jo");
        weigh(target());
        browser.waitFor("the one after", () -> title().equals("Copper mica"));
        shot("bench-who");
        assertThat(record(pour).get("log").findValuesAsText("by")).containsExactly("Ida", "Jo");
    }

    @Test
    void anItemItsScaleIsTooCoarseForSaysSo() throws IOException {
        begin("lead=total&total=30+g&cup=1500+g");
        assertThat(browser.text(".at-item"))
                .startsWith("Beware. ")
                .contains(" g of part A is less than the 82 g its scale weighs to 1 %; low to high is −");
        shot("bench-coarse");
        browser.accessible();
    }

    private static double grams(JsonNode weighed, int row) {
        return Double.parseDouble(weighed.get(row).get("actual").asText().replace(" g", ""));
    }

    @Test
    void anEntryIsHeldWhileTheBookIsAwayAndHandedInOnce() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        int port = served.port();
        served.close();
        weigh(target());
        browser.waitFor("the next item", () -> title().equals("Amber paste"));
        browser.waitFor("it is held", () -> browser.text(".bench").contains("1 entry is held on this phone"));
        weigh(target());
        browser.waitFor("two are held", () -> browser.text(".bench").contains("2 entries are held"));
        served = new Served(folder, port);
        browser.waitFor("they are handed in", () -> !browser.text(".bench").contains("held on this phone"));
        JsonNode log = record(pour).get("log");
        assertThat(log).hasSize(2);
        assertThat(log.get(0).get("item").asText()).isEqualTo("part A");
        assertThat(title()).isEqualTo("Copper mica");
        press("Undo");
        browser.waitFor("the last entry is undone", () -> title().equals("Amber paste"));
        assertThat(record(pour).get("log")).hasSize(3);
        assertThat(record(pour).at("/layers/0/cups/0/weighed")).hasSize(1);
    }

    @Test
    void whatASecondPhoneEnteredIsShownAndNotMergedSilently() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        String other = "{\"device\":\"other\",\"base\":0,\"ago\":0,\"entries\":[{\"id\":\"o1\",\"what\":\"weigh\","
                + "\"layer\":1,\"cup\":1,\"item\":\"part A\",\"grams\":\"300\",\"lot\":\"A-2409\",\"by\":\"Jo\"}]}";
        assertThat(served.post("/pours/" + pour + "/log", other).statusCode()).isEqualTo(200);
        weigh(target());
        browser.waitFor(
                "it is told",
                () -> browser.text(".bench").contains("Not kept. Another phone entered 300 g of part A meanwhile."));
        press("Drop mine");
        browser.waitFor("theirs stands", () -> title().equals("Add Part A"));
        assertThat(record(pour).get("log")).hasSize(1);
    }

    /** The third pour of a recipe and the first of its copy have names of which one begins the other's. */
    @Test
    void whatAPhoneHoldsForAPourWhoseNameBeginsAlikeIsLeftToThatPour() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        String other = "bench-" + pour + "-1-0123456789abcdef";
        browser.script(
                "localStorage.setItem(arguments[0], arguments[1])",
                other,
                "[{\"id\":\"x1\",\"made\":1,\"what\":\"weigh\",\"layer\":1,\"cup\":1,\"item\":\"part A\",\"grams\":\"9 g\",\"lot\":\"A-2409\"}]");
        browser.driver.navigate().refresh();
        browser.find("#who").sendKeys("Ida");
        weigh(target());
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        assertThat(record(pour).get("log")).hasSize(1);
        assertThat(browser.script("return localStorage.getItem(arguments[0])", other))
                .isNotNull();
    }

    @Test
    void aSlowAnswerTakesNothingBackThatWasEnteredMeanwhile() throws IOException {
        begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        browser.script("const f = window.fetch; window.fetch = (u, o) => o || !u.includes('/log') ? f(u, o)"
                + " : f(u).then(a => new Promise(done => setTimeout(() => { done(a); setTimeout(() => { window.late = true; }, 200); }, 1500)));"
                + "document.dispatchEvent(new Event('visibilitychange'));");
        weigh(target());
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        browser.waitFor("the slow answer came", () -> Boolean.TRUE.equals(browser.script("return window.late")));
        assertThat(title()).isEqualTo("Amber paste");
    }

    @Test
    void aLotIsTypedOrScannedAndUnknownMustBeTyped() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        press("Change lot");
        browser.find("#lot").sendKeys("A-9999");
        press("Take this lot");
        weigh(target());
        assertThat(browser.text(".told"))
                .isEqualTo(
                        "There is no lot \"A-9999\" of Part A on the shelf. Type what stands on its label, or type unknown.");
        press("Change lot");
        browser.find("#lot").sendKeys("unknown", Keys.ENTER);
        weigh(target());
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        onDisk("pours/2026/" + pour + ".json", "\"lot\": \"unknown\"");
    }

    @Test
    void aThrownCupStaysOnRecordAndLeavesTheStock() throws IOException {
        String pour = begin("lead=total&total=500+g&cup=1500+g");
        browser.find("#who").sendKeys("Ida");
        weigh(target());
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        press("Throw this cup away");
        press("Yes, throw this cup away");
        browser.waitFor("it begins anew", () -> title().equals("Part A"));
        onDisk("pours/2026/" + pour + ".json", "\"thrown\": [{ \"item\": \"part A\"");
        assertThat(record(pour).get("layers")).isEmpty();
    }

    @Test
    void aBenchInAFileWorksWithoutAnyNetworkAndHandsBackWhatTheBookReads() throws Exception {
        Path file = folder.resolve("bench.html");
        Files.writeString(
                file,
                served.get("/recipes/ember/bench-file?lead=total&total=500+g&cup=1500+g")
                        .body());
        int port = served.port();
        served.close();
        browser.go(file.toUri().toString(), PHONE);
        browser.script("localStorage.clear()");
        browser.driver.navigate().refresh();
        browser.waitFor("the first item", () -> title().equals("Part A"));
        browser.find("#who").sendKeys("Ida");
        weigh("111");
        browser.waitFor("some is in", () -> title().equals("Add Part A"));
        press("Throw this cup away");
        press("Yes, throw this cup away");
        browser.waitFor("it begins anew", () -> title().equals("Part A"));
        weigh("200");
        browser.waitFor("some is in", () -> title().equals("Add Part A"));
        press("Change lot");
        browser.find("#lot").sendKeys("A-2409");
        press("Take this lot");
        String partA = target();
        weigh(partA);
        browser.waitFor("it goes on", () -> title().equals("Amber paste"));
        browser.driver.navigate().refresh();
        browser.waitFor("it is kept on the phone", () -> title().equals("Amber paste"));
        weigh(target());
        browser.waitFor("the next", () -> title().equals("Copper mica"));
        browser.script("URL.createObjectURL = b => { b.text().then(t => { window.handed = t; }); return '#'; }");
        press("Hand back what was weighed");
        browser.waitFor("it is handed back", () -> browser.script("return window.handed") != null);
        Path handed = folder.resolve("handed.json");
        Files.writeString(handed, String.valueOf(browser.script("return window.handed")));
        served = new Served(folder, port);
        pigmentbook.sheet.ReadBack.Draft draft = pigmentbook.sheet.ReadBack.of(
                pigmentbook.sheet.SheetFile.read(handed),
                new pigmentbook.store.BookFolder(folder).open().book());
        assertThat(draft.problems()).isEmpty();
        JsonNode weighed = draft.pour().at("/layers/0/cups/0/weighed");
        assertThat(weighed.get(0).get("actual").asText()).isEqualTo("200 g");
        assertThat(weighed.get(1).get("lot").asText()).isEqualTo("A-2409");
        assertThat(weighed.get(1).get("actual").asText()).isEqualTo(partA + " g");
        assertThat(draft.pour().at("/thrown/0/actual").asText()).isEqualTo("111 g");
        assertThat(draft.pour().get("by").asText()).isEqualTo("Ida");
        assertThat(draft.started()).isNotNull();
        browser.go(served.url() + "bench", PHONE);
        browser.find("#sheet").sendKeys(handed.toString());
        browser.waitFor("it is shown first", () -> browser.text("#sheet-shown").contains("actual_g_1_1_part_A"));
        browser.accessible();
        browser.find("[data-keep-sheet]").click();
        browser.waitFor("and kept", () -> browser.driver.getCurrentUrl().contains("/pours/2026"));
        browser.noConsoleErrors();
    }
}
