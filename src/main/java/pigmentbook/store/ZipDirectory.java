package pigmentbook.store;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * What a zip file's directory says of its entries that {@code java.util.zip} does not tell: links, passwords, and
 * whether the sizes can be true. Read before anything is unpacked, so that a file made to do harm costs nothing.
 *
 * @see <a href="https://pkware.cachefly.net/webdocs/casestudies/APPNOTE.TXT">APPNOTE.TXT, the .ZIP file format, 4.3.12
 *     to 4.3.16 and 4.4.15</a>
 */
public final class ZipDirectory {

    private static final int MOST_ENTRIES = 200_000;
    private static final int MOST_BYTES = 64 * 1024 * 1024;
    private static final long MOST_TOTAL_BYTES = 4L * 1024 * 1024 * 1024;

    /** Below these sizes a ratio says nothing. */
    private static final long SMALL_ENTRY = 1024 * 1024;

    private static final long SMALL_TOTAL = 64L * 1024 * 1024;
    private static final int MOST_ENTRY_RATIO = 200;
    private static final int MOST_TOTAL_RATIO = 50;

    private static final int END_BYTES = 22;
    private static final int MOST_COMMENT = 0xffff;
    private static final int END_SIGN = 0x06054b50;
    private static final int END64_SIGN = 0x06064b50;
    private static final int END64_BYTES = 56;
    private static final int LOCATOR64_SIGN = 0x07064b50;
    private static final int LOCATOR64_BYTES = 20;
    private static final int ENTRY_SIGN = 0x02014b50;
    private static final int ENTRY_BYTES = 46;
    private static final int LOCAL_BYTES = 30;
    private static final int STORED = 0;
    private static final int DEFLATED = 8;
    private static final int UNIX = 3;
    private static final int FILE_TYPE = 0xf000;
    private static final int REGULAR = 0x8000;
    private static final int FOLDER = 0x4000;
    private static final long BIG = 0xffffffffL;

    private ZipDirectory() {}

    /**
     * Reads the directory.
     *
     * @return for each entry, in the directory's order, whether it is a link or a device
     * @throws BadPackException if the file is no zip, is cut short, locked, or made so that it would fill memory or
     *     disk
     */
    public static List<Boolean> special(Path file) throws BadPackException, IOException {
        try (RandomAccessFile in = new RandomAccessFile(file.toFile(), "r")) {
            return entries(directory(in), in.length());
        }
    }

    private static ByteBuffer read(RandomAccessFile in, long from, int size) throws IOException, BadPackException {
        if (from < 0 || size < 0 || from + size > in.length()) {
            throw damaged();
        }
        byte[] bytes = new byte[size];
        in.seek(from);
        in.readFully(bytes);
        return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static BadPackException damaged() {
        return new BadPackException(
                "This file is cut short or damaged, or no zip file. Fetch it again. Nothing was changed.");
    }

    private static ByteBuffer directory(RandomAccessFile in) throws IOException, BadPackException {
        int tail = (int) Math.min(in.length(), END_BYTES + MOST_COMMENT);
        ByteBuffer last = read(in, in.length() - tail, tail);
        for (int at = tail - END_BYTES; at >= 0; at--) {
            if (last.getInt(at) == END_SIGN && at + END_BYTES + unsigned(last, at + 20) == tail) {
                return directory(in, last, at, in.length() - tail + at);
            }
        }
        throw damaged();
    }

    private static ByteBuffer directory(RandomAccessFile in, ByteBuffer last, int at, long end)
            throws IOException, BadPackException {
        long count = unsigned(last, at + 10);
        long size = last.getInt(at + 12) & BIG;
        long from = end - size;
        boolean big = count == 0xffff || size == BIG || (last.getInt(at + 16) & BIG) == BIG;
        if (big && end >= LOCATOR64_BYTES) {
            ByteBuffer locator = read(in, end - LOCATOR64_BYTES, LOCATOR64_BYTES);
            if (locator.getInt(0) == LOCATOR64_SIGN) {
                long end64 = locator.getLong(8);
                ByteBuffer more = read(in, end64, END64_BYTES);
                if (more.getInt(0) != END64_SIGN) {
                    throw damaged();
                }
                count = more.getLong(32);
                size = more.getLong(40);
                from = end64 - size;
            }
        }
        if (count < 0 || count > MOST_ENTRIES || size < 0 || size > MOST_BYTES) {
            throw new BadPackException("This file holds more than " + MOST_ENTRIES
                    + " entries, or says so; no book does. Nothing was changed.");
        }
        return read(in, from, (int) size);
    }

    private static List<Boolean> entries(ByteBuffer directory, long fileBytes) throws BadPackException {
        List<Boolean> special = new ArrayList<>();
        long packed = 0;
        long unpacked = 0;
        int at = 0;
        while (at < directory.limit()) {
            if (at + ENTRY_BYTES > directory.limit() || directory.getInt(at) != ENTRY_SIGN) {
                throw damaged();
            }
            requireReadable(directory, at);
            long in = directory.getInt(at + 20) & BIG;
            long out = directory.getInt(at + 24) & BIG;
            if (out == BIG || in == BIG || (out > SMALL_ENTRY && out / Math.max(1, in) > MOST_ENTRY_RATIO)) {
                throw bomb();
            }
            packed += in + LOCAL_BYTES;
            unpacked += out;
            special.add(isSpecial(directory, at));
            at += ENTRY_BYTES
                    + unsigned(directory, at + 28)
                    + unsigned(directory, at + 30)
                    + unsigned(directory, at + 32);
        }
        if (packed > fileBytes || unpacked > MOST_TOTAL_BYTES) {
            throw bomb();
        }
        if (unpacked > SMALL_TOTAL && unpacked / fileBytes > MOST_TOTAL_RATIO) {
            throw bomb();
        }
        return special;
    }

    private static BadPackException bomb() {
        return new BadPackException("This file would unpack to far more than a book holds, or its entries share their"
                + " bytes: it is made to fill memory or disk. Nothing was unpacked.");
    }

    private static void requireReadable(ByteBuffer directory, int at) throws BadPackException {
        if ((unsigned(directory, at + 8) & 1) != 0) {
            throw new BadPackException(
                    "This file is locked with a password. Unlock it with the program that made it. Nothing was changed.");
        }
        int method = unsigned(directory, at + 10);
        if (method != STORED && method != DEFLATED) {
            throw new BadPackException("This file is compressed in a way that is not read here (method " + method
                    + "). Pack it again as a plain zip file. Nothing was changed.");
        }
    }

    private static boolean isSpecial(ByteBuffer directory, int at) {
        boolean unix = (unsigned(directory, at + 4) >> 8) == UNIX;
        int type = (directory.getInt(at + 38) >>> 16) & FILE_TYPE;
        return unix && type != 0 && type != REGULAR && type != FOLDER;
    }

    private static int unsigned(ByteBuffer bytes, int at) {
        return bytes.getShort(at) & 0xffff;
    }
}
