package pigmentbook.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.github.ajalt.colormath.model.LAB;
import com.github.ajalt.colormath.model.SRGB;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Against a general colour library, colormath 3.6.1, which reckons in single precision. Differences are not: its
 * CIEDE2000 misses 22 of the 34 published pairs by more than 0.002, which {@code Ciede2000Test} checks ours against.
 */
class LibraryColourTest {

    private final Random random = new Random(17);

    @Test
    void screenColoursAreTheLibrarysInLab() {
        for (int i = 0; i < 2_000; i++) {
            int r = random.nextInt(256);
            int g = random.nextInt(256);
            int b = random.nextInt(256);
            Lab ours = Srgb.lab(r, g, b);
            LAB theirs = SRGB.INSTANCE.invoke(r / 255f, g / 255f, b / 255f, 1f).toLAB();
            assertThat(ours.l()).isCloseTo(theirs.getL(), within(0.02));
            assertThat(ours.a()).isCloseTo(theirs.getA(), within(0.05));
            assertThat(ours.b()).isCloseTo(theirs.getB(), within(0.05));
        }
    }
}
