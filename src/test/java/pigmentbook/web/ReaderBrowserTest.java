package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** What a reader's own settings ask of the page: paper, less movement, forced colours; and that nothing jumps. */
@Tag("browser")
class ReaderBrowserTest {

    /** What is left of an A4 page between the margins, at 96 pixels an inch. */
    private static final int PAPER_PX = 692;

    private static final int PAPER_ACROSS_PX = 1024;

    private static Served served;
    private static Browser browser;

    @BeforeAll
    static void open() {
        browser = new Browser();
        served = new Served();
    }

    @AfterAll
    static void close() {
        if (browser != null) {
            browser.close();
        }
        if (served != null) {
            served.close();
        }
    }

    @AfterEach
    void asBefore() {
        media("", Map.of());
    }

    private static void media(String media, Map<String, String> features) {
        browser.driver.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of(
                        "media",
                        media,
                        "features",
                        features.entrySet().stream()
                                .map(each -> Map.of("name", each.getKey(), "value", each.getValue()))
                                .toList()));
    }

    private static Object script(String script) {
        return browser.driver.executeScript(script);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(textBlock = """
            recipes,PAPER
            recipes/ember,PAPER
            recipes/ember/mix?mold=lamp-panel-large,PAPER
            recipes/ember/mix?pour=2026-11-18-ember-1,PAPER
            molds/lamp-panel-large,PAPER
            molds/finial,PAPER
            shelf,ACROSS
            shelf/lots/AP-07,PAPER
            tints/amber-paste,PAPER
            pours/2026-11-18-ember-1,PAPER
            match?colour=%23a8541c&resin=slow-cast,PAPER
            """)
    void onPaperNothingIsCutAndNothingAsksToBePressed(String path, String paper) {
        browser.go(served.url() + path, paper.equals("PAPER") ? PAPER_PX : PAPER_ACROSS_PX);
        media("print", Map.of());
        assertThat(script("return [...document.querySelectorAll('main table, main svg, main figure')]"
                        + ".filter(e => e.getClientRects().length && !e.closest('.only-read, .patterns')"
                        + " && e.getBoundingClientRect().right > innerWidth + 1)"
                        + ".map(e => (e.id || e.className) + ' ends at ' + e.getBoundingClientRect().right)"))
                .isEqualTo(List.of());
        assertThat(
                        script(
                                "return [...document.querySelectorAll('button, nav a')]"
                                        + ".filter(e => e.checkVisibility() && !e.closest('.trail') && !e.matches('td .how')).map(e => e.textContent)"))
                .isEqualTo(List.of());
    }

    /** A figure that opens to its working on the screen is a button there, and still a figure on paper. */
    @Test
    void onPaperEveryWeightStands() {
        browser.go(served.url() + "recipes/ember/mix?mold=lamp-panel", PAPER_PX);
        media("print", Map.of());
        assertThat(script("return [...document.querySelectorAll('.cups tbody tr')].map(row =>"
                        + " row.cells[1].innerText.replace(/\\s/g, ''))"))
                .isEqualTo(List.of("643", "10.65", "3.23", "1.66", "0.55", "272"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"recipes", "recipes/ember/mix", "shelf", "bench"})
    void nothingMovesForAReaderWhoAskedForLessMovement(String path) {
        browser.go(served.url() + path, 1440);
        media("", Map.of("prefers-reduced-motion", "reduce"));
        assertThat(script("return [...document.querySelectorAll('*')].filter(e => { const s = getComputedStyle(e);"
                        + " return s.animationName !== 'none' || s.transitionDuration.split(', ')"
                        + ".some(d => parseFloat(d) > 0) || s.scrollBehavior === 'smooth'; }).map(e => e.outerHTML)"))
                .isEqualTo(List.of());
    }

    @Test
    void withForcedColoursTheLeadingFigureAndTheColoursAreStillSeen() {
        browser.go(served.url() + "recipes/ember/mix?lead=total&total=500+g", 1440);
        media("", Map.of("forced-colors", "active"));
        assertThat(script("return getComputedStyle(document.querySelector('.figures .lead input')).borderTopWidth"))
                .isEqualTo("3px");
        assertThat(script("return getComputedStyle(document.querySelector('svg.sample')).forcedColorAdjust"))
                .isEqualTo("none");
    }

    @Test
    void nothingShiftsWhileATotalIsTyped() {
        browser.go(served.url() + "recipes/ember/mix?lead=total&total=500+g", 1440);
        script("window.shifts = []; new PerformanceObserver(list => list.getEntries().forEach(e =>"
                + " shifts.push(e.value + ' ' + e.sources.map(s => s.node?.outerHTML?.slice(0, 90)))))"
                + ".observe({ type: 'layout-shift', buffered: false })");
        WebElement total = browser.driver.findElement(By.id("f-t"));
        for (String typed : List.of("6", "64", "640", "640 ", "640 g")) {
            total.sendKeys(Keys.chord(Keys.CONTROL, "a"), typed);
            browser.waitFor(
                    "the figures follow",
                    () -> script("return document.body.matches('.stale, :has(.stale)')")
                            .equals(false));
        }
        browser.waitFor(
                "the last figure is there", () -> browser.driver.getCurrentUrl().contains("640"));
        assertThat(script("return window.shifts")).isEqualTo(List.of());
        // A real shift is seen, so an empty list means something.
        script(
                "document.querySelector('main').prepend(Object.assign(document.createElement('p'), { textContent: 'x' }))");
        browser.waitFor("a shift is seen", () -> !List.of().equals(script("return window.shifts")));
    }
}
