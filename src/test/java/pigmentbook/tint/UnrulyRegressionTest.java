package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.Test;

/**
 * Where the stated bound holds less than the 85 % that are asked. The figures here are what was measured, rounded down,
 * and nothing but a fence against getting worse.
 */
class UnrulyRegressionTest {

    /**
     * The theory holds for every pigment alone and fails in mixes only. Nothing that was read tells of it, and a bound
     * that covers it would hold more than 98 % of studios that obey the theory.
     */
    @Test
    void theBoundKeepsSomeRoomWhereNobodyCouldKnow() {
        assertThat(UnrulyTest.found(360, 0, (studio, seed) -> UnrulyTest.drawingOut(studio))
                        .within())
                .isBetween(0.70, 0.98);
    }

    /**
     * Mixes of two historic paints at other proportions than the equal ones that were read: 13 of 18 lie within. Those
     * that don't are mixes of vermilion and red lead with more vermilion. Red lead alone was read ΔE00 8 from where its
     * mixes put it, and is taken for a wild reading.
     */
    @Test
    void mostMixesOfHistoricPaintsLieWithinTheBoundOnceEqualMixesWereRead() throws IOException {
        assertThat(MeasuredPaintsTest.within(chip -> chip.percents().length == 1 || MeasuredPaintsTest.even(chip)))
                .isGreaterThanOrEqualTo(13.0 / 18);
    }
}
