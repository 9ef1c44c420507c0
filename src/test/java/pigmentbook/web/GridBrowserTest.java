package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WindowType;

/** Sheets are edited as in a spreadsheet: by keyboard, in blocks, with undo; and nothing typed is lost. */
@Tag("browser")
class GridBrowserTest extends CopiedBookInBrowser {

    private void saved(String name, String part) {
        onDisk(name, part);
        browser.waitFor("the mark says saved", () -> browser.text("#saved").equals("Saved"));
    }

    private static String cell(String path) {
        return "td[data-path='" + path + "']";
    }

    private void click(String css) {
        browser.find(css).click();
    }

    @Test
    void aTypedAmountIsOnTheDiskAsTypedAndTheDrawingFollowsBeforeItIsKept() throws IOException {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        String room = browser.text("#m-room b");
        click(cell("/shape/length"));
        browser.keys("18 in");
        browser.waitFor(
                "the room follows the typing", () -> !browser.text("#m-room b").equals(room));
        assertThat(file("molds/lamp-panel.json")).contains("\"length\": \"16 in\"");
        assertThat(browser.find(cell("/shape/length") + " input").getDomProperty("value"))
                .isEqualTo("18 in");
        browser.keys(Keys.ENTER);
        saved("molds/lamp-panel.json", "\"length\": \"18 in\"");
        // Enter goes on to the cell beneath.
        assertThat(browser.script("return document.activeElement.dataset.path")).isEqualTo("/shape/width");
        browser.noConsoleErrors();
    }

    @Test
    void aBareNumberMeansTheUnitOfItsRow() {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        click(cell("/shape/width"));
        browser.keys("260", Keys.ENTER);
        saved("molds/lamp-panel.json", "\"width\": \"260 mm\"");
    }

    @Test
    void escGivesTheOldEntryBack() throws IOException {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        click(cell("/shape/width"));
        browser.keys("99 mm", Keys.ESCAPE);
        assertThat(browser.text(cell("/shape/width"))).isEqualTo("10 in");
        browser.keys(Keys.F2);
        assertThat(browser.find(cell("/shape/width") + " input").getDomProperty("value"))
                .isEqualTo("10 in");
        browser.keys(Keys.ESCAPE);
        assertThat(file("molds/lamp-panel.json")).contains("\"width\": \"10 in\"");
    }

    @Test
    void aWrongAmountStaysInItsCellWithTheReasonBeneathAndDisturbsNothing() throws IOException {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        click(cell("/shape/length"));
        browser.keys("1,234 mm", Keys.ENTER);
        browser.waitFor("the cell is marked", () -> browser.count(cell("/shape/length") + ".wrong") == 1);
        assertThat(browser.text(cell("/shape/length"))).isEqualTo("1,234 mm");
        assertThat(browser.text("tr.reason")).contains("1,234");
        assertThat(file("molds/lamp-panel.json")).contains("\"length\": \"16 in\"");
        // Another cell is saved all the same.
        click(cell("/shape/width"));
        browser.keys("11 in", Keys.ENTER);
        onDisk("molds/lamp-panel.json", "\"width\": \"11 in\"");
        assertThat(browser.text(cell("/shape/length"))).isEqualTo("1,234 mm");
        browser.waitFor("the mark tells", () -> browser.text("#saved").contains("not saved"));
        // It survives a reload of the window.
        browser.driver.navigate().refresh();
        assertThat(browser.text(cell("/shape/length"))).isEqualTo("1,234 mm");
        browser.accessible();
        click(cell("/shape/length"));
        browser.keys("17 in", Keys.ENTER);
        saved("molds/lamp-panel.json", "\"length\": \"17 in\"");
        assertThat(browser.count("tr.reason")).isZero();
    }

