package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;

/** The page in a real browser: by mouse, by keyboard, on a phone's width, in the dark. */
@Tag("browser")
class PageBrowserTest {

    private static Served served;
    private static Browser driver;
    private static ChromeDriver browser;

    @BeforeAll
    static void open() {
        driver = new Browser();
        browser = driver.driver;
        served = new Served();
    }

    @AfterAll
    static void close() {
        if (driver != null) {
            driver.close();
        }
        if (served != null) {
            served.close();
        }
    }

    private static void go(String path, int width) {
        driver.go(served.url() + path, width);
    }

    private static void waitFor(BooleanSupplier condition) {
        driver.waitFor("it follows", condition);
    }

    private static String text(String css) {
        return driver.text(css);
    }

    private static void noConsoleErrors() {
        driver.noConsoleErrors();
    }

    @Test
    void aWideTableShowsThatMoreOfItLiesToTheRight() {
        go("shelf", 1440);
        waitFor(() -> driver.count(".scroll.more #g-lots") == 1);
        driver.script("document.querySelector('#g-lots').closest('.scroll').scrollLeft = 9999");
        waitFor(() -> driver.count(".scroll.more #g-lots") == 0);
    }

    @Test
    void aPhoneShowsTheWholePiecesTimesToo() {
        go("recipes/ember/mix?mold=lamp-panel-large", 390);
        assertThat(text("#part-times")).contains("Layer 3", "Demold", "Full cure");
    }

    @ParameterizedTest(name = "{0} at {1}, {2}")
    @CsvSource(textBlock = """
            recipes,1440,light
            recipes,390,dark
            recipes?near=%23d66f2b,1440,dark
            recipes/ember,1440,light
            recipes/ember,390,dark
            recipes/ember/mix?mold=lamp-panel-large,1440,light
            recipes/ember/mix?mold=lamp-panel-large,390,light
            recipes/ember/mix?mold=lamp-panel-large,1440,dark
            recipes/ember/mix?lead=mold&mold=lamp-panel&fill=9+in,1440,light
            molds/lamp-panel-large,1440,light
            molds/leaf-tray,390,dark
            molds/finial,1440,light
            shelf,1440,light
            shelf,390,dark
            shelf,2560,light
            recipes/ember,2560,dark
            tints/amber-paste,1440,light
            tints/amber-paste,390,dark
            match?colour=%23a8541c&resin=slow-cast,1440,dark
            match?colour=%23a8541c&resin=slow-cast,390,light
            bench,1440,light
            bench,390,dark
            pours/2026-11-18-ember-1,1440,dark
            pours/2026-11-18-ember-1,390,light
            shelf/lots/AP-07,1440,light
            shelf/lots/AP-07,390,dark
            studio,1440,light
            studio,390,dark
            bring-and-take,1440,light
            bring-and-take,390,dark
            nowhere,1440,light
            """)
    void axeFindsNoViolationAndNothingScrollsSideways(String path, int width, String theme) {
        go(path, width);
        browser.executeScript("document.documentElement.dataset.theme = arguments[0]", theme);
        List<Rule> violations = new AxeBuilder().analyze(browser).getViolations();
        assertThat(violations)
                .extracting(rule -> rule.getId() + " " + rule.getNodes())
                .isEmpty();
        Object outside = browser.executeScript("return document.documentElement.scrollWidth > innerWidth"
                + " ? ['the page'] : [...document.querySelectorAll('main button, main input, main a.act')]"
                + ".filter(e => !e.closest('.scroll') && e.getBoundingClientRect().right > innerWidth + 1)"
                + ".map(e => e.outerHTML)");
        assertThat(outside).isEqualTo(List.of());
    }

