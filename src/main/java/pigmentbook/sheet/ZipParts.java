package pigmentbook.sheet;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.jspecify.annotations.Nullable;

/** The parts of a workbook, which is a zip: each whole, checked and of bearable size, or refused. */
final class ZipParts implements Closeable {

    /** No part of a mix sheet is larger. */
    static final int MOST_BYTES = 8 * 1024 * 1024;

    private static final int MOST_PARTS = 500;
    private static final int CHUNK = 1 << 16;
    private static final String DAMAGED = "is damaged or cut short. Fetch it again, or save it anew.";

    private final ZipFile zip;

    private ZipParts(ZipFile zip) {
        this.zip = zip;
    }

    static ZipParts open(Path file) throws NoMixSheetException, IOException {
        ZipFile zip;
        try {
            zip = new ZipFile(file.toFile());
        } catch (ZipException e) {
            throw new NoMixSheetException(DAMAGED);
        }
        int parts = zip.size();
        if (parts > MOST_PARTS) {
            zip.close();
            throw new NoMixSheetException("holds " + parts + " parts; no mix sheet has more than " + MOST_PARTS + ".");
        }
        return new ZipParts(zip);
    }

    boolean has(String name) {
        return zip.getEntry(name) != null;
    }

    /** Returns a part that has to be there. */
    byte[] need(String name) throws NoMixSheetException, IOException {
        byte[] part = read(name);
        if (part == null) {
            throw new NoMixSheetException(DAMAGED);
        }
        return part;
    }

    /** Returns a part, or null where there is none. */
    byte @Nullable [] read(String name) throws NoMixSheetException, IOException {
        ZipEntry entry = zip.getEntry(name);
        if (entry == null) {
            return null;
        }
        byte[] bytes = new byte[CHUNK];
        int size = 0;
        try (InputStream in = zip.getInputStream(entry)) {
            for (int more = in.read(bytes, size, bytes.length - size);
                    more >= 0;
                    more = in.read(bytes, size, bytes.length - size)) {
                size += more;
                if (size > MOST_BYTES) {
                    throw new NoMixSheetException("unpacks to more than " + MOST_BYTES / 1024 / 1024
                            + " MiB in one part; no mix sheet does. It is not read any further.");
                }
                if (size == bytes.length) {
                    bytes = Arrays.copyOf(bytes, bytes.length * 2);
                }
            }
        } catch (ZipException | EOFException e) {
            throw new NoMixSheetException(DAMAGED);
        }
        CRC32 sum = new CRC32();
        sum.update(bytes, 0, size);
        if (sum.getValue() != entry.getCrc()) {
            throw new NoMixSheetException(DAMAGED);
        }
        return Arrays.copyOf(bytes, size);
    }

    @Override
    public void close() throws IOException {
        zip.close();
    }
}
