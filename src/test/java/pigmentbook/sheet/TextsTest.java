package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class TextsTest {

    @Test
    void whatXmlCantHoldIsMarkedAndTheRestStays() {
        assertThat(Texts.clean("a\u0000b\u0007c\uFFFEd\uD800e")).isEqualTo("a\uFFFDb\uFFFDc\uFFFDd\uFFFDe");
        assertThat(Texts.clean("אמבר\u200F – 琥珀 \uD83D\uDFE0\tx\ny")).isEqualTo("אמבר\u200F – 琥珀 \uD83D\uDFE0\tx\ny");
        assertThat(Texts.clean("one\r\ntwo\rthree")).isEqualTo("one\ntwo\nthree");
    }

    @Test
    void aTextLongerThanACellIsCutAndNeverInTheMiddleOfASign() {
        String orange = "\uD83D\uDFE0";
        String cut = Texts.clean("x".repeat(32_766) + orange);
        assertThat(cut).startsWith("xxx").doesNotContain("\uD83D").hasSizeLessThanOrEqualTo(32_767);
    }

    @Test
    void aLongerTextNeedsAHigherRowAndANarrowerColumnToo() {
        String words = "wet the mica out in a little part A ".repeat(6);
        double high = Texts.heightPt(words, Style.BODY, 60);
        assertThat(high).isGreaterThan(Texts.heightPt(words, Style.BODY, 120));
        assertThat(Texts.heightPt("one line", Style.BODY, 60)).isLessThan(high);
        assertThat(Texts.heightPt("one\ntwo", Style.BODY, 60)).isGreaterThan(Texts.heightPt("one", Style.BODY, 60));
        assertThat(Texts.heightPt("w".repeat(300), Style.BODY, 30)).isGreaterThan(5 * Style.BODY.sizePt());
    }
}
