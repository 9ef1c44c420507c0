package pigmentbook.store;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;

/** The names in a book's folders, each listed once: for many new files a look for each would take long. */
final class FolderNames {

    private final Map<Path, Map<String, String>> byFolder = new HashMap<>();

    /** Returns what stands in the way of a new file, or an empty text. */
    String inTheWay(Path path) {
        String wanted = String.valueOf(path.getFileName());
        String there = names(RecordFiles.parent(path)).get(PackPath.folded(wanted));
        if (there == null) {
            return "";
        }
        return there.equals(wanted)
                ? "A folder, or a link that leads nowhere, stands in its place. Take that away."
                : "Its name differs from " + Records.seen(there)
                        + " in the book only in a way that some computers can't tell apart. Rename one of the two.";
    }

    void add(Path path) {
        String name = String.valueOf(path.getFileName());
        names(RecordFiles.parent(path)).put(PackPath.folded(name), name);
    }

    private Map<String, String> names(Path folder) {
        return byFolder.computeIfAbsent(folder, FolderNames::listed);
    }

    private static Map<String, String> listed(Path folder) {
        Map<String, String> names = new HashMap<>();
        if (!Files.isDirectory(folder)) {
            return names;
        }
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
            for (Path each : files) {
                String name = String.valueOf(each.getFileName());
                names.put(PackPath.folded(name), name);
            }
        } catch (IOException | DirectoryIteratorException e) {
            // A folder that can't be listed can't be written into either: that is told when it is tried.
            return names;
        }
        return names;
    }

    /** Returns whether something other than a folder stands where a folder of this file would be. */
    static boolean fileAsFolder(Path book, Path path) {
        for (Path each = path.getParent(); each != null && !each.equals(book); each = each.getParent()) {
            if (Files.exists(each, LinkOption.NOFOLLOW_LINKS) && !Files.isDirectory(each)) {
                return true;
            }
        }
        return false;
    }
}
