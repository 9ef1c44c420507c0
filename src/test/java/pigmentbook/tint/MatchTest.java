package pigmentbook.tint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Backing;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;

/** Colours that a made-up studio's own mixes have, matched; what the answers really look like is known. */
class MatchTest {

    private static final double[] TWELVE = {0.1, 0.4, 1.5};
    private static Simulated simulated;
    private static Tints tints;

    @BeforeAll
    static void studio() {
        simulated = new Simulated(21, 12);
        tints = Tints.fit(simulated.book(simulated.readings(simulated.ladders(TWELVE, 3, 10), 0.3)), Optional.empty());
    }

    private static Backing over(Simulated.Chip chip) {
        return new Backing(null, simulated.backingLab[chip.backing()]);
    }

    private static MatchRequest request(Simulated.Chip chip, int most, int count, List<String> pigments) {
        return new MatchRequest(
                simulated.look(chip), chip.depthMm(), over(chip), "clear", pigments, most, count, loadings -> null);
    }

    private static Lab truth(MatchAnswer answer, Simulated.Chip chip) {
        int[] pigments = answer.loadings().stream()
                .mapToInt(each -> IntStream.range(0, simulated.k.length)
                        .filter(p -> Simulated.id(p).equals(each.pigmentId()))
                        .findFirst()
                        .orElseThrow())
                .toArray();
        double[] percents =
                answer.loadings().stream().mapToDouble(Loading::percent).toArray();
        return simulated.look(new Simulated.Chip(pigments, percents, chip.depthMm(), chip.backing()));
    }

    /** On the average over colours; a mix's own error is that of foretelling the very recipe the colour came from. */
    @Test
    void theBestAnswerIsAboutAsGoodAsTheRecipeTheColourCameFrom() {
        double own = 0;
        double best = 0;
        int colours = 30;
        for (int i = 0; i < colours; i++) {
            Simulated.Chip chip = simulated.mix(3);
            Lab target = simulated.look(chip);
            own += simulated.miss(
                    chip,
                    tints.look(chip.loadings(), "clear", chip.depthMm(), over(chip))
                            .lab());
            MatchAnswer answer =
                    Match.find(tints, request(chip, 3, 5, List.of())).get(0);
            best += Ciede2000.between(truth(answer, chip), target);
        }
        assertThat(best / colours).isLessThan(own / colours + 0.3);
    }

    @Test
    void answersKeepTheirBoundsAndTheirOrderAndDiffer() {
        for (int i = 0; i < 10; i++) {
            Simulated.Chip chip = simulated.mix(3);
            List<MatchAnswer> answers = Match.find(tints, request(chip, 3, 8, List.of()));
            assertThat(answers).hasSizeGreaterThan(3);
            assertThat(answers.stream()
                            .map(each -> each.loadings().stream()
                                    .map(Loading::pigmentId)
                                    .toList()))
                    .doesNotHaveDuplicates();
            for (MatchAnswer each : answers) {
                assertThat(each.loadings()).hasSizeBetween(1, 3);
                double sum = 0;
                for (Loading loading : each.loadings()) {
                    assertThat(loading.percent()).isPositive();
                    int pigment = IntStream.range(0, 12)
                            .filter(p -> Simulated.id(p).equals(loading.pigmentId()))
                            .findFirst()
                            .orElseThrow();
                    assertThat(loading.percent()).isLessThanOrEqualTo(simulated.top[pigment]);
                    sum += loading.percent();
                }
                assertThat(sum).isLessThanOrEqualTo(8); // the made-up resin's own top loading
                Look look = tints.look(each.loadings(), "clear", chip.depthMm(), over(chip));
                assertThat(each.lab()).isEqualTo(look.lab());
                assertThat(each.dE00()).isEqualTo(Ciede2000.between(simulated.look(chip), look.lab()));
            }
            for (int j = 1; j < answers.size(); j++) {
                double before = Math.ceil(answers.get(j - 1).dE00() / 0.5);
                double after = Math.ceil(answers.get(j).dE00() / 0.5);
                assertThat(before).isLessThanOrEqualTo(after);
                if (before == after) {
                    assertThat(answers.get(j - 1).spreadDe00())
                            .isLessThanOrEqualTo(answers.get(j).spreadDe00());
                }
            }
        }
    }

