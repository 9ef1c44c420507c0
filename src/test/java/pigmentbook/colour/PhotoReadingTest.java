package pigmentbook.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Synthetic photos of the chart (src/test/resources/colour/chart24.csv: McCamy, Marcus, Davidson 1976, values as its
 * own head says) and of a card, through a camera with a cast, a vignette and noise.
 */
class PhotoReadingTest {

    private static final int SIDE = 20;

    private final Random random = new Random(3);

    /** A camera: a mixing of its channels, a cast, a fall of light towards the corners, noise. */
    private int pixel(double[] linear, double x, double y, double vignette, double noise) {
        double[][] mixing = {{0.86, 0.1, 0.04}, {0.06, 0.9, 0.04}, {0.02, 0.12, 0.86}};
        double[] cast = {0.92, 0.8, 0.62};
        double fall = 1 - vignette * ((x - 0.5) * (x - 0.5) + (y - 0.5) * (y - 0.5)) * 2;
        int rgb = 0;
        for (int c = 0; c < 3; c++) {
            double seen = 0;
            for (int k = 0; k < 3; k++) {
                seen += mixing[c][k] * linear[k];
            }
            double level = 255 * Srgb.encoded(Math.max(0, seen * cast[c] * fall)) + noise * random.nextGaussian();
            rgb = rgb << 8 | (int) Math.max(0, Math.min(255, Math.round(level)));
        }
        return rgb;
    }

    private PhotoReading.Area area(double[] linear, double x, double y, double vignette, double noise) {
        int[] rgb = new int[SIDE * SIDE];
        for (int i = 0; i < rgb.length; i++) {
            rgb[i] = pixel(linear, x + (i % SIDE) * 1e-3, y + (i / SIDE) * 1e-3, vignette, noise);
        }
        return new PhotoReading.Area(SIDE, rgb);
    }

    private static List<double[]> chart() throws IOException {
        List<double[]> chart = new ArrayList<>();
        for (String line : Files.readAllLines(Path.of("src/test/resources/colour/chart24.csv"))) {
            String[] cells = line.split(",", -1);
            if (!line.startsWith("#") && cells[0].matches("[0-9]+")) {
                double[] linear = new double[3];
                for (int c = 0; c < 3; c++) {
                    double level = Double.parseDouble(cells[14 + c]) / 255;
                    linear[c] = Math.copySign(Srgb.decoded(Math.abs(level)), level);
                }
                chart.add(linear);
            }
        }
        assertThat(chart).hasSize(24);
        return chart;
    }

    private PhotoReading.Placed[] placed(double vignette, double noise) throws IOException {
        List<double[]> chart = chart();
        PhotoReading.Placed[] placed = new PhotoReading.Placed[24];
        for (int i = 0; i < 24; i++) {
            double x = 0.15 + 0.12 * (i % 6);
            double y = 0.2 + 0.12 * (i / 6);
            placed[i] = new PhotoReading.Placed(area(chart.get(i), x, y, vignette, noise), x, y);
        }
        return placed;
    }

    @Test
    void throughACastAVignetteAndNoiseTheChartGivesThePatchBack() throws IOException {
        for (Lab truth : List.of(new Lab(45, 31, 46), new Lab(30, 20, 15), new Lab(70, 10, 50), new Lab(55, -5, 8))) {
            PhotoReading reading = PhotoReading.withChart(
                    placed(0.3, 2), new PhotoReading.Placed(area(Srgb.linear(truth), 0.5, 0.75, 0.3, 2), 0.5, 0.75));
            assertThat(Ciede2000.between(reading.lab(), truth))
                    .as(truth.toString())
                    .isLessThan(1.5);
            assertThat(reading.surenessDe00()).isLessThan(1.5);
        }
    }

    @Test
    void withACardTheCastGoesAndGreysComeRight() {
        double[] card = Srgb.linear(new Lab(50, 0, 0));
        for (double l : new double[] {25, 40, 60, 80}) {
            PhotoReading reading = PhotoReading.withCard(
                    area(card, 0.5, 0.5, 0, 1), 50, area(Srgb.linear(new Lab(l, 0, 0)), 0.5, 0.5, 0, 1));
            assertThat(Ciede2000.between(reading.lab(), new Lab(l, 0, 0))).isLessThan(0.6);
            assertThat(reading.surenessDe00()).isEqualTo(3);
        }
    }

    /** A camera that only has a cast, and mixes nothing, is undone by a card alone. */
    @Test
    void aCastAloneIsUndoneExactlyButForRounding() {
        Lab truth = new Lab(45, 31, 46);
        double[] linear = Srgb.linear(truth);
        double[] grey = Srgb.linear(new Lab(50, 0, 0));
        double[] cast = {0.9, 0.7, 0.55};
        PhotoReading reading = PhotoReading.withCard(plain(grey, cast), 50, plain(linear, cast));
        assertThat(Ciede2000.between(reading.lab(), truth)).isLessThan(0.7);
    }

    private static PhotoReading.Area plain(double[] linear, double[] cast) {
        int rgb = 0;
        for (int c = 0; c < 3; c++) {
            rgb = rgb << 8 | (int) Math.round(255 * Srgb.encoded(Math.max(0, linear[c] * cast[c])));
        }
        int[] all = new int[SIDE * SIDE];
        java.util.Arrays.fill(all, rgb);
        return new PhotoReading.Area(SIDE, all);
    }

    @Test
    void clippedDarkAndUnevenLightIsRefusedWithItsReason() {
        PhotoReading.Area grey = plain(Srgb.linear(new Lab(50, 0, 0)), new double[] {1, 1, 1});
        assertThatThrownBy(() -> PhotoReading.withCard(plain(new double[] {1, 1, 1}, new double[] {1, 1, 1}), 50, grey))
                .hasMessage(
                        "The card is clipped: part of it is as bright as the photo can be. Take it darker, without a reflection.");
        assertThatThrownBy(() -> PhotoReading.withCard(
                        plain(new double[] {0.004, 0.004, 0.004}, new double[] {1, 1, 1}), 50, grey))
                .hasMessage("The card is too dark in the photo. Take it in more light.");
        int[] half = grey.rgb().clone();
        for (int i = 0; i < half.length; i++) {
            half[i] = i % SIDE < SIDE / 2 ? 0x606060 : 0x909090;
        }
        assertThatThrownBy(() -> PhotoReading.withCard(new PhotoReading.Area(SIDE, half), 50, grey))
                .hasMessageStartingWith("The light on the card is uneven");
        assertThatThrownBy(() -> PhotoReading.withCard(grey, 140, grey)).isInstanceOf(PhotoRefusedException.class);
        PhotoReading.Placed[] grey24 = new PhotoReading.Placed[24];
        java.util.Arrays.fill(grey24, new PhotoReading.Placed(grey, 0.5, 0.5));
        assertThatThrownBy(() -> PhotoReading.withChart(grey24, new PhotoReading.Placed(grey, 0.5, 0.5)))
                .hasMessageStartingWith("What was pointed at does not look like the chart");
    }
}
