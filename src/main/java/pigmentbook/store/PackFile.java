package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.Enumeration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.jspecify.annotations.Nullable;

/** A pack that is opened to be looked through; it may come from anybody, so nothing in it is trusted. */
final class PackFile implements AutoCloseable {

    private final ZipFile zip;
    private final TreeMap<String, ZipEntry> entries = new TreeMap<>();
    private final TreeMap<String, String> refused = new TreeMap<>();
    private final Map<String, String> listed = new HashMap<>();

    private PackFile(ZipFile zip) {
        this.zip = zip;
    }

    /**
     * Opens a pack.
     *
     * @throws BadPackException if it is none that can be taken
     */
    static PackFile open(Path file) throws BadPackException {
        if (!Files.isRegularFile(file)) {
            throw new BadPackException("There is no file \"" + file + "\". Name the pack.");
        }
        List<Boolean> special;
        ZipFile zip;
        try {
            special = ZipDirectory.special(file);
            zip = new ZipFile(file.toFile());
        } catch (ZipException e) {
            throw new BadPackException(
                    "This file is cut short or damaged, or no zip file. Fetch it again. Nothing was changed.");
        } catch (IOException e) {
            throw new BadPackException("The file \"" + file + "\" can't be read. Check who may read it.");
        }
        PackFile pack = new PackFile(zip);
        boolean whole = false;
        try {
            pack.sort(special);
            pack.list();
            whole = true;
        } finally {
            if (!whole) {
                pack.close();
            }
        }
        return pack;
    }

    private void sort(List<Boolean> special) throws BadPackException {
        Set<String> twice = twice();
        Map<String, String> folded = new HashMap<>();
        int at = 0;
        Enumeration<? extends ZipEntry> all = zip.entries();
        while (all.hasMoreElements()) {
            ZipEntry entry = all.nextElement();
            String name = entry.getName();
            boolean isSpecial = at < special.size() && special.get(at);
            at++;
            if (twice.contains(name)) {
                refused.put(name, "It stands in the pack more than once; which one is meant can't be told.");
            } else if (isSpecial) {
                refused.put(name, "It is a link or a device; a book's file is a plain file.");
            } else if (!entry.isDirectory()) {
                String twin = folded.putIfAbsent(PackPath.folded(name), name);
                if (twin == null) {
                    entries.put(name, entry);
                } else {
                    refused.put(
                            name,
                            "Its name differs from " + Records.seen(twin)
                                    + " only in a way that some computers can't tell apart. Rename one of the two.");
                }
            }
        }
        if (at != special.size()) {
            throw new BadPackException(
                    "This file's directory contradicts itself. Fetch it again. Nothing was changed.");
        }
    }

    private Set<String> twice() {
        Set<String> once = new HashSet<>();
        Set<String> twice = new HashSet<>();
        Collections.list(zip.entries()).forEach(entry -> {
            if (!once.add(entry.getName())) {
                twice.add(entry.getName());
            }
        });
        return twice;
    }

    /** Reads the pack's own list. A zip file without one, made by hand, is taken all the same. */
    private void list() throws BadPackException {
        if (!entries.containsKey(PackPath.LIST)) {
            return;
        }
        try {
            JsonNode list = JsonFile.read(bytes(PackPath.LIST, JsonFile.MOST_BYTES * 8));
            int format = list.path("pack").asInt(0);
            if (format > Pack.FORMAT) {
                throw new BadPackException("This pack is of format " + format + "; this program reads " + Pack.FORMAT
                        + ". Use a newer program for it. Nothing was changed.");
            }
            list.path("files")
                    .forEach(each -> listed.put(
                            each.path("file").asText(), each.path("sha256").asText()));
        } catch (RefusedException e) {
            refused.put(PackPath.LIST, "The pack's list can't be read: " + e.getMessage());
        } catch (Damaged e) {
            refused.put(PackPath.LIST, String.valueOf(e.getMessage()));
        }
        entries.remove(PackPath.LIST);
        listed.keySet().forEach(file -> {
            if (!entries.containsKey(file)) {
                refused.putIfAbsent(file, "The pack's list names it, but it is not in the pack. Fetch the pack again.");
            }
        });
    }

    /** Thrown where an entry can't be read; the message says why. */
    static final class Damaged extends Exception {
        private static final long serialVersionUID = 1L;

        Damaged(String why) {
            super(why, null, false, false);
        }
    }

    /** Returns the names of the entries that may be read, in order. */
    Set<String> names() {
        return entries.keySet();
    }

    /** Returns the names of entries that are refused unread, and why. */
    Map<String, String> refused() {
        return refused;
    }

    /** Returns the bytes of an entry that is on the list with a sum only if they have it. */
    byte[] bytes(String name, int most) throws Damaged {
        ZipEntry entry = entries.get(name);
        if (entry == null) {
            throw new Damaged("It is not in the pack any more.");
        }
        if (entry.getSize() > most) {
            throw new Damaged("It is larger than " + most / 1024 / 1024 + " MiB; no such file of a book is.");
        }
        byte[] bytes = inflated(entry);
        CRC32 sum = new CRC32();
        sum.update(bytes);
        String wanted = listed.get(name);
        if (sum.getValue() != entry.getCrc() || (wanted != null && !wanted.equals(Versions.sha256(bytes)))) {
            throw new Damaged("Its bytes are not those that were packed. Fetch the pack again.");
        }
        return bytes;
    }

    private byte[] inflated(ZipEntry entry) throws Damaged {
        int size = (int) entry.getSize();
        try (@Nullable InputStream in = zip.getInputStream(entry)) {
            // One byte more than it says, to see whether it lies.
            byte[] bytes = in == null ? new byte[0] : in.readNBytes(size + 1);
            if (bytes.length != size) {
                throw new Damaged("It unpacks to another size than the pack says. Fetch the pack again.");
            }
            return bytes;
        } catch (ZipException | EOFException e) {
            throw new Damaged("Its bytes are damaged. Fetch the pack again.");
        } catch (IOException e) {
            throw new Damaged("It can't be read (" + Records.shown(String.valueOf(e.getMessage())) + ").");
        }
    }

    @Override
    public void close() {
        try {
            zip.close();
        } catch (IOException e) {
            // Only read from: nothing is lost.
            System.getLogger(PackFile.class.getName()).log(System.Logger.Level.DEBUG, "pack not closed", e);
        }
    }
}
