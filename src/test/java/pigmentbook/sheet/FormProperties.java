package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import pigmentbook.quantity.Numbers;

class FormProperties {

    /** The quick way to show a number shows what the exact way shows. */
    @Property
    void aNumberIsShownAsNumbersShowsIt(
            @ForAll @DoubleRange(max = 1e7) double value, @ForAll @IntRange(max = 5) int decimals) {
        assertThat(new Cell.Form("", decimals, "").shown(value)).isEqualTo(Numbers.fixed(value, decimals));
    }

    /** Halves and what lies just beside them. */
    @Property
    void halvesAreShownAsNumbersShowsThem(
            @ForAll @IntRange(max = 2_000_000) int steps, @ForAll @IntRange(min = -2, max = 2) int ulps) {
        double half = (steps + 0.5) / 1000;
        double value = half + ulps * Math.ulp(half);
        assertThat(new Cell.Form("", 3, "").shown(value)).isEqualTo(Numbers.fixed(value, 3));
    }

    @Example
    void figuresOfDifferentDecimalsTakeTheSameRoomBehindThePoint() {
        double fine = Texts.widthPt(Cell.Form.aligned(2, 2).shown(11.62), Style.FIGURE);
        double coarse = Texts.widthPt(Cell.Form.aligned(0, 2).shown(11), Style.FIGURE);
        assertThat(coarse).isEqualTo(fine);
        assertThat(new Cell.Form("revision ", 0, "").shown(4)).isEqualTo("revision 4");
    }
}
