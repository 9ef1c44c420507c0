package pigmentbook.bench;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
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
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.Pour;
import pigmentbook.book.Settings;
import pigmentbook.mix.StockTrail;
import pigmentbook.quantity.Mass;

/**
 * How long stock and where-used take in an open book of 50 000 pours and 2 000 lots: the stock of every lot, and where
 * the one lot went that every pour took from, which is the worst there can be.
 *
 * <p>Run: {@code mvn -q test-compile exec:exec@benchmark -Dbenchmark=StockBenchmark}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(1)
public class StockBenchmark {

    private static final int POURS = 50_000;
    private static final int LOTS = 2_000;
    private static final int RECIPES = 10_000;
    private static final int WEIGHINGS = 6;

    private Book book;
    private Lot everywhere;
    private Lot usual;

    @Setup
    public void book() {
        Random random = new Random(1);
        List<Lot> lots = new ArrayList<>();
        for (int i = 0; i < LOTS; i++) {
            Lot.Correction spilled = new Lot.Correction(LocalDate.of(2026, 1, 1), Mass.parseChange("-5 g"), "spilled");
            lots.add(new Lot(
                    "L-" + i,
                    "pigment-" + i % 100,
                    null,
                    "",
                    LocalDate.of(2026, 1, 1),
                    null,
                    null,
                    Mass.parse("9000 kg"),
                    null,
                    null,
                    null,
                    null,
                    List.of(spilled),
                    List.of()));
        }
        List<Pour> pours = new ArrayList<>();
        for (int i = 0; i < POURS; i++) {
            List<Pour.Weighed> weighed = new ArrayList<>();
            for (int k = 0; k < WEIGHINGS; k++) {
                int lot = k == 0 ? 0 : 1 + random.nextInt(LOTS - 1);
                Mass grams = Mass.parse(random.nextInt(1, 500) + " g");
                weighed.add(new Pour.Weighed(Item.of("pigment-" + lot % 100), "L-" + lot, grams, grams));
            }
            LocalDateTime started = LocalDateTime.of(2026, 1, 1, 8, 0).plusMinutes(i);
            String recipe = "recipe-" + random.nextInt(RECIPES);
            pours.add(new Pour(
                    started.toLocalDate() + "-" + recipe + "-" + i,
                    recipe,
                    1,
                    null,
                    Pour.Kind.PIECE,
                    started,
                    "",
                    null,
                    null,
                    List.of(new Pour.Layer(null, List.of(new Pour.Cup(weighed)))),
                    null,
                    null,
                    List.of(),
                    List.of()));
        }
        book = new Book(Settings.unstated(), List.of(), List.of(), lots, List.of(), List.of(), pours);
        everywhere = lots.get(0);
        usual = lots.get(LOTS / 2);
    }

    /** The stock of all lots, with the pours that took from each. */
    @Benchmark
    public double stock() {
        double left = 0;
        for (Lot lot : book.lots().values()) {
            Book.Stock stock = book.stockOf(lot);
            left += stock.leftGrams() + stock.pourIds().size();
        }
        return left;
    }

    /** The pours and the recipes of one lot. */
    @Benchmark
    public int whereUsed() {
        return book.whereUsed(everywhere).pourIds().size()
                + book.whereUsed(everywhere).recipeIds().size();
    }

    /** Each step of a usual lot's stock, as its page shows it: some 125 pours. */
    @Benchmark
    public int trail() {
        return StockTrail.of(book, usual).size();
    }
}
