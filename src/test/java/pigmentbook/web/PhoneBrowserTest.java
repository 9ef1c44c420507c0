package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.PointerInput;
import org.openqa.selenium.interactions.Sequence;

/** At a phone's width: rows are put away by a press, and the shelf folds. */
@Tag("browser")
class PhoneBrowserTest extends CopiedBookInBrowser {

    private static final int PHONE = 390;

    /** WCAG 2.2, 2.5.5 Target Size (Enhanced), asks for 44 by 44 CSS pixels. */
    private static final int TARGET = 44;

    private static void click(String css) {
        browser.find(css).click();
    }

    private static void inReach(WebElement button) {
        assertThat(button.getSize().getHeight()).isGreaterThanOrEqualTo(TARGET);
        assertThat(button.getSize().getWidth()).isGreaterThanOrEqualTo(TARGET);
        assertThat(browser.script(
                        "const r = arguments[0].getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight",
                        button))
                .isEqualTo(true);
    }

    private static boolean open(String fold) {
        return Boolean.TRUE.equals(browser.script("return document.getElementById(arguments[0]).open", fold));
    }

    @Test
    void aLotIsPutAwayByItsRowAndComesBackByUndo() throws IOException {
        browser.go(served.url() + "shelf", PHONE);
        click("#sum-lots");
        assertThat(browser.count(".rowbar")).isZero();
        click("tr[data-id='CM-04'] td[data-h='Left, g']");
        browser.waitFor("the row is named", () -> browser.text(".rowbar p").equals("CM-04"));
        inReach(browser.find(".rowbar button"));
        browser.accessible();
        String before = file("shelf/lots/CM-04.json");
        click(".rowbar button");
        browser.waitFor("the row is gone", () -> browser.count("tr[data-id='CM-04']") == 0);
        assertThat(file("put-away/shelf/lots/CM-04.json")).isEqualTo(before);
        browser.waitFor("it is told", () -> browser.text(".rowbar p").equals("CM-04 is put away."));
        inReach(browser.find(".rowbar button"));
        click(".rowbar button");
        browser.waitFor("it is back", () -> browser.count("tr[data-id='CM-04']") == 1);
        assertThat(file("shelf/lots/CM-04.json")).isEqualTo(before);
        browser.noConsoleErrors();
    }

    /** Puts a finger on something and lifts it again. */
    private static void tap(String css) {
        PointerInput finger = new PointerInput(PointerInput.Kind.TOUCH, "finger");
        browser.script("document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", css);
        browser.driver.perform(List.of(new Sequence(finger, 0)
                .addAction(finger.createPointerMove(
                        Duration.ZERO, PointerInput.Origin.fromElement(browser.find(css)), 0, 0))
                .addAction(finger.createPointerDown(PointerInput.MouseButton.LEFT.asArg()))
                .addAction(finger.createPointerUp(PointerInput.MouseButton.LEFT.asArg()))));
    }

    @Test
    void aFingerDoesItAloneAndWhatWasBeingTypedIsKept() throws IOException {
        browser.go(served.url() + "shelf", PHONE);
        tap("#sum-lots");
        tap("tr[data-id='CM-04'] td[data-path='/code']");
        browser.waitFor("it may be typed in", () -> browser.count("tr[data-id='CM-04'] td > input") == 1);
        browser.keys("L26-9");
        tap(".rowbar button");
        browser.waitFor("the row is gone", () -> browser.count("tr[data-id='CM-04']") == 0);
        browser.waitFor("it is told", () -> browser.text(".rowbar p").equals("CM-04 is put away."));
        tap(".rowbar button");
        browser.waitFor("it is back", () -> browser.count("tr[data-id='CM-04']") == 1);
        onDisk("shelf/lots/CM-04.json", "L26-9");
        browser.waitFor("all is saved", () -> browser.text("#saved").equals("Saved"));
    }

    @Test
    void theButtonOfTheRowIsReachedByKeyboardToo() {
        browser.go(served.url() + "shelf", PHONE);
        click("#sum-lots");
        click("tr[data-id='CM-04'] td[data-h='Left, g']");
        browser.keys(Keys.ESCAPE, Keys.TAB);
        browser.waitFor(
                "the focus is on the button",
                () -> Boolean.TRUE.equals(browser.script("return document.activeElement.matches('.rowbar button')")));
        assertThat(browser.find(".rowbar button").getAttribute("aria-label")).isEqualTo("Put away: CM-04");
        browser.keys(Keys.ENTER);
        browser.waitFor("the row is gone", () -> browser.count("tr[data-id='CM-04']") == 0);
    }

