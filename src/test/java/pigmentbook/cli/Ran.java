package pigmentbook.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Map;

/**
 * What a run of the program gave, on 25 November 2026.
 *
 * @param status its exit status
 * @param out its standard output
 * @param err its standard error
 */
record Ran(int status, String out, String err) {

    static final Clock CLOCK = Clock.fixed(Instant.parse("2026-11-25T10:42:00Z"), ZoneOffset.UTC);

    /** Runs the program on the demo book. */
    static Ran of(String... args) {
        return in(Path.of("").toAbsolutePath(), Map.of(), args);
    }

    static Ran in(Path here, Map<String, String> env, String... args) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int status = Main.run(
                new Context(
                        new PrintStream(out, false, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8),
                        env,
                        CLOCK,
                        here,
                        false),
                args);
        return new Ran(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    JsonNode json() {
        try {
            return new ObjectMapper().readTree(out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