    @Test
    void everyFigureFollowsWhileATotalIsTyped() {
        go("recipes/ember/mix?mold=lamp-panel", 1440);
        WebElement total = browser.findElement(By.id("f-t"));
        assertThat(total.getAttribute("value")).isEqualTo("930.65");
        total.sendKeys(Keys.chord(Keys.CONTROL, "a"), "1000");
        // 642.986 g of part A in 930.65 g is 690.9 g in 1000 g, on a scale with steps of 1 g.
        waitFor(() -> text("#part-weigh").contains("691"));
        assertThat(browser.switchTo().activeElement().getAttribute("id")).isEqualTo("f-t");
        assertThat(total.getAttribute("value")).isEqualTo("1000");
        assertThat(browser.findElement(By.cssSelector(".figures .lead input")).getAttribute("id"))
                .isEqualTo("f-t");
        assertThat(browser.getCurrentUrl()).contains("lead=total");
        noConsoleErrors();
    }

    @Test
    void aWrongAmountStaysAndTheReasonIsToldWhileTheRestWaits() {
        go("recipes/ember/mix?mold=lamp-panel", 1440);
        WebElement total = browser.findElement(By.id("f-t"));
        total.sendKeys(Keys.chord(Keys.CONTROL, "a"), "1,500 g");
        waitFor(() -> text("#wrong-f-t").contains("Which do you mean? Total: \"1,500 g\""));
        assertThat(total.getAttribute("aria-invalid")).isEqualTo("true");
        assertThat(driver.find("#wrong-f-t").getRect().getY())
                .as("right beneath the field")
                .isBetween(total.getRect().getY(), total.getRect().getY() + 120);
        assertThat(total.getAttribute("value")).isEqualTo("1,500 g");
        total.sendKeys(Keys.chord(Keys.CONTROL, "a"), "1500 g");
        waitFor(() ->
                driver.find("#wrong-f-t").getDomProperty("childElementCount").equals("0"));
        assertThat(total.getAttribute("aria-invalid")).isNull();
        noConsoleErrors();
    }

    @Test
    void anotherMoldIsChosenByKeyboardAlone() {
        go("recipes/ember/mix?mold=lamp-panel", 1440);
        WebElement mold = browser.findElement(By.id("s-mold"));
        // The next one down the list is the large panel.
        mold.sendKeys(Keys.ARROW_DOWN);
        waitFor(() -> text("#part-title").contains("Lamp panel, large"));
        assertThat(text("#part-weigh")).contains("Layer 3 of 3");
        assertThat(browser.findElement(By.id("f-l")).getAttribute("placeholder"))
                .isEqualTo("3");
        assertThat(text("#part-room")).startsWith("from mold and fill");
        browser.findElement(By.id("f-v")).sendKeys(Keys.chord(Keys.CONTROL, "a"), "900");
        waitFor(() -> text("#part-room").startsWith("type a volume"));
        assertThat(browser.findElement(By.id("f-v")).getAttribute("value")).isEqualTo("900");
        noConsoleErrors();
    }

    @Test
    void aTotalThatLedGivesTheMoldBack() {
        go("recipes/ember/mix?mold=lamp-panel", 1440);
        WebElement total = browser.findElement(By.id("f-t"));
        total.sendKeys(Keys.chord(Keys.CONTROL, "a"), "1000");
        waitFor(() -> shown("s-mold").equals("no mold"));
        driver.find("[data-mold]").click();
        waitFor(() -> text("#part-title").contains("for Lamp panel"));
        assertThat(value("s-mold")).isEqualTo("lamp-panel");
        assertThat(value("f-t")).isEqualTo("930.65");

        total.sendKeys(Keys.chord(Keys.CONTROL, "a"), "1000");
        waitFor(() -> shown("s-mold").equals("no mold"));
        total.sendKeys(Keys.chord(Keys.CONTROL, "a"), Keys.BACK_SPACE);
        waitFor(() -> shown("s-mold").equals("Lamp panel"));
        assertThat(value("f-t"))
                .as("nobody types into the field under the fingers")
                .isEmpty();
        assertThat(driver.count(".wrong:not(:empty)")).isZero();
        total.sendKeys(Keys.TAB);
        waitFor(() -> value("f-t").equals("930.65"));
        noConsoleErrors();
    }

