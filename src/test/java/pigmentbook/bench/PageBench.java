package pigmentbook.bench;

import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
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
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.openqa.selenium.By;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.support.ui.WebDriverWait;

/**
 * How quick the page is, in the program as it is released (package it first): from the start of the process to the
 * first page, from a key to every figure on the screen, and with a book of 10 000 recipes.
 */
public final class PageBench {

    private static final Path JAR = Path.of("target", "pigment-book.jar");
    private static final Path DEMO = Path.of("recipes");
    private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
    private static final String LAUNCHER = "./pigment-book";
    private static final int STARTS = 7;
    private static final int WARM_UP = 300;
    private static final int REQUESTS = 2_000;
    private static final int KEYS = 200;
    private static final int LIST_KEYS = 30;
    private static final int MANY = 10_000;
    private static final Pattern ASSET = Pattern.compile("/assets/[a-z]+\\.[a-z]+");
    private static final String MIX = "recipes/ember/mix?lead=total&mold=lamp-panel&total=";

    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    private PageBench() {}

    /** Runs it and prints a table. */
    public static void main(String[] args) throws IOException, InterruptedException {
        line("what", "asked", "measured");
        starts();
        try (Program demo = new Program(DEMO, LAUNCHER)) {
            server(demo);
            line("memory with the demo book, ./pigment-book, after that", "200 MB", demo.memory());
        }
        try (Program demo = new Program(DEMO)) {
            server(demo);
            load(demo);
            if (Files.exists(CHROMIUM) && Files.exists(DRIVER)) {
                keys(demo);
            } else {
                line("a key to every figure on the screen", "50 ms", "no browser here");
            }
            line("memory with the demo book, after that", "200 MB", demo.memory());
        }
        Path many = Files.createTempDirectory("many-colours");
        try {
            write(many);
            try (Program program = new Program(many)) {
                list(program);
                line("memory with " + MANY + " recipes", "", program.memory());
            }
        } finally {
            remove(many);
        }
    }

    private static void line(String what, String asked, String measured) {
        System.out.printf(Locale.ROOT, "%-62s %-12s %s%n", what, asked, measured);
    }

    private static void starts() throws IOException, InterruptedException {
        double[] plain = new double[STARTS];
        double[] prepared = new double[STARTS];
        for (int i = -1; i < STARTS; i++) {
            long start = System.nanoTime();
            try (Program program = new Program(DEMO)) {
                get(program, "recipes");
                plain[Math.max(0, i)] = since(start);
            }
            long again = System.nanoTime();
            try (Program program = new Program(DEMO, LAUNCHER)) {
                get(program, "recipes");
                prepared[Math.max(0, i)] = since(again);
            }
        }
        line("java -jar to the first page served, median of " + STARTS, "900 ms", middle(plain));
        line("./pigment-book to the first page served, the same", "900 ms", middle(prepared));
    }

    private static void server(Program program) throws IOException, InterruptedException {
        double[] ms = new double[REQUESTS];
        int bytes = 0;
        for (int i = -WARM_UP; i < REQUESTS; i++) {
            long start = System.nanoTime();
            bytes = get(program, MIX + (500 + i % 977)).length;
            ms[Math.max(0, i)] = since(start);
        }
        line(
                "a recalculation at the server, 99th percentile of " + REQUESTS,
                "10 ms",
                at(ms, 99) + ", median " + at(ms, 50));
        line("its answer, compressed", "10 KB", kilobytes(bytes));
    }

    private static void load(Program program) throws IOException, InterruptedException {
        byte[] page = get(program, "recipes");
        int bytes = page.length;
        Matcher asset = ASSET.matcher(unpacked(page));
        List<String> seen = new ArrayList<>();
        while (asset.find()) {
            if (!seen.contains(asset.group())) {
                seen.add(asset.group());
                bytes += get(program, asset.group().substring(1)).length;
            }
        }
        line("first load with all it names, compressed", "120 KB", kilobytes(bytes));
    }

    private static void keys(Program program) {
        ChromeDriver browser = browser();
        try {
            browser.get(program.url + MIX + "500");
            double[] ms = followed(browser, "f-t", "part-weigh", numbers("", KEYS));
            line(
                    "a key to every figure on the screen, 95th percentile of " + KEYS,
                    "50 ms",
                    at(ms, 95) + ", median " + at(ms, 50));
            browser.get(program.url + "recipes/ember");
            new WebDriverWait(browser, Duration.ofSeconds(20))
                    .until(ready -> !browser.findElements(By.cssSelector("#look-shown svg"))
                            .isEmpty());
            double[] slid = followed(browser, "k-depth", "look-shown", depths(KEYS));
            line(
                    "a depth that is slid to its colour on the screen, 95th percentile of " + KEYS,
                    "50 ms",
                    at(slid, 95) + ", median " + at(slid, 50));
        } finally {
            browser.quit();
        }
    }

