package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDateTime;
import org.junit.jupiter.api.Test;
import pigmentbook.mix.Mix;

/** What a helper who was not there reads. */
class WordingTest {

    private static final Mix MIX = Studio.mix(Studio.Order.volume("5 L").inLayers(3));

    @Test
    void theHeadSaysWhatIsMadeAndWhatThePercentsAreOf() {
        assertThat(Wording.what(MIX))
                .isEqualTo("3 layers, 6 cups. Slow casting resin, A to B 2:1 by volume (100 to 41.74 by weight).");
        assertThat(Wording.basis(MIX))
                .isEqualTo("Pigment percent of mixed resin (A + B)."
                        + " Amber paste 1.2 %, Copper mica 0.35 %, Rust paste 0.18 %.");
    }

    @Test
    void theStopBoxNamesTheLimitsAndWhatToDoWhenACupRunsAway() {
        assertThat(Wording.stop(MIX))
                .startsWith(
                        "Stop if a cup holds more than 1.5 kg of A + B; a layer is past 25 mm;"
                                + " the clock passes 37 min after part B; the room is outside 18 to 28 °C, at most 75 % humidity.")
                .contains("if it smokes or is too hot to hold");
    }

    @Test
    void severalLotsOfAnItemAreAllNamed() {
        Mix.Weighing mica = MIX.layers().get(0).cups().get(0).items().get(2);
        assertThat(Wording.item(mica)).isEqualTo("Copper mica (also lot CM-04)");
    }

    @Test
    void theStepsOfTheRecipeComeBeforePartB() {
        assertThat(Wording.steps(MIX))
                .containsExactly(
                        "Before part B: Wet the mica out in a little part A first",
                        "Stir all pigments into part A until no streak is left",
                        "Before part B: a second person checks grams and lots",
                        "Part B in: the clock starts");
    }

    @Test
    void aLaterLayerSaysWhenItMayFollowAndASecondCupWhenItStarts() {
        assertThat(Wording.layer(MIX, MIX.layers().get(2)))
                .isEqualTo("Layer 3 of 3, not before 12 h after the first pour");
        Mix.Layer layer = MIX.layers().get(0);
        assertThat(Wording.cupTime(MIX.timeline(), layer, layer.cups().get(1))).isEqualTo("Cup 2, from +10 min");
        assertThat(Wording.times(MIX.timeline()))
                .isEqualTo("Each cup: part B in, stir 3 min, change cup, stir 3 min, rest 2 min, pour."
                        + " Pass over the surface at 25, 30, 35 min");
    }

    @Test
    void theFootIsOneShortLineWhateverTheName() {
        SheetInfo info = new SheetInfo("s-1", LocalDateTime.of(2026, 11, 25, 10, 42), "", Paper.A4);
        String foot = Wording.foot(Studio.mix(Studio.Order.total("500 g"), "Ember\nlamp ".repeat(60)), info);
        assertThat(foot)
                .startsWith("Sheet s-1: Ember lamp Ember")
                .hasSizeLessThan(200)
                .doesNotContain("\n");
    }
}