    @Test
    void arrowsHomeEndAndCtrlWithThemMove() {
        browser.go(served.url() + "shelf", 1440);
        click("tr[data-id='A-2402'] " + cell("/received"));
        browser.keys(Keys.ARROW_DOWN, Keys.ARROW_RIGHT);
        assertThat(browser.script("return document.activeElement.textContent")).isEqualTo("2026-10-01");
        browser.keys(Keys.HOME);
        assertThat(browser.script("return document.activeElement.textContent")).isEqualTo("A-2409");
        browser.chord(Keys.CONTROL, Keys.HOME);
        assertThat(browser.script("return document.activeElement.textContent")).isEqualTo("A-2402");
        browser.keys(Keys.ARROW_RIGHT);
        browser.chord(Keys.CONTROL, Keys.ARROW_DOWN);
        assertThat(browser.script("return document.activeElement.closest('tr').dataset.id"))
                .isEqualTo("ST-01");
        browser.keys(Keys.END);
        assertThat(browser.script("return document.activeElement.dataset.path")).isEqualTo("/dropMass");
    }

    @Test
    void aBlockIsCopiedForOfficeProgramsAndPastedBackFromThem() throws IOException {
        browser.go(served.url() + "shelf", 1440);
        click("tr[data-id='amber-paste'] " + cell("/density"));
        browser.chord(Keys.SHIFT, Keys.ARROW_RIGHT);
        assertThat(browser.copied("text/plain")).isEqualTo("1.25 g/mL\t5 %");
        assertThat(browser.copied("text/html")).contains("<td>1.25 g/mL</td><td>5 %</td>");
        click("tr[data-id='amber-paste'] " + cell("/density"));
        browser.paste("text/plain", "1.26 g/mL\t4.5 %\r\n1.30 g/mL\t2,5 %\r\n");
        saved("shelf/pigments/amber-paste.json", "\"topLoading\": \"4.5 %\"");
        assertThat(file("shelf/pigments/bark-meal.json"))
                .contains("\"density\": \"1.30 g/mL\"")
                .contains("\"topLoading\": \"2,5 %\"");
        // One paste is one step to undo, and to do again.
        browser.chord(Keys.CONTROL, "z");
        saved("shelf/pigments/amber-paste.json", "\"density\": \"1.25 g/mL\"");
        onDisk("shelf/pigments/bark-meal.json", "\"topLoading\": \"3 %\"");
        browser.chord(Keys.CONTROL, "y");
        saved("shelf/pigments/amber-paste.json", "\"density\": \"1.26 g/mL\"");
    }

    @Test
    void anHtmlTableIsPastedAsWell() throws IOException {
        browser.go(served.url() + "shelf", 1440);
        click("tr[data-id='brick-powder'] " + cell("/density"));
        browser.paste("text/html", "<table><tr><td>5.0 g/mL</td><td>2 %</td></tr></table>");
        saved("shelf/pigments/brick-powder.json", "\"density\": \"5.0 g/mL\"");
        assertThat(file("shelf/pigments/brick-powder.json")).contains("\"topLoading\": \"2 %\"");
    }

    @Test
    void fillDownTakesTheTopCellOfTheBlock() throws IOException {
        browser.go(served.url() + "shelf", 1440);
        click("tr[data-id='BM-01'] " + cell("/expires"));
        browser.keys("2028-01-31", Keys.ENTER);
        saved("shelf/lots/BM-01.json", "2028-01-31");
        click("tr[data-id='BM-01'] " + cell("/expires"));
        browser.chord(Keys.SHIFT, Keys.ARROW_DOWN);
        browser.chord(Keys.CONTROL, "d");
        saved("shelf/lots/BP-02.json", "\"expires\": \"2028-01-31\"");
        browser.noConsoleErrors();
    }

