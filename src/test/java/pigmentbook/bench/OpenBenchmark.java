package pigmentbook.bench;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import pigmentbook.store.BookFolder;
import pigmentbook.store.Opened;

/**
 * How long a book of 10 000 recipes and 50 000 pours takes to open, beside bare Jackson reading the same files one
 * after the other, and how much memory it holds.
 *
 * <p>Run: {@code mvn -q test-compile exec:exec@program -Dprogram=pigmentbook.bench.OpenBenchmark}. It writes the book
 * into a temporary folder and takes it away again.
 */
public final class OpenBenchmark {

    private static final int RECIPES = 10_000;
    private static final int POURS = 50_000;
    private static final int ROUNDS = 5;

    private OpenBenchmark() {}

    /** Prints the two times, their ratio and the memory held. */
    public static void main(String[] args) throws Exception {
        Path book = Files.createTempDirectory("large-book");
        try {
            write(book);
            List<Path> files;
            try (Stream<Path> all = Files.walk(book)) {
                files = all.filter(each -> each.toString().endsWith(".json")).toList();
            }
            ObjectMapper bare = new ObjectMapper();
            double[] ours = new double[ROUNDS];
            double[] theirs = new double[ROUNDS];
            double[] ratios = new double[ROUNDS];
            Opened opened = null;
            for (int round = -1; round < ROUNDS; round++) {
                long start = System.nanoTime();
                for (Path file : files) {
                    bare.readTree(Files.readAllBytes(file));
                }
                long middle = System.nanoTime();
                opened = null;
                opened = new BookFolder(book).open();
                long end = System.nanoTime();
                if (round >= 0) {
                    theirs[round] = (middle - start) / 1e9;
                    ours[round] = (end - middle) / 1e9;
                    ratios[round] = ours[round] / theirs[round];
                }
            }
            Runtime runtime = Runtime.getRuntime();
            System.gc();
            long held = (runtime.totalMemory() - runtime.freeMemory()) / 1_000_000;
            System.out.println(String.format(
                    Locale.ROOT,
                    "%d files: bare Jackson %.2f s, the book %.2f s, ratio %.2f (medians of %d); %d MB held, %d problems, most heap %d MB",
                    files.size(),
                    median(theirs),
                    median(ours),
                    median(ratios),
                    ROUNDS,
                    held,
                    opened.problems().size(),
                    runtime.maxMemory() / 1_000_000));
        } finally {
            try (Stream<Path> all = Files.walk(book)) {
                List<Path> backwards = new ArrayList<>(all.toList());
                java.util.Collections.reverse(backwards);
                for (Path each : backwards) {
                    Files.delete(each);
                }
            }
        }
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private static void write(Path book) throws IOException {
        for (String name : List.of("shelf", "molds", "book.json")) {
            try (Stream<Path> all = Files.walk(Path.of("recipes", name))) {
                all.forEach(each -> copy(each, book.resolve(Path.of("recipes").relativize(each))));
            }
        }
        String recipe =
                Files.readString(Path.of("recipes/ember.json")).replaceAll("\"look\": [^\n]*\n", "\"look\": null,\n");
        String pour = Files.readString(Path.of("recipes/pours/2026/2026-10-06-ember-1.json"));
        for (int i = 0; i < RECIPES; i++) {
            Files.writeString(
                    book.resolve("ember-" + i + ".json"),
                    recipe.replace("\"id\": \"ember\"", "\"id\": \"ember-" + i + "\""));
        }
        for (int i = 0; i < POURS; i++) {
            String year = String.valueOf(2000 + i / 2500);
            Path folder = Files.createDirectories(book.resolve("pours").resolve(year));
            String id = year + "-01-01-ember-" + i;
            Files.writeString(
                    folder.resolve(id + ".json"),
                    pour.replace("2026-10-06-ember-1", id)
                            .replace("\"recipe\": \"ember\"", "\"recipe\": \"ember-" + i % RECIPES + "\""));
        }
    }

    private static void copy(Path from, Path to) {
        try {
            Files.copy(from, to);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
