package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.support.ui.Select;

/** A table comes in on a phone: shown, its columns chosen, kept, and a second time nothing changes. */
@Tag("browser")
class BringInBrowserTest extends CopiedBookInBrowser {

    private static final int PHONE = 390;

    @TempDir
    Path elsewhere;

    private Path table() throws IOException {
        return Files.writeString(
                elsewhere.resolve("colours.csv"),
                "Shade,Base,Colourant,Dose %\nHearth,slow-cast,Amber paste,1.5 %\nHearth,,Rose clay,0.3\n");
    }

    private static void choose(Path file) {
        browser.find("#bring").sendKeys(file.toString());
        browser.waitFor("it is shown", () -> browser.count("#brought .figures") == 1);
        calm();
    }

    private static void calm() {
        browser.waitFor("the answer is in", () -> browser.count("#brought[aria-busy=false]") == 1);
    }

    private static void figure(int place, String value) {
        browser.waitFor(
                "figure " + place + " is " + value,
                () -> browser.text("#brought .figures > :nth-child(" + place + ") b")
                        .equals(value));
    }

    private static void holds(String head, String word) {
        new Select(browser.find("[data-head='" + head + "']")).selectByValue(word);
    }

    private static void fitsThePhone() {
        assertThat(browser.script("return document.documentElement.scrollWidth <= innerWidth"))
                .isEqualTo(true);
        browser.accessible();
    }

    @Test
    void aTableComesInOnAPhoneAndASecondTimeNothingChanges() throws IOException {
        Path table = table();
        browser.go(served.url() + "shelf", PHONE);
        browser.find("footer a").click();
        browser.waitFor("the page is there", () -> browser.text("h1").equals("Bring in, take out"));
        choose(table);
        holds("Shade", "recipe");
        // The field that was changed keeps the focus while the answer comes in.
        browser.waitFor(
                "it is read as recipes", () -> browser.text("#d-col-0 summary").contains("recipes"));
        assertThat(browser.script("return document.activeElement.dataset.head")).isEqualTo("Shade");
        holds("Base", "resin");
        figure(4, "1");
        assertThat(browser.text("#brought table")).contains("Rose clay");
        fitsThePhone();
        assertThat(Files.exists(folder.resolve("hearth.json"))).isFalse();
        browser.find("#b-add").click();
        calm();
        figure(4, "0");
        figure(1, "2");
        browser.find("[data-keep]").click();
        browser.waitFor("it is kept", () -> browser.text("#brought h3").equals("Kept: 2 new, 0 changed"));
        assertThat(file("hearth.json")).contains("1.5 %").contains("rose-clay");
        assertThat(file("import/columns.json")).contains("\"shade\": \"recipe\"");
        fitsThePhone();
        choose(table);
        figure(3, "1");
        assertThat(browser.text(".keep p")).isEqualTo("Nothing changed: the book says all of this already.");
        assertThat(browser.count("[data-keep]")).isZero();
        browser.noConsoleErrors();
    }

    @Test
    void aColumnThatTakesAnothersMeaningLeavesThatOneUnused() throws IOException {
        browser.go(served.url() + "bring-and-take", PHONE);
        choose(table());
        holds("Shade", "recipe");
        holds("Base", "recipe");
        browser.waitFor(
                "the first is not used",
                () -> browser.find("[data-head=Shade]").getDomProperty("value").equals("-"));
        assertThat(browser.find("[data-head=Base]").getDomProperty("value")).isEqualTo("recipe");
    }

    @Test
    void whatIsNoTableIsToldInWordsAndWhatIsLeftIsNotKept() throws IOException {
        browser.go(served.url() + "bring-and-take", 1440);
        browser.find("#bring")
                .sendKeys(Files.write(elsewhere.resolve("broken.xlsx"), new byte[] {'P', 'K', 3, 4, 0})
                        .toString());
        browser.waitFor("it is refused", () -> !browser.text("#bring-told").isEmpty());
        assertThat(browser.text("#bring-told")).startsWith("This file is cut short or damaged");
        browser.accessible();
        choose(table());
        assertThat(browser.text("#bring-told")).isEmpty();
        holds("Shade", "recipe");
        calm();
        browser.find("[data-leave]").click();
        assertThat(browser.count("#brought > *")).isZero();
        assertThat(Files.exists(folder.resolve("import/columns.json"))).isFalse();
    }
}