    @Test
    void aNewRowIsKeptOnceTheBookCanReadItAndTakenAwayByUndo() throws IOException {
        browser.go(served.url() + "shelf", 1440);
        click("#g-lots tr[data-new] " + cell("id"));
        browser.keys("AP-09", Keys.TAB);
        browser.waitFor("what is missing is told", () -> browser.count("#g-lots tr.reason") == 1);
        assertThat(browser.text("#g-lots tr.reason")).isEqualTo("Of: still to be typed.");
        assertThat(Files.exists(folder.resolve("shelf/lots/AP-09.json"))).isFalse();
        browser.paste("text/plain", "amber-paste\t\tL26-1\t2026-11-20\t\t2027-11-20\t300 g");
        browser.waitFor("the lot is there", () -> browser.count("tr[data-id='AP-09']") == 1);
        assertThat(file("shelf/lots/AP-09.json"))
                .contains("\"quantity\": \"300 g\"")
                .contains("\"of\": \"amber-paste\"");
        browser.chord(Keys.CONTROL, "z");
        browser.waitFor("it is put away", () -> browser.count("tr[data-id='AP-09']") == 0);
        assertThat(file("put-away/shelf/lots/AP-09.json")).contains("300 g");
        browser.chord(Keys.CONTROL, "y");
        browser.waitFor("and back", () -> browser.count("tr[data-id='AP-09']") == 1);
    }

    /** Several rows at once keep their order, and are one step to undo. */
    @Test
    void severalNewRowsArePastedInOrderAndGoAtOnce() throws IOException {
        browser.go(served.url() + "molds/clock-face", 1440);
        click("#g-inserts tr[data-add] " + cell("/name"));
        browser.paste(
                "text/plain",
                "rail\t2\t0 mm\tbox\t50 mm\t10 mm\t5 mm\npeg\t3\t0 mm\tbox\t9 mm\t9 mm\t5 mm\nbar\t1\t0 mm\tbox\t40 mm\t9 mm\t5 mm");
        browser.waitFor("all three are there", () -> browser.count("#g-inserts tr[data-take]") == 4);
        assertThat(file("molds/clock-face.json")).containsSubsequence("ash ring segment", "rail", "peg", "bar");
        browser.chord(Keys.CONTROL, "z");
        browser.waitFor("all three are out", () -> browser.count("#g-inserts tr[data-take]") == 1);
        assertThat(file("molds/clock-face.json")).contains("ash ring segment").doesNotContain("rail");
        browser.chord(Keys.CONTROL, "y");
        browser.waitFor("and back", () -> browser.count("#g-inserts tr[data-take]") == 4);
        assertThat(file("molds/clock-face.json")).containsSubsequence("ash ring segment", "rail", "peg", "bar");
        browser.noConsoleErrors();
    }

    @Test
    void aPastedRowThatCanNotBeKeptStaysAsItIsTypedWhileTheOthersAreKept() {
        browser.go(served.url() + "shelf", 1440);
        click("#g-lots tr[data-new] " + cell("id"));
        String rest = "\t\tL26\t2026-11-20\t\t2027-11-20\t300 g";
        browser.paste(
                "text/plain",
                "AP-21\tamber-paste" + rest + "\nAP-22\tamber-pasta" + rest + "\nAP-23\tamber-paste" + rest);
        browser.waitFor("two are there", () -> browser.count("tr[data-id='AP-21'], tr[data-id='AP-23']") == 2);
        assertThat(Files.exists(folder.resolve("shelf/lots/AP-22.json"))).isFalse();
        assertThat(browser.text("#g-lots tr[data-new] " + cell("id"))).isEqualTo("AP-22");
        assertThat(browser.text("#g-lots tr.reason")).contains("Nearest: amber-paste.");
        browser.find("#g-lots tr[data-new] " + cell("/of")).click();
        browser.keys(Keys.ENTER, "amber paste", Keys.ENTER);
        browser.waitFor("the third is", () -> browser.count("tr[data-id='AP-22']") == 1);
        assertThat(browser.count("#g-lots tr.reason")).isZero();
    }

