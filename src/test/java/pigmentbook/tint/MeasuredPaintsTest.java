package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Backing;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Srgb;
import pigmentbook.tint.Simulated.Chip;
import pigmentbook.tint.Simulated.Read;

/**
 * The stated bound against paints that somebody mixed and measured; sources and licences stand in
 * {@code tint/measured_paints.csv}. The tables do not say how thick the paint was; it is taken for 20 % of pigment, 1
 * mm thick, over white, which hides.
 */
class MeasuredPaintsTest {

    private static final int PAINTS = 3;
    private static final double PIGMENT_PERCENT = 20;
    private static final double DEPTH_MM = 1;

    /** What was read itself lies within its bound, but for the one reading that its mixes contradict. */
    @Test
    void theReadingsThemselvesLieWithinTheBound() throws IOException {
        Tints tints = tints(chip -> true);
        Backing white = new Backing(null, new Simulated(1, PAINTS).backingLab[0]);
        int within = 0;
        List<Read> all = read();
        for (Read each : all) {
            Look look = tints.look(each.chip().loadings(), "clear", DEPTH_MM, white);
            within += Ciede2000.between(look.lab(), each.lab()) <= look.spreadDe00() ? 1 : 0;
        }
        assertThat((double) within / all.size()).isBetween(0.85, 1.0);
    }

    private static Tints tints(Predicate<Chip> known) throws IOException {
        return Tints.fit(
                new Simulated(1, PAINTS)
                        .book(read().stream()
                                .filter(each -> known.test(each.chip()))
                                .toList()),
                Optional.empty());
    }

    static boolean even(Chip chip) {
        return chip.percents()[0] == chip.percents()[1];
    }

    /** Returns the part within the bound of the readings that a fit of the known ones did not see. */
    static double within(Predicate<Chip> known) throws IOException {
        Tints tints = tints(known);
        Backing white = new Backing(null, new Simulated(1, PAINTS).backingLab[0]);
        int within = 0;
        int count = 0;
        for (Read each : read()) {
            if (!known.test(each.chip())) {
                Look look = tints.look(each.chip().loadings(), "clear", DEPTH_MM, white);
                within += Ciede2000.between(look.lab(), each.lab()) <= look.spreadDe00() ? 1 : 0;
                count++;
            }
        }
        return (double) within / count;
    }

    private static List<Read> read() throws IOException {
        List<Read> read = new ArrayList<>();
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(MeasuredPaintsTest.class.getResourceAsStream("/tint/measured_paints.csv")),
                StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (line.startsWith("historic,")) {
                    String[] cells = line.split(",", -1);
                    read.add(new Read(
                            chip(cells),
                            Srgb.lab(
                                    Integer.parseInt(cells[PAINTS + 1]),
                                    Integer.parseInt(cells[PAINTS + 2]),
                                    Integer.parseInt(cells[PAINTS + 3]))));
                }
            }
        }
        return read;
    }

    private static Chip chip(String[] cells) {
        List<Integer> pigments = new ArrayList<>();
        double sum = 0;
        for (int p = 0; p < PAINTS; p++) {
            double parts = Double.parseDouble(cells[p + 1]);
            sum += parts;
            if (parts > 0) {
                pigments.add(p);
            }
        }
        double all = sum;
        return new Chip(
                pigments.stream().mapToInt(p -> p).toArray(),
                pigments.stream()
                        .mapToDouble(p -> PIGMENT_PERCENT * Double.parseDouble(cells[p + 1]) / all)
                        .toArray(),
                DEPTH_MM,
                0);
    }
}
