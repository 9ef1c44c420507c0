package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.opencsv.CSVReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.quantity.Density;

/** The ratio, density and batch figures of {@code mix_ratio.csv}; the source of each row is named there. */
class MixRatioReferenceTest {

    /** Half a unit of the last digit that the table prints, which is six decimals. */
    private static final double PRINTED = 1e-6;

    private static final double PRINTED_4 = 1e-4;

    private static final Map<String, Double> TABLE = new HashMap<>();

    @BeforeAll
    static void read() throws IOException {
        try (Reader text = new InputStreamReader(
                        MixRatioReferenceTest.class.getResourceAsStream("/mix/mix_ratio.csv"), StandardCharsets.UTF_8);
                CSVReader rows = new CSVReader(text)) {
            for (String[] row : rows) {
                if (!row[0].startsWith("#") && !row[0].equals("id")) {
                    TABLE.put(row[0], Double.valueOf(row[3]));
                }
            }
        }
    }

    private static Studio studio(String ratio, boolean byVolume, String densityA, String densityB) {
        Studio studio = new Studio();
        studio.ratio = byVolume ? Studio.byVolume(ratio, null, null) : Studio.byWeight(ratio, null, null);
        studio.densityA = Density.parse(densityA + " g/mL");
        studio.densityB = Density.parse(densityB + " g/mL");
        return studio;
    }

    @ParameterizedTest(name = "{1} by volume, {2} and {3} g/mL")
    @CsvSource(textBlock = """
            v2_1,    2:1,    1.16, 0.948
            v1_1,    1:1,    1.15, 0.97
            v3_1,    3:1,    1.12, 1.00
            v4_1,    4:1,    1.13, 0.95
            v100_50, 100:50, 1.10, 1.02
            """)
    void aVolumeRatioBecomesGramsOfPartBTo100GramsOfPartA(String row, String ratio, String a, String b) {
        Mix mix = studio(ratio, true, a, b).resin("1 kg");
        double bTo100A = 100 * mix.totals().partBGrams() / mix.totals().partAGrams();
        assertThat(bTo100A).isCloseTo(TABLE.get(row + "_w"), within(PRINTED));
        assertThat(mix.mixedDensity()).isCloseTo(TABLE.get(row + "_d"), within(PRINTED));
    }

    @ParameterizedTest(name = "{1} by weight, {2} and {3} g/mL")
    @CsvSource(textBlock = """
            w100_30, 100:30,    1.12, 1.00
            w100_22, 100:22.41, 1.16, 0.924
            w100_11, 100:10.86, 1.16, 0.955
            w100_45, 100:45,    1.14, 1.00
            """)
    void aWeightRatioHasTheDensityOfItsVolumesAddedUp(String row, String ratio, String a, String b) {
        Mix mix = studio(ratio, false, a, b).resin("1 kg");
        assertThat(mix.mixedDensity()).isCloseTo(TABLE.get(row + "_d"), within(PRINTED));
        double mlB = mix.totals().partBGrams() / Double.parseDouble(b);
        double mlA = mix.totals().partAGrams() / Double.parseDouble(a);
        assertThat(100 * mlB / mlA).isCloseTo(TABLE.get(row + "_v"), within(PRINTED));
    }

    @ParameterizedTest(name = "{1} by volume")
    @CsvSource(textBlock = """
            mixdens_1_1, 1:1, 1.4, 0.9
            mixdens_6_1, 6:1, 1.3, 0.9
            """)
    void theExerciseSheetsDensitiesComeOut(String row, String ratio, String a, String b) {
        assertThat(studio(ratio, true, a, b).resin("1 kg").mixedDensity()).isCloseTo(TABLE.get(row), within(PRINTED));
    }

    @Test
    void aLitreBy2To1TakesTheTablesGrams() {
        Mix mix = studio("2:1", true, "1.16", "0.948").volume("1000 mL");
        assertThat(mix.totals().partAGrams()).isCloseTo(TABLE.get("batch_1000_A"), within(PRINTED_4));
        assertThat(mix.totals().partBGrams()).isCloseTo(TABLE.get("batch_1000_B"), within(PRINTED_4));
        Mix byWeight = studio("100:30", false, "1.12", "1.00").volume("750 mL");
        assertThat(byWeight.totals().partAGrams()).isCloseTo(TABLE.get("batchw_750_A"), within(PRINTED_4));
        assertThat(byWeight.totals().partBGrams()).isCloseTo(TABLE.get("batchw_750_B"), within(PRINTED_4));
    }

    @Test
    void pigmentComesOnTopOfTheResinAndTakesItsOwnRoom() {
        Studio studio = studio("100:50", false, "1.10", "1.10");
        studio.pigment("white", Pigment.Kind.POWDER, "2 %", "4.2 g/mL");
        Mix mix = studio.resin("500 g");
        double pigment = mix.totals().pigmentGrams().get(Item.of("white"));
        assertThat(pigment).isCloseTo(TABLE.get("pig_mass"), within(PRINTED_4));
        assertThat(100 * pigment / mix.totals().totalGrams()).isCloseTo(TABLE.get("pig_total_frac"), within(PRINTED));
        assertThat(studio.volume("750 mL").totals().mixedResinGrams())
                .isCloseTo(TABLE.get("fill_750"), within(PRINTED_4));
    }

    /**
     * Published pairs of ratios, in trade makers' measuring guides: 2:1 by volume is 100:47 by weight at ρB/ρA 0.94.
     */
    @Test
    void theImpliedDensityRatioOfAPublishedPairGivesThePairBack() {
        Mix mix = studio("2:1", true, "1.00", String.valueOf(TABLE.get("ratio_100_47")))
                .resin("147 g");
        assertThat(mix.totals().partAGrams()).isCloseTo(100, within(PRINTED));
        assertThat(mix.totals().partBGrams()).isCloseTo(47, within(PRINTED));
    }
}
