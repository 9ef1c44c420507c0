package pigmentbook.sheet;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** Programs that are started beside the tests. */
final class Outside {

    private static final long MOST_SECONDS = 180;

    private Outside() {}

    /** What a program said and how it ended. */
    record Ended(int status, String said) {}

    static Path java() {
        return Path.of(System.getProperty("java.home"), "bin", "java");
    }

    static Ended run(List<String> command) {
        try {
            Path said = Files.createTempFile("said", ".txt");
            try {
                Process process = new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .redirectOutput(said.toFile())
                        .start();
                if (!process.waitFor(MOST_SECONDS, TimeUnit.SECONDS)) {
                    process.destroyForcibly();
                    throw new AssertionError(command.get(0) + " did not end within " + MOST_SECONDS + " s");
                }
                return new Ended(process.exitValue(), Files.readString(said, StandardCharsets.UTF_8));
            } finally {
                Files.delete(said);
            }
        } catch (IOException e) {
            throw new AssertionError(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError(e);
        }
    }
}
