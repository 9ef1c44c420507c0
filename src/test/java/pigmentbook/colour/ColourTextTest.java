package pigmentbook.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import pigmentbook.quantity.BadAmountException;

/** Colours as people write them. */
class ColourTextTest {

    @ParameterizedTest
    @ValueSource(strings = {"#a8541c", "A8541C", " #a8541c ", "rgb(168, 84, 28)", "rgb(168 84 28)"})
    void aScreensColourIsReadInEachOfItsForms(String text) {
        assertThat(ColourText.parse(text)).isEqualTo(Srgb.lab(168, 84, 28));
    }

    @ParameterizedTest
    @ValueSource(strings = {"41.2,22.8,-36.1", " 41.2 , 22.8 , −36.1", "[41.2, 22.8, -36.1]", "41.2,+22.8,-36.1"})
    void threeNumbersAreLab(String text) {
        assertThat(ColourText.parse(text)).isEqualTo(new Lab(41.2, 22.8, -36.1));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            blue         | "blue" is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot).
            45 30 40 1   | "45 30 40 1" is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot).
            41.2,22.8    | "41.2,22.8" is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot).
            NaN,0,0      | "NaN,0,0" is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot).
            1e1,0,0      | "1e1,0,0" is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot).
            101,0,0      | "101,0,0" is no colour; L* goes from 0 to 100, a* and b* from -200 to 200.
            50,0,-201    | "50,0,-201" is no colour; L* goes from 0 to 100, a* and b* from -200 to 200.
            rgb(1,2,256) | "256" is no part of a colour; rgb goes from 0 to 255.
            """)
    void whatIsNoColourIsToldWithWhatWouldBe(String text, String told) {
        assertThatThrownBy(() -> ColourText.parse(text))
                .isInstanceOf(BadAmountException.class)
                .hasMessage(told);
    }

    @Test
    void xyzAndBackIsTheSameColour() {
        Lab lab = new Lab(41.2, 22.8, -36.1);
        assertThat(Xyz.of(lab).lab().l()).isCloseTo(lab.l(), within(1e-12));
        assertThat(Xyz.of(lab).lab().a()).isCloseTo(lab.a(), within(1e-12));
        assertThat(Xyz.of(lab).lab().b()).isCloseTo(lab.b(), within(1e-12));
        assertThat(new Xyz(Xyz.WHITE_X, 1, Xyz.WHITE_Z).lab()).isEqualTo(new Lab(100, 0, 0));
        // Below (6/29)³ CIELAB is a straight line (CIE 15:2004, 8.2.1): Y 0.001 is L* 0.9033.
        assertThat(new Xyz(0.001 * Xyz.WHITE_X, 0.001, 0.001 * Xyz.WHITE_Z)
                        .lab()
                        .l())
                .isCloseTo(0.9033, within(5e-5));
        assertThat(Xyz.slopeAtRoot(Xyz.root(0.3)))
                .isCloseTo((Xyz.root(0.3 + 1e-6) - Xyz.root(0.3 - 1e-6)) / 2e-6, within(1e-7));
        assertThat(Xyz.slopeAtRoot(Xyz.root(0.003)))
                .isCloseTo((Xyz.root(0.003 + 1e-6) - Xyz.root(0.003 - 1e-6)) / 2e-6, within(1e-6));
    }

    @ParameterizedTest
    @ValueSource(strings = {"42,5 39,1 44,0", "42.5 39.1 44", "42.5; 39.1; 44", "42,5; 39,1; 44,0", " 42,5;39,1;44 "})
    void aCommaIsTheDecimalMarkWhereItCannotBeAnythingElse(String text) {
        assertThat(ColourText.parse(text)).isEqualTo(new Lab(42.5, 39.1, 44));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "42,5 39.1 44",
                "42,5; 39.1; 44",
                "42.5 39,1 44,0",
                "45,30 40 20",
                "45,30 40,5 20",
                "42,5 39,1",
                "42,5,39,1,44,0",
                "42,5, 39,1, 44,0",
                "42,5 39,1 44,",
                "45,5,30,40,1",
                "45, 30 40"
            })
    void whatCouldMeanTwoThingsIsRefusedWithWhatToWrite(String text) {
        assertThatThrownBy(() -> ColourText.parse(text))
                .isInstanceOf(BadAmountException.class)
                .hasMessage("\"" + text + "\" can be read in more than one way; write 45.5 30 40 with dots, or"
                        + " 45,5; 30; 40 with semicolons where commas are the decimal marks.");
        assertThat(ColourText.parse("45.5 30 40")).isEqualTo(ColourText.parse("45,5; 30; 40"));
    }
}