    @Test
    void whatIsTypedIntoANewRowWhileItIsBeingKeptGoesIntoItsRecord() throws IOException {
        browser.go(served.url() + "molds/clock-face", 1440);
        click("#g-inserts tr[data-add] " + cell("/name"));
        browser.paste("text/plain", "rail\t2\t0 mm\tbox\t50 mm\t10 mm");
        browser.waitFor("its height is asked for", () -> browser.count("#g-inserts tr.wanting") == 1);
        browser.script("const f = window.fetch; window.fetch = (u, o) => u === '/edits' ?"
                + " new Promise(done => setTimeout(() => done(f(u, o)), 1500)) : f(u, o);");
        click("#g-inserts tr[data-add] " + cell("/shape/depth"));
        browser.keys("5 mm", Keys.ENTER);
        click("#g-inserts tr[data-add] " + cell("/name"));
        browser.keys("long rail", Keys.ENTER);
        click("#g-inserts tr[data-add] " + cell("/count"));
        browser.keys("4");
        browser.waitFor("the row is kept", () -> {
            try {
                return file("molds/clock-face.json").contains("50 mm");
            } catch (IOException e) {
                throw new java.io.UncheckedIOException(e);
            }
        });
        browser.keys(Keys.ENTER);
        saved("molds/clock-face.json", "\"name\": \"long rail\"");
        saved("molds/clock-face.json", "\"count\": 4");
        browser.waitFor("there is one more", () -> browser.count("#g-inserts tr[data-take]") == 2);
        assertThat(browser.text("#g-inserts tr[data-add] " + cell("/name"))).isEmpty();
    }

    @Test
    void aRowIsTakenOutWithCtrlDeleteAndComesBackByUndo() throws IOException {
        browser.go(served.url() + "molds/clock-face", 1440);
        String before = file("molds/clock-face.json");
        click("#g-inserts " + cell("/inserts/0/count"));
        browser.chord(Keys.CONTROL, Keys.DELETE);
        browser.waitFor("the insert is out", () -> browser.count("#g-inserts tr[data-take]") == 0);
        assertThat(file("molds/clock-face.json")).doesNotContain("ash ring");
        browser.chord(Keys.CONTROL, "z");
        browser.waitFor("the insert is back", () -> browser.count("#g-inserts tr[data-take]") == 1);
        assertThat(new com.fasterxml.jackson.databind.json.JsonMapper().readTree(file("molds/clock-face.json")))
                .isEqualTo(new com.fasterxml.jackson.databind.json.JsonMapper().readTree(before));
    }

    @Test
    void aLotThatWasPouredFromStaysAndSaysWhy() {
        browser.go(served.url() + "shelf", 1440);
        click("tr[data-id='A-2402'] " + cell("/code"));
        browser.chord(Keys.CONTROL, Keys.DELETE);
        browser.waitFor("the reason is told", () -> browser.count("#g-lots tr.reason") == 1);
        assertThat(browser.text("#g-lots tr.reason")).contains("so it stays");
        assertThat(Files.exists(folder.resolve("shelf/lots/A-2402.json"))).isTrue();
    }

    @Test
    void anotherKindOfShapeIsSavedOnceItsMeasuresAreThere() throws IOException {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        click(cell("/shape/kind"));
        browser.keys(Keys.ENTER, "cyl", Keys.ENTER);
        browser.waitFor("the new measure is asked for", () -> browser.count(cell("/shape/diameter")) == 1);
        assertThat(file("molds/lamp-panel.json")).contains("\"kind\": \"box\"");
        click(cell("/shape/diameter"));
        browser.keys("600 mm", Keys.ENTER);
        saved("molds/lamp-panel.json", "\"kind\": \"cylinder\"");
        assertThat(browser.count("tr.reason")).isZero();
    }

