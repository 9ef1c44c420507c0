package pigmentbook.bench;

import java.io.ByteArrayOutputStream;
import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import pigmentbook.sheet.Filled;
import pigmentbook.sheet.SheetWriters;

/**
 * How long a filled sheet of 204 rows takes to be read back, as a whole process: 34 cups of 6 items of the demo book,
 * every row filled in.
 *
 * <p>Run: {@code mvn -q -DskipTests package}, then {@code mvn -q test-compile exec:exec@program
 * -Dprogram=pigmentbook.bench.ReadBackBench}.
 */
public final class ReadBackBench {

    private static final Path JAR = Path.of("target", "pigment-book.jar");
    private static final int CUPS = 34;
    private static final int ROUNDS = 9;
    private static final List<String> ITEMS =
            List.of("part_A", "amber_paste", "copper_mica", "rust_paste", "smoke_paste", "part_B");

    private ReadBackBench() {}

    /** Prints each format's median and best. */
    public static void main(String[] args) throws Exception {
        Path folder = Files.createTempDirectory("read-back");
        for (SheetWriters.Format format :
                List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS, SheetWriters.Format.CSV)) {
            String ending = format.name().toLowerCase(java.util.Locale.ROOT);
            Path sheet = folder.resolve("sheet." + ending);
            run("mix", "ember", "--total", CUPS * 880 + " g", "--cup", "900 g", "--to", sheet.toString());
            Map<String, Object> typed = new LinkedHashMap<>();
            for (int cup = 1; cup <= CUPS; cup++) {
                for (String item : ITEMS) {
                    typed.put("actual_g_1_" + cup + "_" + item, 12.5);
                }
            }
            Files.write(sheet, Filled.in(format, Files.readAllBytes(sheet), typed));
            double[] seconds = new double[ROUNDS];
            for (int round = -1; round < ROUNDS; round++) {
                long start = System.nanoTime();
                String answer = run("read-back", sheet.toString(), "--format", "json");
                if (answer.split("\"actual\" : \"12.5 g\"|\"actual\":\"12.5 g\"", -1).length
                        != CUPS * ITEMS.size() + 1) {
                    throw new IllegalStateException("not all rows were read: " + answer);
                }
                if (round >= 0) {
                    seconds[round] = (System.nanoTime() - start) / 1e9;
                }
            }
            Arrays.sort(seconds);
            System.out.println(ending + ": median " + Math.round(seconds[ROUNDS / 2] * 100) / 100.0 + " s, best "
                    + Math.round(seconds[0] * 100) / 100.0 + " s, worst "
                    + Math.round(seconds[ROUNDS - 1] * 100) / 100.0 + " s");
        }
    }

    private static String run(String... args) throws Exception {
        java.util.ArrayList<String> command = new java.util.ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-jar", JAR.toString()));
        command.addAll(List.of(args));
        Process process =
                new ProcessBuilder(command).redirectError(new File("/dev/null")).start();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        process.getInputStream().transferTo(out);
        if (process.waitFor() != 0) {
            throw new IllegalStateException(String.join(" ", command) + " failed");
        }
        return out.toString(java.nio.charset.StandardCharsets.UTF_8);
    }
}
