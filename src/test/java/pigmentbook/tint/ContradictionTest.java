package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Book;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;

/** Two readings of one mix that can't both be right are named together, each with what all readings make of it. */
class ContradictionTest {

    private static final double[] RUNGS = {0.1, 0.4, 1.5};

    private final Simulated studio = new Simulated(21, 4);
    private final List<Simulated.Read> read = studio.readings(studio.ladders(RUNGS, 3, 10), 0.2);

    private static Lab moved(Lab lab, double l) {
        return new Lab(lab.l() + (lab.l() > 50 ? -l : l), lab.a(), lab.b());
    }

    private Tints fit() {
        return Tints.fit(studio.book(read), Optional.empty());
    }

    @Test
    void readingsThatAgreeContradictNobody() {
        read.addAll(studio.readings(studio.ladders(RUNGS, 3, 10), 0.2));
        assertThat(fit().contradictions()).isEmpty();
    }

    @Test
    void bothSidesAreNamedAndTheMistakenOneIsFartherFromTheRest() {
        Simulated.Read right = read.get(5);
        Simulated.Chip chip = right.chip();
        Simulated.Chip again =
                new Simulated.Chip(chip.pigments(), new double[] {chip.percents()[0] * 1.02}, 3.05, chip.backing());
        assertThat(chip.depthMm()).isIn(3.0, 10.0);
        Simulated.Chip same = chip.depthMm() == 3 ? again : chip;
        Lab mistaken = moved(right.lab(), 15);
        read.add(new Simulated.Read(same, mistaken));
        List<Contradiction> found = fit().contradictions();
        assertThat(found).hasSize(1);
        Contradiction pair = found.get(0);
        assertThat(pair.first().pourId()).isEqualTo("2026-01-01-chip-100005");
        assertThat(pair.first().lab()).isEqualTo(right.lab());
        assertThat(pair.second().pourId()).isEqualTo("2026-01-01-chip-" + (100_000 + read.size() - 1));
        assertThat(pair.second().reading()).isZero();
        assertThat(pair.second().lab()).isEqualTo(mistaken);
        assertThat(pair.deltaE00()).isCloseTo(Ciede2000.between(right.lab(), mistaken), within(1e-12));
        assertThat(pair.second().deltaE00()).isGreaterThan(2 * pair.first().deltaE00());
        assertThat(Ciede2000.between(pair.first().predicted(), studio.look(chip)))
                .isLessThan(3);
    }

    @Test
    void anotherLoadingDepthOrBackingIsNoContradiction() {
        Simulated.Read right = read.get(4);
        Simulated.Chip chip = right.chip();
        Lab other = moved(right.lab(), 15);
        double percent = chip.percents()[0];
        read.add(new Simulated.Read(
                new Simulated.Chip(chip.pigments(), new double[] {1.2 * percent}, chip.depthMm(), chip.backing()),
                other));
        read.add(new Simulated.Read(
                new Simulated.Chip(chip.pigments(), new double[] {percent}, 1.2 * chip.depthMm(), chip.backing()),
                other));
        read.add(new Simulated.Read(
                new Simulated.Chip(chip.pigments(), new double[] {percent}, chip.depthMm(), 2), other));
        assertThat(fit().contradictions()).isEmpty();
    }

    /** Of three readings of one mix, one wrong, it contradicts both others; the order of the files changes nothing. */
    @Test
    void theOddOneOfThreeStandsInEveryPair() {
        Simulated.Read right = read.get(8);
        read.add(studio.read(right.chip(), 0.2));
        read.add(new Simulated.Read(right.chip(), moved(right.lab(), 20)));
        String odd = "2026-01-01-chip-" + (100_000 + read.size() - 1);
        Book book = studio.book(read);
        List<Contradiction> found = Tints.fit(book, Optional.empty()).contradictions();
        assertThat(found).hasSize(2).allMatch(pair -> pair.second().pourId().equals(odd));
        Book shuffled = Simulated.inAnotherOrder(book, 2);
        assertThat(Tints.fit(shuffled, Optional.empty()).contradictions()).isEqualTo(found);
    }
}
