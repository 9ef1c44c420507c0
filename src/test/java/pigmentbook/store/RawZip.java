package pigmentbook.store;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/** Writes zip files byte by byte, also those that no zip program would write. */
final class RawZip {

    static final int REGULAR = 0x8000 | 0644;
    static final int LINK = 0xa000 | 0777;

    private final ByteArrayOutputStream local = new ByteArrayOutputStream();
    private final ByteArrayOutputStream directory = new ByteArrayOutputStream();
    private int count;
    private int lastLocal;

    RawZip add(String name, String text) {
        return add(name, text.getBytes(StandardCharsets.UTF_8));
    }

    RawZip add(String name, byte[] bytes) {
        return add(name, bytes, bytes.length, 0, REGULAR);
    }

    /** Adds a link, as Unix programs pack one: its target is its content. */
    RawZip link(String name, String target) {
        byte[] bytes = target.getBytes(StandardCharsets.UTF_8);
        return add(name, bytes, bytes.length, 0, LINK);
    }

    /** Adds an entry that says it is locked. */
    RawZip locked(String name) {
        return add(name, new byte[20], 20, 1, REGULAR);
    }

    /** Adds an entry that says another size than it has. */
    RawZip lying(String name, byte[] bytes, int says) {
        return add(name, bytes, says, 0, REGULAR);
    }

    /** Adds a name for the bytes of the entry before. */
    RawZip sharing(String name, byte[] bytes) {
        return directory(name, bytes, deflated(bytes).length, bytes.length, 0, REGULAR);
    }

    private RawZip add(String name, byte[] bytes, int says, int flags, int mode) {
        byte[] packed = deflated(bytes);
        byte[] named = name.getBytes(StandardCharsets.UTF_8);
        lastLocal = local.size();
        ByteBuffer head = little(30);
        head.putInt(0x04034b50).putShort((short) 20).putShort((short) (0x800 | flags));
        head.putShort((short) 8)
                .putInt(0)
                .putInt((int) sum(bytes))
                .putInt(packed.length)
                .putInt(says);
        head.putShort((short) named.length).putShort((short) 0);
        local.writeBytes(head.array());
        local.writeBytes(named);
        local.writeBytes(packed);
        return directory(name, bytes, packed.length, says, flags, mode);
    }

    private RawZip directory(String name, byte[] bytes, int packed, int says, int flags, int mode) {
        byte[] named = name.getBytes(StandardCharsets.UTF_8);
        ByteBuffer head = little(46);
        head.putInt(0x02014b50).putShort((short) (3 << 8 | 20)).putShort((short) 20);
        head.putShort((short) (0x800 | flags)).putShort((short) 8).putInt(0);
        head.putInt((int) sum(bytes)).putInt(packed).putInt(says).putShort((short) named.length);
        head.putShort((short) 0).putShort((short) 0).putShort((short) 0).putShort((short) 0);
        head.putInt(mode << 16).putInt(lastLocal);
        directory.writeBytes(head.array());
        directory.writeBytes(named);
        count++;
        return this;
    }

    byte[] bytes() {
        ByteBuffer end = little(22);
        end.putInt(0x06054b50).putInt(0).putShort((short) count).putShort((short) count);
        end.putInt(directory.size()).putInt(local.size()).putShort((short) 0);
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        all.writeBytes(local.toByteArray());
        all.writeBytes(directory.toByteArray());
        all.writeBytes(end.array());
        return all.toByteArray();
    }

    Path to(Path file) throws IOException {
        return Files.write(file, bytes());
    }

    /** Returns a zip file's bytes with the large form of its end (zip64), which says that it has so many entries. */
    static byte[] withLargeEnd(byte[] zip, long entries) {
        int end = zip.length - 22;
        ByteBuffer old = ByteBuffer.wrap(zip).order(ByteOrder.LITTLE_ENDIAN);
        ByteBuffer all = little(zip.length + 56 + 20);
        all.put(zip, 0, end);
        all.putInt(0x06064b50)
                .putLong(44)
                .putShort((short) 45)
                .putShort((short) 45)
                .putInt(0)
                .putInt(0);
        all.putLong(entries).putLong(entries).putLong(old.getInt(end + 12)).putLong(old.getInt(end + 16));
        all.putInt(0x07064b50).putInt(0).putLong(end).putInt(1);
        all.putInt(0x06054b50).putInt(0).putShort((short) 0xffff).putShort((short) 0xffff);
        all.putInt(old.getInt(end + 12)).putInt(-1).putShort((short) 0);
        return all.array();
    }

    private static ByteBuffer little(int size) {
        return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static long sum(byte[] bytes) {
        CRC32 sum = new CRC32();
        sum.update(bytes);
        return sum.getValue();
    }

    private static byte[] deflated(byte[] bytes) {
        Deflater deflater = new Deflater(9, true);
        deflater.setInput(bytes);
        deflater.finish();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        byte[] part = new byte[8192];
        while (!deflater.finished()) {
            out.write(part, 0, deflater.deflate(part));
        }
        deflater.end();
        return out.toByteArray();
    }
}
