package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;

/** Style, script and icon: a fixed list, read once. No name from a request is ever looked up as a file. */
final class Assets {

    private static final Map<String, String> TYPES = Map.of(
            "book.css", "text/css; charset=utf-8",
            "paper.css", "text/css; charset=utf-8",
            "book.js", "text/javascript; charset=utf-8",
            "page.js", "text/javascript; charset=utf-8",
            "bench.js", "text/javascript; charset=utf-8",
            "bench-home.js", "text/javascript; charset=utf-8",
            "grid.js", "text/javascript; charset=utf-8",
            "rows.js", "text/javascript; charset=utf-8",
            "bring.js", "text/javascript; charset=utf-8",
            "icon.svg", "image/svg+xml");

    private Assets() {}

    static void addTo(JavalinConfig config) {
        TYPES.forEach((name, type) -> {
            byte[] bytes = read(name);
            config.routes.get(
                    "/assets/" + name,
                    context -> context.header("Cache-Control", "no-cache")
                            .contentType(type)
                            .result(bytes));
        });
    }

    static byte[] read(String name) {
        try (InputStream in = Assets.class.getResourceAsStream("/web/" + name)) {
            if (in == null) {
                throw new IllegalStateException("the program lacks its " + name);
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
