package pigmentbook.bench;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Entries at the bench of the packaged program: how long until one is on the disk and acknowledged, and whether any
 * acknowledged one is lost when the program is killed at a moment drawn by chance. The first argument says how many
 * times it is killed; 200 without one.
 */
public final class BenchEntries {

    private static final Path JAR = Path.of("target/pigment-book.jar");
    private static final int TIMED = 2_000;
    private static final int WARM = 500;
    private static final int A_POUR = 400;

    private final HttpClient client =
            HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(5)).build();
    private final Path book;
    private final Random random = new Random(5);
    private final Set<String> acknowledged = new HashSet<>();
    private Process process;
    private String url = "";
    private String token = "";
    private String pour = "";
    private int number;

    private BenchEntries(Path book) {
        this.book = book;
        this.process = null;
    }

    /** Runs it. */
    public static void main(String[] args) throws Exception {
        Path book = Files.createTempDirectory("bench-entries");
        copy(Path.of("recipes"), book);
        BenchEntries bench = new BenchEntries(book);
        bench.timed();
        bench.killed(args.length > 0 ? Integer.parseInt(args[0]) : 200);
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Path target = to.resolve(from.relativize(file).toString());
                if (Files.isDirectory(file)) {
                    Files.createDirectories(target);
                } else {
                    Files.copy(file, target);
                }
            }
        }
    }

    private void start() throws IOException, InterruptedException {
        process = new ProcessBuilder(
                        "java",
                        "-jar",
                        JAR.toString(),
                        "--book",
                        book.toString(),
                        "open",
                        "--port",
                        "0",
                        "--no-browser")
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        BufferedReader lines =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
        url = lines.readLine();
        token = client.send(
                        HttpRequest.newBuilder(URI.create(url + "token")).build(), HttpResponse.BodyHandlers.ofString())
                .body();
    }

    private HttpResponse<String> post(String path, String body) throws IOException, InterruptedException {
        return client.send(
                HttpRequest.newBuilder(URI.create(url + path))
                        .header("X-Book-Token", token)
                        .timeout(Duration.ofSeconds(10))
                        .POST(HttpRequest.BodyPublishers.ofString(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    private void begin() throws IOException, InterruptedException {
        pour = post("recipes/ember/bench?lead=total&total=500+g&cup=1500+g", "")
                .body()
                .split("/")[2];
    }

    /** Enters a weighing; an id is kept as acknowledged only once the answer is there. */
    private void enter() throws IOException, InterruptedException {
        String id = "e" + number++;
        String body = "{\"device\":\"one\",\"base\":0,\"ago\":0,\"entries\":[{\"id\":\"" + id
                + "\",\"what\":\"weigh\",\"layer\":1,\"cup\":1,\"item\":\"part A\",\"grams\":\"1.5\",\"lot\":\"A-2409\",\"by\":\"Ida\"}]}";
        HttpResponse<String> answer = post("pours/" + pour + "/log", body);
        if (answer.statusCode() == 200) {
            acknowledged.add(pour + "/" + id);
        }
    }

    private void timed() throws Exception {
        start();
        double[] millis = new double[TIMED];
        for (int i = -WARM; i < TIMED; i++) {
            // A pour has a few dozen entries; its record is begun anew before it grows out of all proportion.
            if (Math.floorMod(i, 60) == 0 || i == -WARM) {
                begin();
            }
            long from = System.nanoTime();
            enter();
            if (i >= 0) {
                millis[i] = (System.nanoTime() - from) / 1e6;
            }
        }
        process.destroy();
        process.waitFor();
        Arrays.sort(millis);
        System.out.printf(
                "an entry on disk and acknowledged: median %.1f ms, 99th percentile %.1f ms of %d%n",
                millis[TIMED / 2], millis[TIMED * 99 / 100], TIMED);
    }

    private void killed(int times) throws Exception {
        acknowledged.clear();
        for (int i = 0; i < times; i++) {
            start();
            begin();
            long until = System.nanoTime() + (long) (random.nextDouble() * 1_800e6);
            Thread killer = new Thread(() -> {
                try {
                    Thread.sleep(Math.max(0, (until - System.nanoTime()) / 1_000_000));
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
                process.destroyForcibly();
            });
            killer.start();
            try {
                for (int entry = 0; entry < A_POUR; entry++) {
                    enter();
                }
            } catch (IOException e) {
                // Killed in the middle of an entry, which nobody acknowledged.
                killer.join();
            }
            killer.join();
            process.waitFor();
        }
        List<String> lost = lost();
        System.out.printf(
                "killed %d times: %d entries acknowledged, %d of them lost%n", times, acknowledged.size(), lost.size());
        if (!lost.isEmpty()) {
            throw new IllegalStateException("lost: " + lost.subList(0, Math.min(10, lost.size())));
        }
    }

    private List<String> lost() throws IOException {
        Set<String> kept = new HashSet<>();
        try (Stream<Path> files = Files.walk(book.resolve("pours"))) {
            for (Path file :
                    (Iterable<Path>) files.filter(each -> each.toString().endsWith(".json"))::iterator) {
                JsonNode record = new JsonMapper().readTree(file.toFile());
                record.path("log")
                        .forEach(entry -> kept.add(record.path("id").asText() + "/"
                                + entry.path("id").asText()));
            }
        }
        List<String> lost = new ArrayList<>(acknowledged);
        lost.removeAll(kept);
        return lost;
    }
}