    @Test
    void aLotThatIsUsedStaysAndSaysWhy() {
        browser.go(served.url() + "shelf", PHONE);
        click("#sum-lots");
        click("tr[data-id='A-2402'] td[data-h='Left, g']");
        click(".rowbar button");
        browser.waitFor("the reason is told", () -> browser.count("#g-lots tr.reason") == 1);
        assertThat(browser.text("#g-lots tr.reason")).contains("so it stays");
        assertThat(Files.exists(folder.resolve("shelf/lots/A-2402.json"))).isTrue();
    }

    @Test
    void aPigmentIsLeftOutOfTheFormulaByItsRowAndComesBackByUndo() throws IOException {
        browser.go(served.url() + "recipes/ember", PHONE);
        String recipe = file("ember.json");
        String percent = browser.text("[data-field='percent-rust-paste']");
        click("tr[data-row='rust-paste'] th");
        browser.waitFor("the row is named", () -> browser.text(".rowbar p").equals("Rust paste"));
        inReach(browser.find(".rowbar button"));
        click(".rowbar button");
        browser.waitFor("it follows", () -> browser.text("#part-save").contains("Rust paste"));
        assertThat(browser.text("[data-field='percent-rust-paste']")).isEmpty();
        assertThat(browser.text(".rowbar p")).isEqualTo("Rust paste is left out.");
        click(".rowbar button");
        browser.waitFor(
                "it is back",
                () -> browser.text("[data-field='percent-rust-paste']").equals(percent));
        browser.waitFor("nothing is changed", () -> !browser.find("#part-save").isDisplayed());
        assertThat(file("ember.json")).isEqualTo(recipe);
        browser.noConsoleErrors();
    }

    @Test
    void anInsertIsTakenOutOfAMoldAndComesBackByUndoBeneathItsSheet() throws IOException {
        browser.go(served.url() + "molds/clock-face", PHONE);
        tap("#g-inserts [data-out]");
        browser.waitFor("the insert is out", () -> browser.count("#g-inserts tr[data-take]") == 0);
        assertThat(file("molds/clock-face.json")).doesNotContain("ash ring");
        browser.waitFor("it is told", () -> browser.text(".rowbar p").equals("The row is taken out."));
        inReach(browser.find(".rowbar button"));
        tap(".rowbar button");
        browser.waitFor("the insert is back", () -> browser.count("#g-inserts tr[data-take]") == 1);
        assertThat(file("molds/clock-face.json")).contains("ash ring");
        browser.noConsoleErrors();
    }

    @Test
    void whereThereIsRoomAndAMouseNothingStandsBeneathTheSheet() {
        browser.go(served.url() + "shelf", 1440);
        click("tr[data-id='CM-04'] td[data-h='Left, g']");
        assertThat(browser.find(".rowbar").isDisplayed()).isFalse();
    }

    @Test
    void theShelfIsFoldedAndEachPartSaysWhatIsInIt() throws IOException {
        browser.go(served.url() + "shelf", PHONE);
        for (String part : new String[] {"lots", "pigments", "resins"}) {
            assertThat(open("fold-" + part)).as(part).isFalse();
            assertThat(browser.find("#sum-" + part).getSize().getHeight()).isGreaterThanOrEqualTo(TARGET);
        }
        assertThat(browser.text("#sum-lots")).matches("(?s)\\d+ lots.*past their date: .*");
        assertThat(browser.text("#sum-resins")).startsWith("3 resins");
        // Folded, the shelf is at most two screens of a phone.
        assertThat((Long) browser.script("return document.documentElement.scrollHeight"))
                .isLessThan(2 * 844L);
        browser.accessible();
        // By keyboard, and what is typed in it does not fold it again.
        browser.script("document.getElementById('sum-pigments').focus()");
        browser.keys(Keys.ENTER);
        assertThat(open("fold-pigments")).isTrue();
        click("tr[data-id='amber-paste'] td[data-path='/topLoading']");
        browser.keys("4 %", Keys.ENTER);
        onDisk("shelf/pigments/amber-paste.json", "\"topLoading\": \"4 %\"");
        browser.waitFor("the mark says saved", () -> browser.text("#saved").equals("Saved"));
        assertThat(open("fold-pigments")).isTrue();
        browser.driver.navigate().refresh();
        assertThat(open("fold-pigments")).isTrue();
        assertThat(open("fold-lots")).isFalse();
        click(".jumps a[href='#h-resins']");
        assertThat(open("fold-resins")).isTrue();
        browser.accessible();
        browser.noConsoleErrors();
    }

