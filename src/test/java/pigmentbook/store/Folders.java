package pigmentbook.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** What lies in a folder, and putting something there. */
final class Folders {

    private Folders() {}

    /** Returns each file's bytes, one sign a byte, by its name; the lock is passed over. */
    static Map<String, String> of(Path folder) {
        Map<String, String> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.filter(Files::isRegularFile).toList()) {
                String name = folder.relativize(each).toString().replace('\\', '/');
                if (!name.equals(BookLock.FILE)) {
                    files.put(name, new String(Files.readAllBytes(each), StandardCharsets.ISO_8859_1));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return files;
    }

    static Path put(Path folder, String name, byte[] bytes) {
        try {
            Path file = folder.resolve(name);
            Files.createDirectories(file.getParent());
            return Files.write(file, bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Path put(Path folder, String name, String text) {
        return put(folder, name, text.getBytes(StandardCharsets.UTF_8));
    }
}