    @Test
    void theSameCellChangedElsewhereShowsBothSides() throws IOException {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        Path file = folder.resolve("molds/lamp-panel.json");
        click(cell("/shape/length"));
        browser.keys("18 in");
        Files.writeString(
                file,
                file("molds/lamp-panel.json")
                        .replace("\"length\": \"16 in\"", "\"length\": \"420 mm\"")
                        .replace("\"width\": \"10 in\"", "\"width\": \"12 in\""));
        browser.keys(Keys.ENTER);
        browser.waitFor("both sides are shown", () -> browser.count("tr.reason button") == 2);
        assertThat(browser.text("tr.reason")).contains("420 mm").contains("18 in");
        assertThat(file("molds/lamp-panel.json")).contains("420 mm");
        // What else was changed there is shown, and is not lost.
        browser.waitFor(
                "the other cell follows",
                () -> browser.text(cell("/shape/width")).equals("12 in"));
        browser.driver
                .findElements(org.openqa.selenium.By.cssSelector("tr.reason button"))
                .get(0)
                .click();
        saved("molds/lamp-panel.json", "\"length\": \"18 in\"");
        assertThat(file("molds/lamp-panel.json")).contains("\"width\": \"12 in\"");
    }

    @Test
    void twoWindowsOnOneMoldLoseNothing() throws IOException {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        String first = browser.driver.getWindowHandle();
        browser.driver.switchTo().newWindow(WindowType.WINDOW);
        String second = browser.driver.getWindowHandle();
        browser.go(served.url() + "molds/lamp-panel", 1440);
        click(cell("/shape/length"));
        browser.keys("19 in", Keys.ENTER);
        saved("molds/lamp-panel.json", "19 in");
        browser.driver.switchTo().window(first);
        click(cell("/shape/width"));
        browser.keys("9 in", Keys.ENTER);
        saved("molds/lamp-panel.json", "\"width\": \"9 in\"");
        assertThat(file("molds/lamp-panel.json")).contains("19 in").contains("\"width\": \"9 in\"");
        browser.waitFor(
                "the first window shows the second's",
                () -> browser.text(cell("/shape/length")).equals("19 in"));
        browser.driver.switchTo().window(second);
        browser.driver.close();
        browser.driver.switchTo().window(first);
    }

    @Test
    void typingGoesOnWhileTheServerIsStoppedAndIsSavedWhenItIsBack() {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        int port = served.port();
        served.close();
        click(cell("/shape/length"));
        browser.keys("21 in", Keys.ENTER);
        browser.keys("13 in", Keys.ENTER);
        browser.waitFor("it is told", () -> browser.text("#saved").contains("does not answer"));
        assertThat(browser.text(cell("/shape/length"))).isEqualTo("21 in");
        served = new Served(folder, port);
        saved("molds/lamp-panel.json", "\"length\": \"21 in\"");
        saved("molds/lamp-panel.json", "\"width\": \"13 in\"");
    }

    @Test
    void tabGoesFromCellToCellAndEscThenTabLeavesTheSheet() {
        browser.go(served.url() + "molds/lamp-panel", 1440);
        click(cell("/shape/length"));
        browser.keys(Keys.TAB);
        assertThat(browser.script("return document.activeElement.dataset.path")).isEqualTo("/shape/width");
        browser.keys(Keys.ESCAPE, Keys.TAB);
        assertThat(browser.script("return document.activeElement.closest('#g-mold') === null"))
                .isEqualTo(true);
    }

    @Test
    void theSheetsAreAccessibleOnAPhoneToo() {
        for (String page : new String[] {"molds/lamp-panel", "molds/bark-edge", "molds/leaf-tray", "shelf"}) {
            browser.go(served.url() + page, 390);
            browser.accessible();
            assertThat(browser.script("return document.documentElement.scrollWidth <= innerWidth"))
                    .as(page)
                    .isEqualTo(true);
            browser.noConsoleErrors();
        }
    }

    @Test
    void onAPhoneAnEmptyCellCanBeTypedInToo() {
        browser.go(served.url() + "shelf", 390);
        click("#sum-lots");
        assertThat(browser.find("#g-lots tr[data-new] " + cell("id")).isDisplayed())
                .isTrue();
        assertThat(browser.find("tr[data-id='CM-04'] " + cell("/opened")).isDisplayed())
                .isTrue();
        click("tr[data-id='CM-04'] " + cell("/opened"));
        browser.keys("2026-11-24", Keys.ENTER);
        saved("shelf/lots/CM-04.json", "\"opened\": \"2026-11-24\"");
    }
}
