package pigmentbook.web;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;

/** A copy of the demo book, served for one test. */
abstract class ServedCopy {

    @TempDir
    Path folder;

    Served served;

    @BeforeEach
    void serve() throws IOException {
        served = new Served(Served.copyOfTheBook(folder));
    }

    @AfterEach
    void stopServing() {
        served.close();
    }
}
