package pigmentbook.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** A copy of the book that comes with the program, to write into. */
public final class DemoBook {

    private DemoBook() {}

    public static Path copyTo(Path folder) {
        Path from = Path.of("recipes");
        try (Stream<Path> files = Files.walk(from)) {
            for (Path each : files.sorted().toList()) {
                Path to = folder.resolve(from.relativize(each).toString());
                if (Files.isDirectory(each)) {
                    Files.createDirectories(to);
                } else if (!each.getFileName().toString().startsWith(".")) {
                    Files.copy(each, to);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return folder;
    }

    /** Returns every file of a folder with what it holds, the lock left out. */
    public static Map<String, String> content(Path folder) {
        Map<String, String> content = new TreeMap<>();
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path each : files.filter(Files::isRegularFile).toList()) {
                if (!each.getFileName().toString().equals(BookLock.FILE)) {
                    content.put(folder.relativize(each).toString(), Versions.of(Files.readAllBytes(each)));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return content;
    }
}
