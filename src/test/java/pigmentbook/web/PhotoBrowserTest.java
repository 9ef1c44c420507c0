package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.interactions.Actions;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;

/** A liked piece is photographed beside a neutral card, and somebody points at it. */
@Tag("browser")
class PhotoBrowserTest extends CopiedBookInBrowser {

    private static final int PHONE = 390;

    @TempDir
    Path elsewhere;

    private String photo() throws IOException {
        return Files.write(elsewhere.resolve("piece.png"), PieceBesideCard.png())
                .toString();
    }

    private void choose() throws IOException {
        browser.find("[data-photo-reading] summary").click();
        browser.find("#ph-f").sendKeys(photo());
        browser.waitFor("it asks for the card", () -> browser.text("#ph-say").equals("Press on the card."));
        browser.waitFor("the photo is there", () -> browser.find("#ph-img").getSize().height > 100);
    }

    private static void press(double x) {
        int width = browser.find("#ph-img").getSize().width;
        new Actions(browser.driver)
                .moveToElement(browser.find("#ph-img"), (int) ((x - 0.5) * width), 0)
                .click()
                .perform();
    }

    private static void isThePiece(String colour) {
        Lab read = ColourText.parse(colour);
        assertThat(Ciede2000.between(read, ColourText.parse(PieceBesideCard.COLOUR)))
                .isLessThan(0.5);
    }

    @Test
    void oneIsToldWhichPoursAreNearAndWhichMixesComeNear() throws IOException {
        browser.go(served.url() + "match", PHONE);
        choose();
        press(0.25);
        browser.waitFor("it asks for the resin", () -> browser.text("#ph-say").equals("Press on the resin."));
        press(0.75);
        browser.waitFor("it answers", () -> browser.count(".answers > li") == 5);
        isThePiece(String.valueOf(browser.find("#m-c").getDomProperty("value")));
        assertThat(browser.text("#main"))
                .contains("read from a photo: it may be off by ΔE00 3.0 and more")
                .contains("Poured already")
                .contains("Ember");
        browser.noConsoleErrors();
        browser.find("#m-c").clear();
        browser.find("#m-c").sendKeys("40, 20, 20", Keys.ENTER);
        browser.waitFor(
                "the other colour is asked for", () -> browser.text("#main").contains("40, 20, 20 is L, a, b"));
        assertThat(browser.text("#main")).doesNotContain("read from a photo");
    }

    @Test
    void thePlacesAreFoundByKeysAsWell() throws IOException {
        browser.go(served.url() + "match", 1440);
        choose();
        browser.script("document.querySelector('.ph .over').focus()");
        for (int i = 0; i < 5; i++) {
            browser.chord(Keys.SHIFT, Keys.ARROW_LEFT);
        }
        browser.keys(Keys.ENTER);
        for (int i = 0; i < 50; i++) {
            browser.keys(Keys.ARROW_RIGHT);
        }
        browser.keys(Keys.ENTER);
        browser.waitFor("it answers", () -> browser.count(".answers > li") == 5);
        isThePiece(String.valueOf(browser.find("#m-c").getDomProperty("value")));
    }

    @Test
    void aReadingFromAPhotoIsKeptWithItsPhoto() throws IOException {
        String pour = "2026-10-06-ember-1";
        browser.go(served.url() + "pours/" + pour, 1440);
        choose();
        browser.find("#ph-l").clear();
        browser.find("#ph-l").sendKeys("grey");
        press(0.25);
        press(0.75);
        browser.waitFor(
                "it says what is wrong",
                () -> browser.text("#ph-say")
                        .equals("The card's L is written on it, such as 50 or 92.5; \"grey\" is none."));
        browser.find("#ph-l").clear();
        browser.find("#ph-l").sendKeys("50,0");
        press(0.25);
        press(0.75);
        browser.waitFor("it is read", () -> browser.text("#ph-say").contains("The photo is kept with it."));
        isThePiece(String.valueOf(browser.find("#r-x").getDomProperty("value")));
        browser.find("#r-d").sendKeys("6 mm");
        browser.find("#reading button").click();
        onDisk("pours/2026/" + pour + ".json", "photo with neutral card");
        browser.waitFor("the photo is there", () -> browser.count("img.photo") == 1);
        try (Stream<Path> files = Files.walk(folder)) {
            assertThat(files.map(Path::toString)).anyMatch(name -> name.endsWith(".jpg"));
        }
    }
}
