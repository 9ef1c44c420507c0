package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;

/** Style, script and icon: a fixed list, read once. No name from a request is ever looked up as a file. */
final class Assets {

    private static final List<String> NAMES = List.of(
            "book.css",
            "paper.css",
            "book.js",
            "page.js",
            "bench.js",
            "bench-home.js",
            "cells.js",
            "grid.js",
            "rows.js",
            "bring.js",
            "photo.js",
            "icon.svg");

    private Assets() {}

    static void addTo(JavalinConfig config) {
        for (String name : NAMES) {
            byte[] bytes = read(name);
            String type = type(name);
            config.routes.get(
                    "/assets/" + name,
                    context -> context.header("Cache-Control", "no-cache")
                            .contentType(type)
                            .result(bytes));
        }
    }

    private static String type(String name) {
        return switch (name.substring(name.lastIndexOf('.') + 1)) {
            case "css" -> "text/css; charset=utf-8";
            case "svg" -> "image/svg+xml";
            default -> "text/javascript; charset=utf-8";
        };
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
