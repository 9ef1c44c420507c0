package pigmentbook.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;

/** A copy of the demo book, served for one test, in a browser that all tests of a class share. */
abstract class CopiedBookInBrowser extends ServedCopy {

    static Browser browser;

    @BeforeAll
    static void open() {
        browser = new Browser();
    }

    @AfterAll
    static void close() {
        if (browser != null) {
            browser.close();
        }
    }

    @AfterEach
    void leaveThePage() {
        browser.script("sessionStorage.clear()");
        browser.driver.get("about:blank");
    }

    String file(String name) throws IOException {
        return Files.readString(folder.resolve(name));
    }

    /** Waits until a file of the book holds a text. */
    void onDisk(String name, String part) {
        browser.waitFor(name + " says " + part, () -> {
            try {
                return file(name).contains(part);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        });
    }
}