    private static List<String> depths(int count) {
        return IntStream.range(0, count)
                .mapToObj(i -> String.valueOf(1 + i * 37 % 77 / 2.0))
                .toList();
    }

    private static void list(Program program) throws IOException, InterruptedException {
        get(program, "recipes");
        double[] ms = new double[LIST_KEYS];
        for (int i = -LIST_KEYS; i < LIST_KEYS; i++) {
            long start = System.nanoTime();
            get(program, "recipes?find=colour+" + Math.floorMod(i, 97));
            ms[Math.max(0, i)] = since(start);
        }
        line(MANY + " recipes: a key at the server, 95th percentile", "", at(ms, 95));
        if (!Files.exists(CHROMIUM) || !Files.exists(DRIVER)) {
            line(MANY + " recipes in the browser", "300, 100 ms", "no browser here");
            return;
        }
        ChromeDriver browser = browser();
        try {
            browser.get(program.url + "shelf");
            double[] shown = new double[STARTS];
            for (int i = -1; i < STARTS; i++) {
                browser.findElement(By.linkText("Molds")).click();
                browser.findElement(By.linkText("Recipes")).click();
                // The page's clock starts with the click that leaves the page before; its list comes with the page.
                Object took = browser.executeScript("return document.querySelector('ul.drawer li')"
                        + " ? performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd : NaN");
                shown[Math.max(0, i)] = ((Number) took).doubleValue();
            }
            line(MANY + " recipes shown after the click, median of " + STARTS, "300 ms", middle(shown));
            double[] keys = followed(browser, "find", "part-list", numbers("colour ", LIST_KEYS));
            line(
                    MANY + " recipes filtered on the screen, 95th percentile of " + LIST_KEYS,
                    "100 ms",
                    at(keys, 95) + ", median " + at(keys, 50));
        } finally {
            browser.quit();
        }
    }

    private static List<String> numbers(String before, int count) {
        return IntStream.range(0, count)
                .mapToObj(i -> before + (600 + 37 * i % 4000))
                .toList();
    }

    /** Types values into a field and returns, in ms, how long each took until a part of the page had followed. */
    private static double[] followed(ChromeDriver browser, String field, String part, List<String> values) {
        Object measured = browser.executeAsyncScript("""
                const [field, part, values, done] = arguments, box = document.getElementById(field), out = [];
                const wait = ms => new Promise(r => setTimeout(r, ms));
                const followed = () => new Promise(r => {
                  const watch = new MutationObserver(() => { watch.disconnect(); requestAnimationFrame(() => r(performance.now())); });
                  watch.observe(document.getElementById(part), { childList: true, subtree: true, characterData: true });
                });
                for (const value of values) {
                  const seen = followed();
                  box.value = value;
                  const from = performance.now();
                  box.dispatchEvent(new Event("input", { bubbles: true }));
                  out.push(await seen - from);
                  await wait(60);
                }
                done(out);
                """, field, part, values);
        return ((List<?>) measured)
                .stream().mapToDouble(each -> ((Number) each).doubleValue()).toArray();
    }

