package pigmentbook.web;

import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The demo book, served for a test on 25 November 2026. */
final class Served implements AutoCloseable {

    static final Clock CLOCK = Clock.fixed(Instant.parse("2026-11-25T08:30:00Z"), ZoneOffset.UTC);

    private final HttpClient client = HttpClient.newHttpClient();
    private final WebServer server;

    Served() {
        this(Path.of("recipes"));
    }

    Served(Path book) {
        this(book, 0);
    }

    Served(Path book, int port) {
        this(book, port, CLOCK);
    }

    Served(Path book, int port, Clock clock) {
        try {
            server = WebServer.start(new LiveBook(book), port, clock);
        } catch (Exception e) {
            throw new IllegalStateException(e);
        }
    }

    /** Copies the demo book, for a test that changes it. */
    static Path copyOfTheBook(Path into) throws IOException {
        Path from = Path.of("recipes");
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Path to = into.resolve(from.relativize(file).toString());
                if (Files.isDirectory(file)) {
                    Files.createDirectories(to);
                } else {
                    Files.copy(file, to, StandardCopyOption.REPLACE_EXISTING);
                }
            }
        }
        return into;
    }

    /** Returns what a page holds in the places of a pattern's group. */
    static List<String> found(String pattern, String page) {
        return Pattern.compile(pattern)
                .matcher(page)
                .results()
                .map(each -> each.group(1))
                .toList();
    }

    String url() {
        return server.url();
    }

    int port() {
        return URI.create(server.url()).getPort();
    }

    HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create(server.url()).resolve(path));
    }

    HttpResponse<String> get(String path) {
        return send(request(path).build());
    }

    HttpResponse<byte[]> bytes(String path) {
        try {
            return client.send(request(path).build(), HttpResponse.BodyHandlers.ofByteArray());
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    HttpResponse<String> send(HttpRequest request) {
        try {
            return client.send(request, HttpResponse.BodyHandlers.ofString());
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Sends JSON as the page does, with its token. */
    HttpResponse<String> post(String path, String json) {
        return send(request(path)
                .header("X-Book-Token", get("/token").body())
                .POST(HttpRequest.BodyPublishers.ofString(json))
                .build());
    }

    /** Sends a form as the page does, with its token: names and values in turn. */
    HttpResponse<String> form(String path, String... fields) {
        StringBuilder body = new StringBuilder();
        for (int i = 0; i < fields.length; i += 2) {
            body.append(i == 0 ? "" : "&")
                    .append(URLEncoder.encode(fields[i], StandardCharsets.UTF_8))
                    .append('=')
                    .append(URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return send(request(path)
                .header("X-Book-Token", get("/token").body())
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(body.toString()))
                .build());
    }

    @Override
    public void close() {
        server.close();
    }
}