    private String value(String id) {
        return String.valueOf(browser.findElement(By.id(id)).getDomProperty("value"));
    }

    private String shown(String select) {
        return String.valueOf(((org.openqa.selenium.JavascriptExecutor) browser)
                .executeScript("return document.getElementById(arguments[0]).selectedOptions[0].textContent", select));
    }

    @Test
    void recipesAreFilteredAsOneTypes() {
        go("recipes", 1440);
        browser.findElement(By.id("find")).sendKeys("copper-mica");
        waitFor(() -> text("#shown").equals("2"));
        browser.findElement(By.id("find")).sendKeys(Keys.chord(Keys.CONTROL, "a"), "zzz");
        waitFor(() -> text("#shown").equals("0"));
        assertThat(text("#none")).isEqualTo("No colour fits. Take a word or a tag away.");
        noConsoleErrors();
    }

    @Test
    void theWayFromAColourToItsSheetIsThreeSteps() {
        go("recipes", 390);
        browser.findElement(By.linkText("Ember")).click();
        browser.findElement(By.linkText("Mix Ember")).click();
        waitFor(() -> !browser.findElements(By.linkText("Sheet to print")).isEmpty());
        assertThat(browser.findElement(By.linkText("xlsx")).getAttribute("href"))
                .contains("/recipes/ember/sheet/xlsx");
        noConsoleErrors();
    }

    @Test
    void oneItemsAmountLeadsAndItsWorkingOpensBeneath() {
        go("recipes/ember/mix?mold=lamp-panel", 1440);
        driver.find("td[data-field='size-amber-paste']").click();
        driver.keys("20 g", Keys.ENTER);
        // 20 g of a lot of 104 % strength, at 1.2 % of the mixed resin, is 20 × 1.04 / 0.012 = 1733.3 g of resin.
        waitFor(() ->
                driver.text("td[data-field='size-resin']").replace("\u202f", "").equals("1733.3"));
        assertThat(driver.count("td[data-field='size-amber-paste'].lead")).isEqualTo(1);
        assertThat(browser.getCurrentUrl()).contains("lead=amber-paste");
        driver.find("[data-how='total']").click();
        assertThat(driver.text(".opened")).contains("part A + part B + pigments");
        noConsoleErrors();
    }

    @Test
    void aPourThatWasLikedIsMixedAgainAsItWasWeighedForItsMold() {
        go("recipes/ember", 1440);
        driver.find("a[href*='pour=2026-06']").click();
        waitFor(() -> text("#part-title").contains("Revision 3, again from the pour of 9 Jun 2026"));
        assertThat(text("#part-title .which [aria-current]")).isEqualTo("As weighed on 9 Jun 2026");
        assertThat(text("#part-was")).contains("2026-06");
        browser.findElement(By.id("s-al")).sendKeys(Keys.chord(Keys.CONTROL, "a"), "7 %", Keys.TAB);
        waitFor(() -> browser.getCurrentUrl().contains("allowance=7"));
        driver.find("#part-title .which a:not([aria-current])").click();
        waitFor(() -> text("#part-title .which [aria-current]").equals("As revision 3 is written"));
        assertThat(browser.findElement(By.id("s-al")).getDomProperty("value")).isEqualTo("7 %");
        noConsoleErrors();
    }

    @Test
    void theSliceFollowsTheHeight() {
        go("molds/lamp-panel-large", 1440);
        WebElement cut = browser.findElement(By.id("cut"));
        assertThat(text("#m-below")).isEqualTo("6046.4");
        cut.sendKeys(Keys.HOME);
        waitFor(() -> text("#m-below").equals("0.0"));
        cut.sendKeys(Keys.END);
        waitFor(() -> text("#m-below").equals("6046.4"));
        noConsoleErrors();
    }

    @Test
    void theThemeIsRemembered() {
        go("recipes", 1440);
        browser.findElement(By.cssSelector("[data-theme-switch]")).click();
        String chosen = (String) browser.executeScript("return document.documentElement.dataset.theme");
        browser.get(served.url() + "shelf");
        assertThat(browser.executeScript("return document.documentElement.dataset.theme"))
                .isEqualTo(chosen);
        browser.executeScript("localStorage.clear()");
    }