    @Test
    void whatWasTypedInAFoldedPartAndIsWrongIsNotHidden() throws IOException {
        browser.go(served.url() + "shelf", PHONE);
        click("#sum-pigments");
        click("tr[data-id='amber-paste'] td[data-path='/density']");
        browser.keys("heavy", Keys.ENTER);
        browser.waitFor("it is told", () -> browser.count("#g-pigments tr.reason") == 1);
        click("#sum-pigments");
        browser.driver.navigate().refresh();
        browser.waitFor("it is told again", () -> browser.count("#g-pigments tr.reason") == 1);
        assertThat(open("fold-pigments")).isTrue();
        assertThat(file("shelf/pigments/amber-paste.json")).contains("1.25 g/mL");
    }

    @Test
    void whereThereIsRoomTheShelfIsOpen() {
        browser.go(served.url() + "shelf", 1440);
        assertThat(open("fold-lots") && open("fold-pigments") && open("fold-resins"))
                .isTrue();
    }

    @Test
    void aButtonLeadsToTheRowWhereALotIsBegun() {
        browser.go(served.url() + "shelf", 390);
        browser.find("[data-begin=lot]").click();
        browser.waitFor(
                "the empty row has the focus",
                () -> Boolean.TRUE.equals(browser.driver.executeScript(
                        "return document.activeElement.closest('tr')?.dataset.new === 'lot'")));
    }

    @Test
    void whatWasPutAwayIsToldAndComesBackByOnePress() {
        browser.go(served.url() + "recipes/gold-hour", 390);
        browser.find("form[data-act$='/away'] button").click();
        browser.waitFor("it is told", () -> browser.count(".gone") == 1);
        assertThat(browser.text(".gone")).startsWith("Gold hour is put away. It stays in the book.");
        browser.find(".gone button").click();
        browser.waitFor(
                "it is back", () -> browser.count(".gone") == 0 && browser.count("a[href='/recipes/gold-hour']") > 0);
    }

    @Test
    void whatARecipeWillLookLikeInEachDepthIsFoldedOnAPhoneAndOpenElsewhere() {
        browser.go(served.url() + "recipes/ember", PHONE);
        assertThat(open("fold-wedge")).isFalse();
        click(".jumps a[href='#h-worked']");
        assertThat(open("fold-wedge")).isTrue();
        assertThat(browser.count("#fold-wedge table")).isEqualTo(2);
        // What is typed in the formula changes it, and does not fold it again.
        click("td[data-field='percent-amber-paste']");
        browser.keys("2", Keys.ENTER);
        browser.waitFor("the change is told", () -> browser.text("#part-save").contains("1.2 % → 2 %"));
        assertThat(open("fold-wedge")).isTrue();
        browser.accessible();
        click("#fold-wedge > summary");
        browser.script("dispatchEvent(new Event('beforeprint'))");
        assertThat(open("fold-wedge")).as("on paper").isTrue();
        browser.go(served.url() + "recipes/honey-lamp", 1440);
        assertThat(open("fold-wedge")).as("where there is room").isTrue();
    }

    @Test
    void eachPartOfARecipeIsOnePressAway() {
        browser.go(served.url() + "recipes/ember", PHONE);
        assertThat(browser.text(".jumps")).isEqualTo("Read\nWorked out\nFormula\nPours");
        for (String part : List.of("look", "worked", "formula", "pours")) {
            click(".jumps a[href='#h-" + part + "']");
            browser.waitFor(
                    part + " is on the screen",
                    () -> Boolean.TRUE.equals(browser.script(
                            "const r = document.getElementById(arguments[0]).getBoundingClientRect();"
                                    + " return r.height > 0 && r.top > -1 && r.bottom < innerHeight",
                            "h-" + part)));
        }
        browser.noConsoleErrors();
    }
}
