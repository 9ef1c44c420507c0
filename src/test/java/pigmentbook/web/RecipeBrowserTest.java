package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;

/** A recipe's formula is a sheet: a percent changes it, an amount sets the size, saving makes a revision. */
@Tag("browser")
class RecipeBrowserTest extends CopiedBookInBrowser {

    @BeforeEach
    void look() {
        browser.go(served.url() + "recipes/ember", 1440);
    }

    private static String cell(String field) {
        return "td[data-field='" + field + "']";
    }

    private String file() throws IOException {
        return file("ember.json");
    }

    private static String figure(String field) {
        return browser.text(cell(field)).replace("\u202f", "").strip();
    }

    @Test
    void anAmountThatIsTypedLeadsAndTheOthersFollowWhileTyping() {
        browser.find(cell("size-part A")).click();
        browser.keys("700");
        // 500 g of this resin hold 347.6 g of part A less 60 % of the 6 g of paste: in proportion to 700 g.
        browser.waitFor("the total follows", () -> figure("size-total").startsWith("101"));
        assertThat(browser.find(cell("size-part A") + " input").getDomProperty("value"))
                .isEqualTo("700");
        browser.keys(Keys.ENTER);
        browser.waitFor("it leads", () -> browser.count(cell("size-part A") + ".lead") == 1);
        assertThat(browser.count(cell("size-total") + ".lead")).isZero();
        assertThat(figure("size-part A")).isEqualTo("700");
        browser.noConsoleErrors();
    }

    @Test
    void aChangedPercentIsSavedAsANewRevisionWithItsWhy() throws IOException {
        assertThat(browser.find("#why").isDisplayed()).isFalse();
        browser.find(cell("percent-amber-paste")).click();
        browser.keys("1,4", Keys.ENTER);
        browser.waitFor("the change is told", () -> browser.text("#part-save").contains("1.2 % → 1,4 %"));
        // 1.4 % of 500 g of mixed resin is in proportion to 1.2 %.
        assertThat(figure("percent-amber-paste")).isEqualTo("1,4 %");
        browser.find("#why").sendKeys("a little deeper", Keys.ENTER);
        browser.waitFor("revision 5 is there", () -> browser.text(".title").contains("Revision 5"));
        assertThat(file()).contains("\"percent\": \"1,4 %\"").contains("\"why\": \"a little deeper\"");
    }

    @Test
    void aWrongPercentStaysInItsCellAndTheReasonIsBeneath() {
        browser.find(cell("percent-amber-paste")).click();
        browser.keys("1.4 kg", Keys.ENTER);
        browser.waitFor("it is marked", () -> browser.count(cell("percent-amber-paste") + ".wrong") == 1);
        assertThat(figure("percent-amber-paste")).isEqualTo("1.4 kg");
        assertThat(browser.text("#g-formula tr.reason")).contains("1.4 kg");
        browser.accessible();
        browser.chord(Keys.CONTROL, "z");
        browser.waitFor(
                "undo gives it back", () -> figure("percent-amber-paste").equals("1.2 %"));
        browser.waitFor("and takes the mark away", () -> browser.count("#g-formula tr.reason") == 0);
    }

    @Test
    void anotherPigmentJoinsOnceItsPercentIsTyped() {
        browser.find(cell("added")).click();
        browser.keys(Keys.ENTER, "gold", Keys.TAB);
        browser.keys("0.2", Keys.ENTER);
        browser.waitFor("it has a row of its own", () -> browser.count(cell("percent-gold-mica")) == 1);
        assertThat(figure("percent-gold-mica")).isEqualTo("0.2 %");
        assertThat(browser.text("#part-save")).contains("Gold mica new → 0.2 %");
    }

    @Test
    void anOlderRevisionOpensAndSavingMakesItTheCurrentOneAgain() throws IOException {
        browser.go(served.url() + "recipes/ember?revision=2", 1440);
        assertThat(browser.text("#part-save")).contains("revision 2 becomes the current one again");
        assertThat(browser.count(cell("percent-rust-paste"))).isZero();
        browser.find("#why").sendKeys("as in spring", Keys.ENTER);
        browser.waitFor("revision 5 is there", () -> browser.text(".title").contains("Revision 5"));
        assertThat(file()).contains("as in spring");
    }

    @Test
    void aRecipeThatWasChangedElsewhereShowsBothSidesAndCanStillBeKept() throws IOException {
        browser.find(cell("percent-amber-paste")).click();
        browser.keys("1.3", Keys.ENTER);
        browser.waitFor("the change is told", () -> browser.find("#why").isDisplayed());
        Files.writeString(
                folder.resolve("ember.json"), file().replace("The colour people ask for again.", "Ask first."));
        browser.find("#why").sendKeys("mine", Keys.ENTER);
        browser.waitFor("both sides", () -> browser.text("#not-saved").contains("changed elsewhere"));
        assertThat(file()).doesNotContain("mine").contains("Ask first.");
        browser.find("#why").sendKeys(Keys.ENTER);
        browser.waitFor("it is kept on top", () -> browser.text(".title").contains("Revision 5"));
        assertThat(file()).contains("\"why\": \"mine\"").contains("Ask first.");
    }

    @Test
    void stepsAreTypedOneUnderTheOther() {
        browser.find("#g-steps tr:last-child td[data-path$='/text']").click();
        browser.keys("Sieve the paste", Keys.TAB, "before part B", Keys.ENTER);
        browser.waitFor("the step is kept", () -> browser.count("#g-steps tr[data-take]") == 4);
        onDisk("ember.json", "{ \"text\": \"Sieve the paste\", \"when\": \"before part B\" }");
    }

    @Test
    void pressedTwiceACopyIsMadeOnce() {
        browser.script("const b = document.querySelector('form[data-act$=copy] button'); b.click(); b.click();");
        browser.waitFor(
                "the copy is shown", () -> browser.driver.getCurrentUrl().endsWith("/recipes/ember-2"));
        browser.go(served.url() + "recipes/ember-2", 1440);
        assertThat(java.nio.file.Files.exists(folder.resolve("ember-2.json"))).isTrue();
        assertThat(java.nio.file.Files.exists(folder.resolve("ember-3.json"))).isFalse();
    }

    /** The bench shows the links, and is on the screen already when one is given. */
    @Test
    void aLinkThatWasJustGivenStandsOnThePage() throws PortTakenException {
        try (WebServer shared = WebServer.start(new LiveBook(folder), 0, Served.CLOCK, "127.0.0.2")) {
            browser.go(shared.url() + "bench", 1440);
            browser.find("#s-name").sendKeys("Jo");
            browser.find("form[data-act='/share'] button").click();
            browser.waitFor("the link is there", () -> browser.count(".links li") == 1);
            assertThat(browser.text(".links h3")).isEqualTo("Jo");
        }
    }
}
