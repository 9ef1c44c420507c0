package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.logging.Level;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A real browser without a window. Where none is installed the test is skipped, or fails if all tests have to run. */
final class Browser implements AutoCloseable {

    private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

    final ChromeDriver driver;

    Browser() {
        boolean there = Files.exists(CHROMIUM) && Files.exists(DRIVER);
        if (!there && System.getenv("PIGMENT_BOOK_ALL_TESTS") != null) {
            fail("Chromium and its driver are not installed, and every test has to run.");
        }
        assumeTrue(there, "Chromium is not installed, so the page is not tried in a browser.");
        ChromeOptions options = new ChromeOptions();
        options.setBinary(CHROMIUM.toString());
        options.addArguments(
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync");
        LoggingPreferences logs = new LoggingPreferences();
        logs.enable(LogType.BROWSER, Level.ALL);
        options.setCapability("goog:loggingPrefs", logs);
        driver = new ChromeDriver(
                new ChromeDriverService.Builder()
                        .usingDriverExecutable(DRIVER.toFile())
                        .build(),
                options);
    }

    void go(String url, int width) {
        driver.manage().window().setSize(new Dimension(width, 1000));
        driver.manage().logs().get(LogType.BROWSER);
        driver.get(url);
    }

    void waitFor(String what, BooleanSupplier condition) {
        new WebDriverWait(driver, Duration.ofSeconds(10))
                .ignoring(StaleElementReferenceException.class)
                .withMessage(what)
                .until(ignored -> condition.getAsBoolean());
    }

    WebElement find(String css) {
        return driver.findElement(By.cssSelector(css));
    }

    String text(String css) {
        return find(css).getText();
    }

    int count(String css) {
        return driver.findElements(By.cssSelector(css)).size();
    }

    /** Presses keys wherever the focus is. */
    void keys(CharSequence... keys) {
        new Actions(driver).sendKeys(keys).perform();
    }

    /** Presses a key while others are held down. */
    void chord(CharSequence held, CharSequence key) {
        new Actions(driver).keyDown(held).sendKeys(key).keyUp(held).perform();
    }

    Object script(String script, Object... arguments) {
        return driver.executeScript(script, arguments);
    }

    /** Puts text where an office program would have left it, and pastes it at the focus. */
    void paste(String type, String text) {
        script(
                "const d = new DataTransfer(); d.setData(arguments[0], arguments[1]);"
                        + "document.activeElement.dispatchEvent(new ClipboardEvent('paste', {clipboardData: d, bubbles: true, cancelable: true}));",
                type,
                text);
    }

    /** Returns what copying at the focus would leave for other programs. */
    String copied(String type) {
        return String.valueOf(script(
                "const d = new DataTransfer();"
                        + "document.activeElement.dispatchEvent(new ClipboardEvent('copy', {clipboardData: d, bubbles: true, cancelable: true}));"
                        + "return d.getData(arguments[0]);",
                type));
    }

    void noConsoleErrors() {
        assertThat(driver.manage().logs().get(LogType.BROWSER).getAll())
                .filteredOn(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
                .isEmpty();
    }

    void accessible() {
        List<Rule> violations = new AxeBuilder().analyze(driver).getViolations();
        assertThat(violations).as(violations.toString()).isEmpty();
    }

    @Override
    public void close() {
        driver.quit();
    }
}
