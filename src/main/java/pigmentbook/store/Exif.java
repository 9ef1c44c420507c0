package pigmentbook.store;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/** How a camera was held, from the one entry of a JPEG's Exif that matters here; all else in it is left behind. */
final class Exif {

    private static final int START = 0xFFD8;
    private static final int APP1 = 0xFFE1;
    private static final int SCAN = 0xFFDA;
    private static final int TAG_ORIENTATION = 0x0112;
    private static final int ENTRY_BYTES = 12;
    private static final int UPRIGHT = 1;

    private Exif() {}

    /** Returns 1 to 8 as Exif 2.3 has it; 1, upright, where nothing is said or it can't be read. */
    static int orientation(byte[] jpeg) {
        ByteBuffer bytes = ByteBuffer.wrap(jpeg);
        try {
            if ((bytes.getShort(0) & 0xFFFF) != START) {
                return UPRIGHT;
            }
            int at = 2;
            while (at + 4 <= jpeg.length) {
                int marker = bytes.getShort(at) & 0xFFFF;
                int length = bytes.getShort(at + 2) & 0xFFFF;
                if (marker == SCAN || length < 2) {
                    return UPRIGHT;
                }
                if (marker == APP1 && bytes.getInt(at + 4) == 0x45786966) {
                    return inTiff(bytes.slice(at + 10, length - 8));
                }
                at += 2 + length;
            }
            return UPRIGHT;
        } catch (IndexOutOfBoundsException e) {
            return UPRIGHT;
        }
    }

    private static int inTiff(ByteBuffer tiff) {
        tiff.order(tiff.getShort(0) == 0x4949 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        int directory = tiff.getInt(4);
        int entries = tiff.getShort(directory) & 0xFFFF;
        for (int i = 0; i < entries; i++) {
            int at = directory + 2 + i * ENTRY_BYTES;
            if ((tiff.getShort(at) & 0xFFFF) == TAG_ORIENTATION) {
                int value = tiff.getShort(at + 8) & 0xFFFF;
                return value >= 1 && value <= 8 ? value : UPRIGHT;
            }
        }
        return UPRIGHT;
    }
}
