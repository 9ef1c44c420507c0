package pigmentbook.store;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** The version tag of a record: a hash of its file's bytes. */
final class Versions {

    private static final int BYTES = 16;

    private Versions() {}

    /** Returns the tag: the first half of the SHA-256 of the bytes, in hexadecimal digits. */
    static String of(byte[] bytes) {
        return sha256(bytes).substring(0, 2 * BYTES);
    }

    /** Returns the whole SHA-256 of the bytes, in hexadecimal digits. */
    static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
