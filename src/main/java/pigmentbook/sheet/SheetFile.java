package pigmentbook.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import pigmentbook.store.LooseJson;

/** Reads a filled-in mix sheet from a file, by what the file holds and not by what its name says. */
public final class SheetFile {

    private static final long MOST_BYTES = 16L * 1024 * 1024;
    private static final int MOST_TEXT_BYTES = 8 * 1024 * 1024;
    private static final String ZIP = "504b";
    private static final String OLD_OFFICE = "d0cf11e0a1b11ae1";

    /** The first bytes of what people mistake for a sheet, and what it is. */
    private static final String[][] OTHERS = {
        {"25504446", "a PDF"}, {"89504e47", "a picture"}, {"ffd8ff", "a picture"}, {"47494638", "a picture"}
    };

    private SheetFile() {}

    /**
     * Reads a file: xlsx, ods, csv, or our own JSON of entries. The file is only ever read.
     *
     * @throws NoMixSheetException if it is none of these, or no mix sheet; the message begins with the file's name
     */
    public static Entries read(Path file) throws NoMixSheetException {
        return read(file, Shown.quoted(String.valueOf(file.getFileName())));
    }

    /**
     * Reads a file whose own name says nothing to the person who handed it in.
     *
     * @param called what messages call it, such as {@code This file}
     * @throws NoMixSheetException as {@link #read(Path)} does; the message begins with what the file is called
     */
    public static Entries read(Path file, String called) throws NoMixSheetException {
        try {
            return content(file);
        } catch (NoMixSheetException e) {
            throw new NoMixSheetException(called + " " + e.getMessage());
        } catch (IOException e) {
            throw new NoMixSheetException(called + " can't be read. Check who may read it.");
        }
    }

    private static Entries content(Path file) throws NoMixSheetException, IOException {
        if (Files.isDirectory(file)) {
            throw new NoMixSheetException("is a folder. Name the sheet that was filled in.");
        }
        if (!Files.exists(file)) {
            throw new NoMixSheetException("is not there. Name the sheet that was filled in.");
        }
        if (!Files.isRegularFile(file)) {
            throw new NoMixSheetException("is no file that can be read back.");
        }
        long size = Files.size(file);
        if (size == 0) {
            throw new NoMixSheetException("is empty. Fetch it again.");
        }
        if (size > MOST_BYTES) {
            throw new NoMixSheetException(
                    "is larger than " + MOST_BYTES / 1024 / 1024 + " MiB; no mix sheet is. It is not read.");
        }
        byte[] start = new byte[OLD_OFFICE.length() / 2];
        int got;
        try (InputStream in = Files.newInputStream(file)) {
            got = in.readNBytes(start, 0, start.length);
        }
        String hex = HexFormat.of().formatHex(start, 0, got);
        if (hex.startsWith(ZIP)) {
            return workbook(file);
        }
        byte[] bytes = Files.readAllBytes(file);
        if (hex.startsWith(OLD_OFFICE)) {
            throw old(bytes);
        }
        for (String[] other : OTHERS) {
            if (hex.startsWith(other[0])) {
                throw new NoMixSheetException(
                        "is " + other[1] + ", no mix sheet. Read the xlsx, ods or csv that was filled in.");
            }
        }
        return text(bytes);
    }

    private static Entries workbook(Path file) throws NoMixSheetException, IOException {
        try (ZipParts zip = ZipParts.open(file)) {
            if (zip.has("content.xml") || zip.has("encrypted-package") || zip.has("mimetype")) {
                return Located.entries(OdsReader.read(zip));
            }
            if (zip.has("[Content_Types].xml")) {
                return Located.entries(XlsxReader.read(zip));
            }
        }
        throw new NoMixSheetException(
                "is a packed folder, no mix sheet. Read the xlsx, ods or csv that was filled in.");
    }

    /** An xlsx with a password is wrapped in the older format. */
    private static NoMixSheetException old(byte[] bytes) {
        byte[] wanted = "EncryptedPackage".getBytes(StandardCharsets.UTF_16LE);
        for (int i = 0; i + wanted.length <= bytes.length; i++) {
            if (bytes[i] == wanted[0] && Arrays.equals(bytes, i, i + wanted.length, wanted, 0, wanted.length)) {
                return new NoMixSheetException(
                        "is locked with a password. Open it, save it without one, and read that one.");
            }
        }
        return new NoMixSheetException("is of an older office format. Save it as .xlsx or .ods and read that one.");
    }

    private static Entries text(byte[] bytes) throws NoMixSheetException {
        if (bytes.length > MOST_TEXT_BYTES) {
            throw new NoMixSheetException(
                    "is larger than " + MOST_TEXT_BYTES / 1024 / 1024 + " MiB; no table of a mix is. It is not read.");
        }
        String start = new String(bytes, 0, Math.min(bytes.length, 200), StandardCharsets.UTF_8)
                .replace("\ufeff", "")
                .stripLeading();
        if (start.startsWith("{")) {
            try {
                return Entries.of(LooseJson.read(bytes));
            } catch (IOException e) {
                throw new NoMixSheetException("is no JSON that can be read. " + e.getMessage());
            }
        }
        if (start.startsWith("<")) {
            throw new NoMixSheetException(
                    "is a page for the screen or for paper. Read the xlsx, ods or csv that was filled in.");
        }
        return CsvSheets.read(bytes);
    }
}
