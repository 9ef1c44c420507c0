package pigmentbook.mold;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.opencsv.CSVReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import pigmentbook.quantity.Length;

/** Our shapes against {@code mensuration.csv}; the source of each row stands in its name. */
class MensurationReferenceTest {

    /** The table's own tolerance for its formula rows. */
    private static final double RELATIVE = 1e-12;

    private record Row(String id, double exact, String published, String source) {}

    private static final Map<String, Row> TABLE = new HashMap<>();

    @BeforeAll
    static void read() throws IOException {
        try (Reader text = new InputStreamReader(
                        MensurationReferenceTest.class.getResourceAsStream("/mold/mensuration.csv"),
                        StandardCharsets.UTF_8);
                CSVReader rows = new CSVReader(text)) {
            for (String[] row : rows) {
                if (!row[0].startsWith("#") && !row[0].equals("id")) {
                    TABLE.put(row[0], new Row(row[0], Double.parseDouble(row[5]), row[8], row[9]));
                }
            }
        }
    }

    private static Length mm(double mm) {
        return Length.ofMm(mm);
    }

    private static Shape.TaperedBox frustum(double l1, double w1, double l2, double w2, double h) {
        return new Shape.TaperedBox(mm(l2), mm(w2), mm(l1), mm(w1), mm(h));
    }

    private static double fullMm3(Shape shape) {
        return shape.volumeMm3To(shape.depth().mm());
    }

    @TestFactory
    List<DynamicTest> volumesComeOutAsInTheTable() {
        Map<String, Double> ours = new HashMap<>();
        ours.put("box", fullMm3(new Shape.Box(mm(12), mm(4), mm(6))));
        ours.put("cyl", fullMm3(new Shape.Cylinder(mm(24), mm(24))));
        ours.put("hemi7", fullMm3(new Shape.Dome(mm(14), mm(7))));
        ours.put("frustum_sq_nc", fullMm3(frustum(50, 50, 40, 40, 50)));
        ours.put("frustum_moscow", fullMm3(frustum(4, 4, 2, 2, 6)));
        ours.put("prismoid_nc", fullMm3(frustum(20, 30, 30, 40, 30)));
        ours.put("trapprism_sz", fullMm3(frustum(50, 60, 30, 60, 20)));
        ours.put("conefr_true", fullMm3(new Shape.Cone(mm(20 / Math.PI), mm(30 / Math.PI), mm(10))));
        ours.put("cap_bowl", fullMm3(new Shape.Dome(mm(16), mm(4))));
        ours.put("mould_draft", fullMm3(frustum(300, 200, 320, 220, 40)));
        ours.put("cone_cup", fullMm3(new Shape.Cone(mm(80), mm(60), mm(90))));
        return ours.entrySet().stream()
                .map(entry -> named(entry.getKey(), entry.getValue()))
                .toList();
    }

    private static DynamicTest named(String id, double ours) {
        Row row = TABLE.get(id);
        return DynamicTest.dynamicTest(
                id + (row.published.isEmpty() ? " (derived)" : " (" + row.source + ")"),
                () -> assertThat(ours).isCloseTo(row.exact, within(row.exact * RELATIVE)));
    }

    @TestFactory
    List<DynamicTest> areasFromOffsetsComeOutAsInTheTable() {
        return List.of(
                named("off_trap_7", StationRules.trapezoid(6, widths("0|2.40|3.80|5.60|6.20|4.80|3.00"))),
                named("off_simp_7", StationRules.simpson(6, widths("0|2.40|3.80|5.60|6.20|4.80|3.00"))),
                named("off_trap_6", StationRules.trapezoid(10, widths("8.50|9.30|7.60|5.20|3.40|1.20"))),
                named("off_simp_5of6", StationRules.simpson(10, widths("8.50|9.30|7.60|5.20|3.40"))),
                named("off_mixed_6", StationRules.simpson(10, widths("8.50|9.30|7.60|5.20|3.40|1.20"))),
                named("off_mixed_8", StationRules.simpson(30, widths("0|2.65|3.80|3.75|4.65|3.60|5.00|5.80"))),
                named("off_sine_trap", StationRules.trapezoid(50, sine())),
                named("off_sine_simp", StationRules.simpson(50, sine())));
    }

    private static double[] widths(String text) {
        return Arrays.stream(text.split("\\|")).mapToDouble(Double::parseDouble).toArray();
    }

    private static double[] sine() {
        double[] widths = new double[9];
        for (int i = 0; i < widths.length; i++) {
            widths[i] = 60 * Math.sin(Math.PI * i * 50 / 400);
        }
        return widths;
    }

    @Test
    void fewerThanThreeWidthsAreTheTrapezoid() {
        assertThat(StationRules.simpson(10, new double[] {4, 6})).isEqualTo(50);
    }

    /** Derived: a segment of two bases of a sphere of radius 10 between radii 8 and 6, in the table. */
    @Test
    void aSliceOfABowlIsTheSegmentOfTwoBases() {
        // The bowl of radius 10 reaches radius 6 at height 2 and radius 8 at height 4.
        Shape.Dome bowl = new Shape.Dome(mm(20), mm(10));
        double slice = bowl.volumeMm3To(4) - bowl.volumeMm3To(2);
        assertThat(slice).isCloseTo(TABLE.get("seg2").exact, within(1e-9));
    }
}