    @Test
    void onlyTheNamedPigmentsAreUsedAndCostIsAskedForThem() {
        Simulated.Chip chip = simulated.mix(2);
        List<String> two = List.of(Simulated.id(1), Simulated.id(5));
        MatchRequest asked = request(chip, 4, 9, two);
        MatchRequest priced =
                new MatchRequest(asked.target(), asked.depthMm(), asked.backing(), "clear", two, 4, 9, loadings ->
                        (double) loadings.size());
        List<MatchAnswer> answers = Match.find(tints, priced);
        assertThat(answers).isNotEmpty().hasSizeLessThanOrEqualTo(3).allSatisfy(answer -> {
            assertThat(two)
                    .containsAll(
                            answer.loadings().stream().map(Loading::pigmentId).toList());
            assertThat(answer.cost()).isEqualTo((double) answer.loadings().size());
        });
    }

    @Test
    void whatCannotBeMatchedIsToldWhy() {
        Simulated.Chip chip = simulated.mix(2);
        assertThatThrownBy(() -> Match.find(tints, request(chip, 3, 5, List.of("pigment-az"))))
                .isInstanceOf(TintRefusedException.class)
                .hasMessageStartingWith("The pigment \"pigment-az\" has no reading yet, so nobody knows its colour.");
        assertThatThrownBy(() -> Match.find(tints, request(chip, 7, 5, List.of())))
                .hasMessage("At most 7 pigments in 5 answers can't be; 1 to 6 pigments and at least 1 answer were"
                        + " expected.");
        Tints none = Tints.fit(simulated.book(List.of()), Optional.empty());
        assertThatThrownBy(() -> Match.find(none, request(chip, 3, 5, List.of())))
                .hasMessageStartingWith("No pigment has a reading yet, so there is nothing to match with.");
    }

    /** A sample with a sixth too little of one pigment and a quarter too much of the other is put right. */
    @Test
    void aCorrectionUndoesWhatWasWeighedWrong() {
        Simulated.Chip right = new Simulated.Chip(new int[] {1, 2}, new double[] {0.6, 0.5}, 6, 0);
        Simulated.Chip sample = new Simulated.Chip(new int[] {1, 2}, new double[] {0.5, 0.625}, 6, 0);
        Correction correction = Correction.of(
                tints, "clear", sample.loadings(), 6, over(sample), simulated.look(sample), simulated.look(right));
        Simulated.Chip corrected = new Simulated.Chip(
                new int[] {1, 2},
                correction.changes().stream()
                        .mapToDouble(Correction.Change::toPercent)
                        .toArray(),
                6,
                0);
        double before = Ciede2000.between(simulated.look(sample), simulated.look(right));
        assertThat(simulated.miss(corrected, simulated.look(right))).isLessThan(before / 5);
        assertThat(correction.dE00()).isLessThan(0.1);
        assertThat(correction.changes().get(0).toPercent()).isCloseTo(0.6, within(0.04));
        assertThat(correction.changes().get(1).toPercent()).isCloseTo(0.5, within(0.04));
        // Nothing can be taken out of a cup: adding alone never lowers a loading, and can't be nearer.
        assertThat(correction.adding())
                .allSatisfy(each -> assertThat(each.toPercent()).isGreaterThanOrEqualTo(each.fromPercent()));
        assertThat(correction.dE00Adding()).isGreaterThanOrEqualTo(correction.dE00() - 1e-6);
    }

    @Test
    void whereOnlySomethingIsMissingAddingIsEnough() {
        Simulated.Chip right = new Simulated.Chip(new int[] {1, 2}, new double[] {0.6, 0.5}, 6, 0);
        Simulated.Chip weak = new Simulated.Chip(new int[] {1, 2}, new double[] {0.5, 0.4}, 6, 0);
        Correction correction = Correction.of(
                tints, "clear", weak.loadings(), 6, over(weak), simulated.look(weak), simulated.look(right));
        assertThat(correction.isAddingEnough()).isTrue();
        assertThatThrownBy(() -> Correction.of(
                        tints, "clear", List.of(), 6, over(weak), simulated.look(weak), simulated.look(right)))
                .hasMessage("There is no pigment in this mix to change. Add one that has a reading.");
    }
}