    private static ChromeDriver browser() {
        ChromeOptions options = new ChromeOptions();
        options.setBinary(CHROMIUM.toString());
        options.addArguments("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking");
        ChromeDriver browser = new ChromeDriver(
                new ChromeDriverService.Builder()
                        .usingDriverExecutable(DRIVER.toFile())
                        .build(),
                options);
        browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(120));
        return browser;
    }

    private static byte[] get(Program program, String path) throws IOException, InterruptedException {
        HttpResponse<byte[]> answer = CLIENT.send(
                HttpRequest.newBuilder(URI.create(program.url + path))
                        .header("Accept-Encoding", "gzip")
                        .build(),
                HttpResponse.BodyHandlers.ofByteArray());
        if (answer.statusCode() != 200) {
            throw new IllegalStateException(path + " answers " + answer.statusCode());
        }
        return answer.body();
    }

    private static String unpacked(byte[] page) throws IOException {
        try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(page))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static double since(long start) {
        return (System.nanoTime() - start) / 1e6;
    }

    private static String at(double[] ms, int percent) {
        double[] sorted = ms.clone();
        Arrays.sort(sorted);
        int index = Math.min(sorted.length - 1, (int) Math.ceil(sorted.length * percent / 100.0) - 1);
        return String.format(Locale.ROOT, "%.1f ms", sorted[Math.max(0, index)]);
    }

    private static String middle(double[] ms) {
        double[] sorted = ms.clone();
        Arrays.sort(sorted);
        return String.format(
                Locale.ROOT, "%.0f ms (%.0f to %.0f)", sorted[sorted.length / 2], sorted[0], sorted[sorted.length - 1]);
    }

    private static String kilobytes(int bytes) {
        return String.format(Locale.ROOT, "%.1f KB", bytes / 1000.0);
    }

    /** Writes a book of many recipes on the demo book's shelf: two revisions each, every third one poured and read. */
    private static void write(Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(DEMO)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Path to = folder.resolve(DEMO.relativize(file).toString());
                if (Files.isDirectory(file)) {
                    Files.createDirectories(to);
                } else if (!file.getParent().equals(DEMO) || file.endsWith("book.json")) {
                    if (!file.startsWith(DEMO.resolve("pours"))) {
                        Files.copy(file, to);
                    }
                }
            }
        }
        String[] pigments = {"amber-paste", "rust-paste", "copper-mica", "gold-mica", "smoke-paste", "ivory-paste"};
        for (int i = 0; i < MANY; i++) {
            String id = "colour-" + i;
            String one = pigments[i % pigments.length];
            String two = pigments[(i + 1 + i / 7 % 5) % pigments.length];
            StringBuilder revisions = new StringBuilder();
            for (int revision = 1; revision <= 2; revision++) {
                revisions.append(revision == 1 ? "" : ",").append("""
                        { "number": %d, "date": "2026-03-0%d", "resin": "slow-cast", "percentOf": "mixed resin",
                          "pigments": [ { "pigment": "%s", "percent": "1.%d %%" }, { "pigment": "%s", "percent": "0.%d %%" } ], "why": "" }""".formatted(
                                revision, revision, one, i % 10, two, 1 + (i + revision) % 9));
            }
            Files.writeString(folder.resolve(id + ".json"), """
                    { "id": "%s", "name": "Colour %d", "tags": ["warm", "row-%d"],
                      "revisions": [ %s ], "steps": [], "look": null, "notes": "" }
                    """.formatted(id, i, i % 20, revisions));
            if (i % 3 == 0) {
                String pour = "2026-04-01-" + id;
                Files.createDirectories(folder.resolve("pours/2026"));
                Files.writeString(folder.resolve("pours/2026/" + pour + ".json"), """
                        { "id": "%s", "recipe": "%s", "revision": 2, "kind": "sample", "started": "2026-04-01T10:00", "layers": [],
                          "readings": [ { "lab": [%d, %d, %d], "depth": "6 mm", "backing": "white", "how": "photo" } ] }
                        """.formatted(
                                pour, id, 30 + i % 50, 5 + i % 40, 10 + i % 55));
            }
        }
    }

    private static void remove(Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : (Iterable<Path>) files.sorted(Comparator.reverseOrder())::iterator) {
                Files.delete(file);
            }
        }
    }

    /** The released program, serving a book. */
    private static final class Program implements AutoCloseable {
        private final Process process;
        private final String url;

        Program(Path book) throws IOException {
            this(book, Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-jar", JAR.toString());
        }

        Program(Path book, String... start) throws IOException {
            List<String> command = new ArrayList<>(List.of(start));
            command.addAll(List.of("--book", book.toString(), "open", "--no-browser", "--port", "0"));
            process = new ProcessBuilder(command)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            String first = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))
                    .readLine();
            if (first == null) {
                throw new IllegalStateException("The program did not start. Package it first: mvn -DskipTests package");
            }
            url = first;
        }

        String memory() throws IOException {
            Path status = Path.of("/proc/" + process.pid() + "/status");
            if (!Files.exists(status)) {
                return "not told by this system";
            }
            for (String each : Files.readAllLines(status)) {
                if (each.startsWith("VmRSS")) {
                    return Long.parseLong(each.replaceAll("\\D", "")) / 1000 + " MB";
                }
            }
            return "not told by this system";
        }

        @Override
        public void close() {
            process.destroy();
            try {
                if (!process.waitFor(5, TimeUnit.SECONDS)) {
                    process.destroyForcibly();
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}
