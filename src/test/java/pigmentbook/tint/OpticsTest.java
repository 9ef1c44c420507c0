package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/** The theory of one layer, band by band, against tables worked out apart; sources in the tables' heads. */
class OpticsTest {

    private static final Common FACE = new Common(0.6, 0);

    private static final int B = Bands.COUNT;

    /** Kubelka and Munk 1931, Kubelka 1948; the tolerances are the table's own. */
    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "/tint/kubelka_munk.csv", useHeadersInDisplayName = false)
    void aLayerOverABackingMatchesTheTable(String id, String k, String s, String x, String backing, String r) {
        if (id.equals("id")) {
            return; // the table's head stands below its comments, where it can't be skipped by count
        }
        double near = id.equals("tiny_K") || id.equals("tiny_S") || id.equals("huge_SX") ? 1e-9 : 1e-12;
        double kNumber = Double.parseDouble(k);
        double sNumber = Double.parseDouble(s);
        double depth = Double.parseDouble(x);
        double rg = Double.parseDouble(backing);
        double expected = Double.parseDouble(r);
        assertThat(Layer.reflectance(kNumber, sNumber, depth, rg)).isCloseTo(expected, within(near));
        double[] slopes = new double[3];
        Layer.withSlopes(kNumber, sNumber, depth, rg, slopes);
        assertThat(slopes[0]).isCloseTo(expected, within(near));
    }

    /** Saunderson 1942, to the table's own 1e-10. */
    @ParameterizedTest(name = "{0} K1 {2} K2 {4} R {6}")
    @CsvFileSource(resources = "/tint/saunderson.csv")
    void theFaceMatchesTheTable(
            String record,
            String n,
            String k1,
            String outside,
            String k2,
            String reciprocity,
            String inside,
            String measured) {
        if (record.equals("interface") && n.equals("1.55")) {
            assertThat(Gloss.K1).isCloseTo(Double.parseDouble(k1), within(1e-8));
        }
        if (record.equals("saunderson")) {
            double mirrored = Double.parseDouble(k1);
            // The table's figures have the mirrored light in; ours leave it out.
            assertThat(mirrored + Gloss.seen(Double.parseDouble(inside), mirrored, Double.parseDouble(k2)))
                    .isCloseTo(Double.parseDouble(measured), within(1e-10));
        }
    }

    @Test
    void theBandsAddUpToTheWhitePoint() {
        double[] white = {Xyz.WHITE_X, 1, Xyz.WHITE_Z};
        for (int c = 0; c < 3; c++) {
            double sum = 0;
            for (double each : Bands.WEIGHTS[c]) {
                sum += each;
            }
            assertThat(sum).isCloseTo(white[c], within(1e-15));
        }
    }

    @Test
    void aBackingsReflectanceHasTheColourItWasMadeFor() {
        for (Lab lab : new Lab[] {new Lab(95, 0, 2), new Lab(22, 0, 0), new Lab(70, 6, 20), new Lab(50, 0, 0)}) {
            double[] reflectance = Bands.reflectance(Xyz.of(lab));
            double[] sum = new double[3];
            for (int c = 0; c < 3; c++) {
                for (int b = 0; b < B; b++) {
                    sum[c] += Bands.WEIGHTS[c][b] * reflectance[b];
                }
            }
            Lab back = new Xyz(sum[0], sum[1], sum[2]).lab();
            assertThat(back.l()).isCloseTo(lab.l(), within(1e-9));
            assertThat(back.a()).isCloseTo(lab.a(), within(1e-9));
            assertThat(back.b()).isCloseTo(lab.b(), within(1e-9));
        }
        // A grey is the same in every band.
        for (double each : Bands.reflectance(Xyz.of(new Lab(50, 0, 0)))) {
            assertThat(each).isCloseTo(Math.pow(66.0 / 116, 3), within(1e-9));
        }
    }

    @Test
    void pastHidingTheBackingNoLongerShows() {
        double[] k = filled(2);
        double[] s = filled(5);
        Optics optics = new Optics();
        optics.look(k, s, 8, Bands.reflectance(Xyz.of(new Lab(95, 0, 2))), FACE);
        Lab white = optics.asLab();
        optics.look(k, s, 8, Bands.reflectance(Xyz.of(new Lab(22, 0, 0))), FACE);
        assertThat(optics.lab[0]).isCloseTo(white.l(), within(1e-9));
        // K/S = (1 − R)²/2R of the hiding layer: Kubelka and Munk 1931.
        double r = Layer.reflectance(2, 5, 8, 0.3);
        assertThat((1 - r) * (1 - r) / (2 * r)).isCloseTo(2.0 / 5, within(1e-12));
    }

    @Test
    void everySlopeIsWhatASmallStepShows() {
        Random random = new Random(11);
        for (int i = 0; i < 200; i++) {
            double[] k = new double[B];
            double[] s = new double[B];
            for (int b = 0; b < B; b++) {
                k[b] = Math.exp(-6 + 7 * random.nextDouble());
                s[b] = Math.exp(-8 + 8 * random.nextDouble());
            }
            double depth = Math.exp(4 * random.nextDouble() - 1);
            double[] backing = Bands.reflectance(Xyz.of(new Lab(20 + 75 * random.nextDouble(), 0, 5)));
            double k2 = 0.4 + 0.3 * random.nextDouble();
            double detour = 0.8 * random.nextDouble() - 0.2;
            Common common = new Common(k2, detour);
            Optics at = new Optics();
            at.lookWithSlopes(k, s, depth, backing, common);
            int b = random.nextInt(B);
            for (int c = 0; c < 3; c++) {
                int row = c;
                double step = 1e-5 * k[b];
                assertThat(at.byK[c * B + b])
                        .isCloseTo(
                                slope(e -> labOf(with(k, b, e), s, depth, backing, common)[row], step),
                                nearly(at.byK[c * B + b]));
                double stepS = 1e-5 * s[b];
                assertThat(at.byS[c * B + b])
                        .isCloseTo(
                                slope(e -> labOf(k, with(s, b, e), depth, backing, common)[row], stepS),
                                nearly(at.byS[c * B + b]));
                assertThat(at.byK2[c])
                        .isCloseTo(
                                slope(e -> labOf(k, s, depth, backing, new Common(k2 + e, detour))[row], 1e-6),
                                nearly(at.byK2[c]));
                assertThat(at.byDetour[c])
                        .isCloseTo(
                                slope(e -> labOf(k, s, depth, backing, new Common(k2, detour + e))[row], 1e-6),
                                nearly(at.byDetour[c]));
            }
        }
    }

    private static org.assertj.core.data.Offset<Double> nearly(double slope) {
        return within(1e-5 * Math.abs(slope) + 1e-5);
    }

    private static double slope(java.util.function.DoubleUnaryOperator at, double step) {
        return (at.applyAsDouble(step) - at.applyAsDouble(-step)) / (2 * step);
    }

    private static double[] labOf(double[] k, double[] s, double depth, double[] backing, Common common) {
        Optics optics = new Optics();
        optics.look(k, s, depth, backing, common);
        return optics.lab;
    }

    private static double[] with(double[] values, int at, double more) {
        double[] with = values.clone();
        with[at] += more;
        return with;
    }

    private static double[] filled(double value) {
        double[] filled = new double[B];
        java.util.Arrays.fill(filled, value);
        return filled;
    }
}
