package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Resin cures by hours that pass, not by the clock on the wall: over midnight and over the change to and from summer
 * time (in Berlin on 29 March and 25 October 2026) every time shown is the wall's, and the hours between are right.
 */
class SummerTimeTest {

    @TempDir
    Path folder;

    private String page(LayersOverNight pour) {
        return pour.served.get("/pours/" + pour.pour).body();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // part B of layer 1 goes in | the next layer, from and until: 6 h and 24 h later
                "2026-11-25T23:40+01:00 | Thu 26 Nov 05:40 until Thu 26 Nov 23:40",
                "2026-03-28T23:40+01:00 | Sun 29 Mar 06:40 until Mon 30 Mar 00:40",
                "2026-10-24T23:40+02:00 | Sun 25 Oct 04:40 until Sun 25 Oct 22:40",
                "2026-12-31T23:40+01:00 | Fri 1 Jan 05:40 until Fri 1 Jan 23:40",
                "2026-10-24T20:30+02:00 | Sun 25 Oct 02:30 (+02:00) until Sun 25 Oct 19:30",
            })
    void theNextLayerIsToldWithItsDay(String began, String told) throws IOException {
        try (LayersOverNight pour = new LayersOverNight(folder, new HandClock(began), 2)) {
            pour.weigh(1, began);
            assertThat(page(pour)).contains("Layer 2 may go on from " + told + ".");
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // part B goes in | 40 min later
                "2026-11-25T23:40+01:00 | Thu 26 Nov 00:20",
                "2026-03-29T01:40+01:00 | Sun 29 Mar 03:20",
                "2026-10-25T02:40+02:00 | Sun 25 Oct 02:20 (+01:00)",
                "2026-10-25T02:40+01:00 | Sun 25 Oct 03:20",
            })
    void pourByIsMinutesLater(String began, String told) throws IOException {
        try (LayersOverNight pour = new LayersOverNight(folder, new HandClock(began), 1)) {
            pour.weigh(1, began);
            assertThat(page(pour)).contains("Layer 1: pour by " + told + ", a rule of thumb.");
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // layer 1 | the last cup is poured | 48 h and 7 d after that
                "2026-03-28T23:40+01:00 | 2026-03-29T07:10+02:00 | Tue 31 Mar 07:10 | Sun 5 Apr 07:10",
                "2026-03-28T17:40+01:00 | 2026-03-28T23:50+01:00 | Tue 31 Mar 00:50 | Sun 5 Apr 00:50",
                "2026-10-24T17:40+02:00 | 2026-10-24T23:50+02:00 | Mon 26 Oct 22:50 | Sat 31 Oct 22:50",
            })
    void demoldAndFullCureCountFromTheLastCup(String first, String last, String demold, String cured)
            throws IOException {
        try (LayersOverNight pour = new LayersOverNight(folder, new HandClock(first), 2)) {
            pour.weigh(1, first);
            pour.poured(1, first);
            pour.weigh(2, last);
            assertThat(page(pour)).doesNotContain("Demold not before");
            pour.poured(2, last);
            assertThat(page(pour))
                    .contains("Demold not before " + demold + ".")
                    .contains("Full cure " + cured + ".")
                    .doesNotContain("may go on from");
        }
    }

    @Test
    void anHourThatTheClockShowsTwiceStaysTwoOnRecord() throws IOException {
        HandClock clock = new HandClock("2026-10-25T02:30+02:00");
        try (LayersOverNight pour = new LayersOverNight(folder, clock, 2)) {
            pour.weigh(1, "2026-10-25T02:30+02:00");
            pour.poured(1, "2026-10-25T02:30+01:00");
            assertThat(pour.record().at("/log/0/at").asText()).isEqualTo("2026-10-25T02:30+02:00");
            assertThat(pour.record().at("/log/0/kept").asText()).isEqualTo("2026-10-25T02:30+02:00");
            assertThat(pour.record().at("/log/6/at").asText()).isEqualTo("2026-10-25T02:30+01:00");
            assertThat(pour.record().at("/log/6/kept").asText()).isEqualTo("2026-10-25T02:30+01:00");
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // now | layer 2, 6 h later | demold, 54 h later | full cure, 6 h and 7 d later
                "2026-11-25T23:50+01:00 | Thu 05:50 | Sat 05:50 | Thu 3 Dec",
                "2026-03-28T23:50+01:00 | Sun 06:50 | Tue 06:50 | Sun 5 Apr",
                "2026-10-24T23:50+02:00 | Sun 04:50 | Tue 04:50 | Sun 1 Nov",
                "2026-10-24T20:30+02:00 | Sun 02:30 (+02:00) | Tue 01:30 | Sun 1 Nov",
            })
    void aPlanIsDrawnInTheHoursThatPass(String now, String layer, String demold, String cured) throws IOException {
        try (Served served = new Served(Served.copyOfTheBook(folder), 0, new HandClock(now))) {
            String page = served.get("/recipes/ember/mix?lead=volume&volume=400+mL&layers=2")
                    .body();
            assertThat(page).contains("layer 2 from " + layer + "\"");
            assertThat(page).contains(">" + demold + "</text>").contains(">" + cured + "</text>");
        }
    }
}
