package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.jspecify.annotations.Nullable;

/**
 * A book, or what one recipe needs of it, in one zip file: every file byte for byte, in the order of their names, with
 * one and the same date, so that the same book gives the same bytes. Last comes {@code pack.manifest}, a list of the
 * files with their SHA-256.
 */
public final class Pack {

    /** The format of the list. */
    static final int FORMAT = 1;

    /** A photo or paper larger than this is not packed. */
    static final int MOST_PAPER_BYTES = 64 * 1024 * 1024;

    /** A larger file is stored as it is: photos are compressed already. */
    private static final int MOST_DEFLATED_BYTES = 1024 * 1024;

    /** Any date that every system's zip knows without a time zone. */
    private static final LocalDateTime DATE = LocalDateTime.of(2000, 1, 1, 0, 0);

    private static final String LINK = "It is a link that leads out of the book, to a folder or nowhere; links are not"
            + " followed. Put the file itself there.";

    private final Path folder;
    private final TreeMap<String, Path> files = new TreeMap<>();
    private final List<SetAside> setAside = new ArrayList<>();

    private Pack(Path folder) {
        this.folder = folder;
    }

    /**
     * What was packed.
     *
     * @param files the files, from the book's folder, in order
     * @param setAside what was left out, and why
     */
    public record Packed(List<String> files, List<SetAside> setAside) {}

    /**
     * Gathers a whole book: every record, also those that were put away or can't be read, photos and papers. Names that
     * begin with a dot are passed over.
     *
     * @param but a file that is passed over, as the pack itself is; null for none
     * @throws BookUnavailableException if there is no such folder or it holds nothing to pack
     */
    public static Pack whole(Path folder, @Nullable Path but) throws BookUnavailableException {
        Pack pack = new Pack(folder);
        try {
            pack.gather(folder.toRealPath(), but);
        } catch (IOException e) {
            throw new BookUnavailableException(
                    "The folder \"" + folder + "\" can't be read. Name the book's folder with --book.");
        }
        if (pack.files.isEmpty()) {
            throw new BookUnavailableException("The folder \"" + folder + "\" holds nothing to pack.");
        }
        return pack;
    }

    /**
     * Gathers what one recipe, or one pour, needs.
     *
     * @param id a recipe's or a pour's id that the book has
     */
    public static Pack of(Opened opened, String id) {
        Pack pack = new Pack(opened.folder());
        PackChoice choice = PackChoice.of(opened, id);
        for (String file : choice.files()) {
            Path path = opened.folder().resolve(file);
            if (leadsInside(opened.folder(), path)) {
                pack.add(file, path);
            } else {
                pack.setAside.add(SetAside.of(file, LINK));
            }
        }
        pack.setAside.addAll(choice.setAside());
        return pack;
    }

