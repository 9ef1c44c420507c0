package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The bench on a phone shows the times of the clock on the wall, over midnight and over a change of summer time. */
@Tag("browser")
class SummerTimeBrowserTest {

    private static Browser browser;

    @TempDir
    Path folder;

    @BeforeAll
    static void open() {
        browser = new Browser();
        browser.driver.executeCdpCommand("Emulation.setTimezoneOverride", Map.of("timezoneId", "Europe/Berlin"));
        browser.driver.executeCdpCommand("Emulation.setLocaleOverride", Map.of("locale", "en-GB"));
    }

    @AfterAll
    static void close() {
        if (browser != null) {
            browser.close();
        }
    }

    private String bench(LayersOverNight pour) {
        browser.go(pour.served.url() + "pours/" + pour.pour + "/bench", 390);
        browser.waitFor("the bench", () -> browser.count(".bench h1") == 1);
        return browser.text(".bench").replace('\n', ' ');
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "2026-11-25T23:40+01:00 | Thu 00:20 | Thu 05:40 | Thu 23:40",
                "2026-03-29T01:40+01:00 | 03:20 | 08:40 | Mon 02:40",
                "2026-10-25T02:40+02:00 | 02:20 CET | 07:40 | Mon 01:40",
            })
    void pourByAndTheNextLayer(String began, String pourBy, String from, String until) throws IOException {
        HandClock clock = new HandClock(began);
        try (LayersOverNight pour = new LayersOverNight(folder, clock, 2)) {
            pour.weigh(1, began);
            assertThat(bench(pour))
                    .contains("Pour by " + pourBy + " at the latest")
                    .containsPattern("(40:00|39:\\d\\d) min")
                    .contains("Layer 2 " + from);
            pour.poured(1, began);
            assertThat(bench(pour))
                    .contains("Layer 2 may go on from " + from + " until " + until + ".")
                    .contains("In 6 h 0 min.");
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "2026-03-28T23:50+01:00 | Tue 00:50 | Sun 5 Apr 00:50",
                "2026-10-24T23:50+02:00 | Mon 22:50 | Sat 31 Oct 22:50",
            })
    void demoldAndFullCure(String poured, String demold, String cured) throws IOException {
        try (LayersOverNight pour = new LayersOverNight(folder, new HandClock(poured), 1)) {
            pour.weigh(1, poured);
            pour.poured(1, poured);
            assertThat(bench(pour).replace(",", ""))
                    .contains("Demold not before " + demold + " 48 h after the last pour; full cure " + cured);
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"2026-11-30T23:50+01:00 | false", "2026-12-01T00:10+01:00 | true"})
    void aLotThatWasGoodBeforeMidnightIsPastItsDateAfterIt(String now, boolean past) throws IOException {
        HandClock clock = new HandClock("2026-11-30T23:30+01:00");
        try (LayersOverNight pour = new LayersOverNight(folder, clock, 2)) {
            for (String lot : List.of("A-2402", "A-2409")) {
                Path file = folder.resolve("shelf/lots/" + lot + ".json");
                Files.writeString(
                        file,
                        Files.readString(file).replaceAll("\"expires\": \"[0-9-]*\"", "\"expires\": \"2026-11-30\""));
            }
            String again = pour.served
                    .post("/recipes/ember/bench?lead=total&total=300+g", "")
                    .body();
            clock.set(now);
            browser.go(pour.served.url() + again.substring(1), 390);
            browser.waitFor("the first item", () -> browser.text(".bench h1").equals("Part A"));
            assertThat(browser.text(".lot").contains(", past its date")).isEqualTo(past);
        }
    }
}
