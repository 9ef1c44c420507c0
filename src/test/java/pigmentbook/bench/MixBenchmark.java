package pigmentbook.bench;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Mold;
import pigmentbook.book.Pigment;
import pigmentbook.book.Range;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;
import pigmentbook.mix.Mix;
import pigmentbook.mix.MixRequest;
import pigmentbook.mix.Mixer;
import pigmentbook.mold.Cavity;
import pigmentbook.mold.Insert;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Duration;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Ratio;
import pigmentbook.quantity.Temperature;

/**
 * How long one mix takes: 6 pigments, 5 layers, lots for all, everything worked out anew.
 *
 * <p>Run: {@code mvn -q test-compile exec:exec@benchmark -Dbenchmark=MixBenchmark}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(1)
public class MixBenchmark {

    private Book book;
    private Recipe recipe;
    private MixRequest request;

    @Setup
    public void book() {
        List<Pigment> pigments = new ArrayList<>();
        List<Lot> lots = new ArrayList<>();
        List<Recipe.PigmentLoading> loadings = new ArrayList<>();
        for (int i = 1; i <= 6; i++) {
            String id = "pigment-" + i;
            Pigment.Carrier carrier = i % 2 == 0 ? new Pigment.Carrier(true, Percent.parse("60 %")) : null;
            pigments.add(new Pigment(
                    id,
                    "Pigment " + i,
                    Pigment.Kind.PASTE,
                    Density.parse("1.25 g/mL"),
                    Percent.parse("5 %"),
                    null,
                    carrier,
                    null,
                    ""));
            loadings.add(new Recipe.PigmentLoading(id, Percent.parse("0." + i + " %")));
            lots.add(lot("P-" + i, id, null));
        }
        lots.add(lot("A-1", "slow", Lot.Part.A));
        lots.add(lot("B-1", "slow", Lot.Part.B));
        Resin resin = new Resin(
                "slow",
                "Slow resin",
                new MixRatio(MixRatio.By.VOLUME, Ratio.parse("2:1"), null),
                null,
                Density.parse("1.15 g/mL"),
                Density.parse("0.96 g/mL"),
                null,
                new Range<>(Length.parse("3 mm"), Length.parse("10 mm")),
                Mass.parse("1.5 kg"),
                Duration.parse("40 min"),
                Temperature.parse("22 C"),
                Mass.parse("100 g"),
                new Range<>(Duration.parse("6 h"), Duration.parse("24 h")),
                Duration.parse("48 h"),
                Duration.parse("7 d"),
                Range.open(),
                null,
                Percent.parse("6 %"),
                null,
                null,
                "");
        Mold mold = new Mold(
                "panel",
                "Panel",
                new Cavity(
                        new Shape.Box(Length.parse("560 mm"), Length.parse("280 mm"), Length.parse("55 mm")),
                        Length.parse("50 mm"),
                        List.of(new Insert(
                                "ash strip",
                                new Shape.Box(Length.parse("500 mm"), Length.parse("45 mm"), Length.parse("24 mm")),
                                Length.parse("0 mm"),
                                2)),
                        null),
                null,
                1,
                "");
        recipe = new Recipe(
                "colour",
                "Colour",
                List.of(),
                List.of(new Recipe.Revision(1, null, "slow", Recipe.PercentOf.MIXED_RESIN, loadings, "")),
                List.of(),
                null,
                "");
        book = new Book(Settings.unstated(), List.of(resin), pigments, lots, List.of(mold), List.of(recipe), List.of());
        request = MixRequest.of(new MixRequest.ForMold("panel", null), LocalDate.of(2026, 11, 25));
    }

    private static Lot lot(String id, String of, Lot.Part part) {
        return new Lot(
                id, of, part, "", null, null, null, Mass.parse("50 kg"), null, null, null, null, List.of(), List.of());
    }

    /** Works the mix out. */
    @Benchmark
    public Mix mix() {
        return Mixer.mix(book, recipe, recipe.current(), request);
    }
}