    /** Presses Tab until the focus is on what a CSS selector names. */
    private static void tabTo(String css) {
        for (int i = 0; i < 80; i++) {
            driver.keys(Keys.TAB);
            if ((Boolean) driver.script("return document.activeElement.matches(arguments[0])", css)) {
                return;
            }
        }
        throw new AssertionError("Tab never comes to " + css);
    }

    @Test
    void theWholePathIsWalkedByKeyboardAlone() {
        go("recipes", 1440);
        tabTo("#find");
        driver.keys("ember");
        waitFor(() -> text("#shown").equals("1"));
        assertThat(browser.switchTo().activeElement().getAttribute("id")).isEqualTo("find");
        tabTo("ul.drawer a");
        driver.keys(Keys.ENTER);
        waitFor(() -> text("h1").equals("Ember"));
        tabTo("a.next");
        driver.keys(Keys.ENTER);
        waitFor(() -> driver.count("#f-t") == 1);
        tabTo("#s-mold");
        driver.keys("lamp panel, l");
        waitFor(() -> text("#part-title").contains("Lamp panel, large"));
        tabTo("#f-t");
        driver.chord(Keys.CONTROL, "a");
        driver.keys("2 kg");
        waitFor(() -> driver.count(".figures .lead #f-t") == 1);
        tabTo("#g-all td");
        driver.keys(Keys.ARROW_DOWN, "30 g", Keys.ENTER);
        waitFor(() -> driver.count("td[data-field='size-amber-paste'].lead") == 1);
        driver.keys(Keys.ESCAPE, Keys.TAB);
        assertThat(driver.script("return document.activeElement.closest('#g-all') === null"))
                .isEqualTo(true);
        noConsoleErrors();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "recipes",
                "recipes/ember",
                "recipes/ember/mix?mold=lamp-panel-large",
                "molds/lamp-panel",
                "shelf"
            })
    void at200PercentNothingScrollsSideways(String path) {
        // 1440 px at 200 % are 720 px to the page.
        go(path, 720);
        assertThat(driver.script("return document.documentElement.scrollWidth <= innerWidth"))
                .isEqualTo(true);
        noConsoleErrors();
    }

    @Test
    void thePageShowsTheFiguresOfTheCommandLine() {
        go("recipes/ember/mix?mold=lamp-panel", 1440);
        // What `mix ember --mold lamp-panel` prints for the demo book: 643 g of part A, 272 g of part B.
        pigmentbook.mix.Mix mix = figuresOfTheProgram();
        assertThat(driver.find("#f-t").getDomProperty("value"))
                .isEqualTo(pigmentbook.quantity.Numbers.fixed(mix.totals().totalGrams(), 2));
        for (pigmentbook.mix.Mix.Weighing weighing :
                mix.layers().get(0).cups().get(0).items()) {
            assertThat(text("#part-weigh"))
                    .contains(pigmentbook.quantity.Numbers.fixed(
                            weighing.weighGrams(), weighing.scale().step().decimals()));
        }
    }

    private static pigmentbook.mix.Mix figuresOfTheProgram() {
        try {
            pigmentbook.book.Book book = new pigmentbook.store.BookFolder(java.nio.file.Path.of("recipes"))
                    .open()
                    .book();
            pigmentbook.book.Recipe ember =
                    java.util.Objects.requireNonNull(book.recipes().get("ember"));
            return pigmentbook.mix.Mixer.mix(
                    book,
                    ember,
                    ember.current(),
                    pigmentbook.mix.MixRequest.of(
                            new pigmentbook.mix.MixRequest.ForMold("lamp-panel", null),
                            java.time.LocalDate.of(2026, 11, 25)));
        } catch (pigmentbook.store.BookUnavailableException e) {
            throw new IllegalStateException(e);
        }
    }
}
