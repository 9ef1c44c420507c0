package pigmentbook.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** sRGB after IEC 61966-2-1 and CIELAB after CIE 15:2004, white of D65; sources and tolerances in the tables' heads. */
class SrgbTest {

    @ParameterizedTest(name = "{1}")
    @CsvFileSource(resources = "/colour/srgb_lab.csv", useHeadersInDisplayName = false)
    void matchesTheSrgbToLabTableAndBack(
            String kind,
            String name,
            String red,
            String green,
            String blue,
            String x,
            String y,
            String z,
            String l,
            String a,
            String b) {
        if (kind.equals("kind")) {
            return; // the table's head stands below its comments, where it can't be skipped by count
        }
        int r = Integer.parseInt(red);
        int g = Integer.parseInt(green);
        int bl = Integer.parseInt(blue);
        Lab lab = Srgb.lab(r, g, bl);
        assertThat(lab.l()).isCloseTo(Double.parseDouble(l), within(1e-6));
        assertThat(lab.a()).isCloseTo(Double.parseDouble(a), within(1e-6));
        assertThat(lab.b()).isCloseTo(Double.parseDouble(b), within(1e-6));
        assertThat(Srgb.hex(lab)).isEqualTo(String.format(Locale.ROOT, "#%02x%02x%02x", r, g, bl));
        assertThat(Srgb.shows(lab)).isTrue();
    }

    @ParameterizedTest(name = "{0} L {1} a {2} b {3}")
    @CsvFileSource(resources = "/colour/lab_to_srgb.csv")
    void matchesTheLabToSrgbTable(
            String white,
            String l,
            String a,
            String b,
            String linearRed,
            String linearGreen,
            String linearBlue,
            String red,
            String green,
            String blue,
            String gamut) {
        if (!white.equals("D65")) {
            return; // the rows of D50 are another white point's
        }
        Lab lab = new Lab(Double.parseDouble(l), Double.parseDouble(a), Double.parseDouble(b));
        String[] linear = {linearRed, linearGreen, linearBlue};
        String[] encoded = {red, green, blue};
        for (int i = 0; i < 3; i++) {
            assertThat(Srgb.linear(lab)[i]).isCloseTo(Double.parseDouble(linear[i]), within(1e-9));
            assertThat(Srgb.encoded(Srgb.linear(lab)[i])).isCloseTo(Double.parseDouble(encoded[i]), within(1e-6));
        }
        assertThat(Srgb.shows(lab)).isEqualTo(gamut.equals("in"));
    }

    @ParameterizedTest
    @CsvSource({"0, 0, 0, #000000", "100, 0, 0, #ffffff"})
    void blackAndWhiteAreTheEndsOfTheScale(double l, double a, double b, String hex) {
        assertThat(Srgb.hex(new Lab(l, a, b))).isEqualTo(hex);
    }

    @Test
    void aColourNoScreenShowsIsClipped() {
        // L 40, a 90, b -100 has green below 0 and blue above 1 (lab_to_srgb.csv)
        assertThat(Srgb.hex(new Lab(40, 90, -100))).isEqualTo("#7e00ff");
    }
}