    private void gather(Path real, @Nullable Path but) throws IOException {
        Files.walkFileTree(real, new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult preVisitDirectory(Path in, BasicFileAttributes attributes) {
                return !in.equals(real) && hidden(in) ? FileVisitResult.SKIP_SUBTREE : FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult visitFile(Path path, BasicFileAttributes attributes) throws IOException {
                boolean itself = but != null && Files.exists(but) && Files.isSameFile(but, path);
                if (!hidden(path) && !itself) {
                    found(real, path, attributes);
                }
                return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult visitFileFailed(Path path, IOException e) throws IOException {
                if (path.equals(real)) {
                    throw e;
                }
                setAside.add(SetAside.of(name(real, path), "It can't be read. Check who may read it."));
                return FileVisitResult.CONTINUE;
            }
        });
    }

    private static boolean hidden(Path path) {
        return String.valueOf(path.getFileName()).startsWith(".");
    }

    private static String name(Path real, Path path) {
        return real.relativize(path).toString().replace('\\', '/');
    }

    private void found(Path real, Path path, BasicFileAttributes attributes) {
        String file = name(real, path);
        if (attributes.isSymbolicLink() && !leadsInside(real, path)) {
            setAside.add(SetAside.of(file, LINK));
        } else if (!attributes.isSymbolicLink() && !attributes.isRegularFile()) {
            setAside.add(SetAside.of(file, "It is no file."));
        } else {
            add(file, path);
        }
    }

    private static boolean leadsInside(Path book, Path link) {
        try {
            Path target = link.toRealPath();
            return target.startsWith(book.toRealPath()) && Files.isRegularFile(target);
        } catch (IOException e) {
            return false;
        }
    }

    private void add(String file, Path path) {
        try {
            PackPath.requireSafe(file);
            PackPath.requireSort(file);
            files.put(file, path);
        } catch (PackPath.NoPlace e) {
            setAside.add(SetAside.of(file, String.valueOf(e.getMessage())));
        }
    }

    /** Returns the files that are to be packed, in order. */
    Collection<String> files() {
        return files.keySet();
    }

    /**
     * What would be packed.
     *
     * @param files how many files
     * @param bytes what they take on the disk
     * @param setAside what would be left out, and why
     */
    public record Would(int files, long bytes, List<SetAside> setAside) {}

    /** Says what would be packed, from the files' sizes alone. */
    public Would would() {
        List<SetAside> out = new ArrayList<>(setAside);
        long bytes = 0;
        int packed = 0;
        for (String file : files.keySet()) {
            Path path = files.getOrDefault(file, folder);
            try {
                long size = Files.size(path);
                if (size > most(file)) {
                    out.add(tooLarge(file));
                } else if (!Files.isReadable(path)) {
                    out.add(unreadable(file));
                } else {
                    bytes += size;
                    packed++;
                }
            } catch (IOException e) {
                out.add(unreadable(file));
            }
        }
        out.sort(Comparator.comparing(SetAside::file));
        return new Would(packed, bytes, List.copyOf(out));
    }

    /**
     * Writes the zip file.
     *
     * @param out where to; not closed
     * @throws IOException if it can't be written
     */
    public Packed write(OutputStream out) throws IOException {
        ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
        List<String> packed = new ArrayList<>();
        ObjectNode list = JsonNodeFactory.instance.objectNode().put("pack", FORMAT);
        list.put("book", bookName());
        ArrayNode listed = list.putArray("files");
        for (String file : files.keySet()) {
            byte[] bytes = bytes(file);
            if (bytes != null) {
                entry(zip, file, bytes);
                packed.add(file);
                listed.addObject().put("file", file).put("sha256", Versions.sha256(bytes));
            }
        }
        entry(zip, PackPath.LIST, JsonLayout.file(list).getBytes(StandardCharsets.UTF_8));
        zip.finish();
        setAside.sort(Comparator.comparing(SetAside::file));
        return new Packed(packed, List.copyOf(setAside));
    }

    private String bookName() {
        Path settings = files.get("book.json");
        if (settings == null) {
            return "";
        }
        try {
            return JsonFile.read(Files.readAllBytes(settings)).path("name").asText();
        } catch (IOException | RefusedException e) {
            // The book's own file says no name that can be read; it is packed as it is.
            return "";
        }
    }

    private byte @Nullable [] bytes(String file) {
        Path path = files.getOrDefault(file, folder);
        try {
            if (Files.size(path) > most(file)) {
                setAside.add(tooLarge(file));
                return null;
            }
            return Files.readAllBytes(path);
        } catch (IOException e) {
            setAside.add(unreadable(file));
            return null;
        }
    }

    private static int most(String file) {
        return file.endsWith(Listing.SUFFIX) ? JsonFile.MOST_BYTES : MOST_PAPER_BYTES;
    }

    private static SetAside tooLarge(String file) {
        return SetAside.of(file, "It is larger than " + most(file) / 1024 / 1024 + " MiB.");
    }

    private static SetAside unreadable(String file) {
        return SetAside.of(file, "It can't be read. Check who may read it.");
    }

    private static void entry(ZipOutputStream zip, String file, byte[] bytes) throws IOException {
        ZipEntry entry = new ZipEntry(file);
        entry.setTimeLocal(DATE);
        if (bytes.length > MOST_DEFLATED_BYTES) {
            CRC32 sum = new CRC32();
            sum.update(bytes);
            entry.setMethod(ZipEntry.STORED);
            entry.setSize(bytes.length);
            entry.setCompressedSize(bytes.length);
            entry.setCrc(sum.getValue());
        }
        zip.putNextEntry(entry);
        zip.write(bytes);
        zip.closeEntry();
    }
}
