package pigmentbook.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.apache.poi.poifs.filesystem.POIFSFileSystem;
import pigmentbook.store.BadPackException;
import pigmentbook.store.Table;
import pigmentbook.store.ZipDirectory;

/**
 * Reads the tables of a workbook (xlsx, ods) or a csv file. What kind of file it is, its first bytes tell. The file may
 * come from anybody: sizes, ratios and counts have limits.
 */
public final class TableReader {

    private static final long MOST_BYTES = 32L * 1024 * 1024;
    private static final int OLD_OFFICE = 0xd0cf11e0;
    private static final int ZIP = 0x504b0304;
    private static final int EMPTY_ZIP = 0x504b0506;

    private TableReader() {}

    /**
     * Reads a file.
     *
     * @return its sheets, in order; one for a csv file
     * @throws BadTableException if it holds no table that can be read
     */
    public static List<Table> read(Path file) throws BadTableException {
        if (!Files.isRegularFile(file)) {
            throw new BadTableException("There is no file \"" + file + "\". Name the table.");
        }
        try {
            if (Files.size(file) > MOST_BYTES) {
                throw new BadTableException(
                        "The file is larger than " + MOST_BYTES / 1024 / 1024 + " MiB. Split it into smaller tables.");
            }
            return switch (firstBytes(file)) {
                case OLD_OFFICE -> throw oldOffice(file);
                case ZIP -> workbook(file);
                default -> List.of(CsvTable.read(Files.readAllBytes(file)));
            };
        } catch (IOException e) {
            throw new BadTableException("The file \"" + file + "\" can't be read. Check who may read it.");
        }
    }

    /** Returns whether a file is a zip file without a workbook in it: a pack, if it is of a book at all. */
    public static boolean isOtherZip(Path file) throws IOException {
        int first = firstBytes(file);
        if (first != ZIP && first != EMPTY_ZIP) {
            return false;
        }
        try {
            ZipDirectory.special(file);
        } catch (BadPackException e) {
            // Whoever opens it as a pack tells what is wrong with it.
            return true;
        }
        try (ZipFile zip = new ZipFile(file.toFile())) {
            return !isXlsx(zip) && !isOds(zip);
        } catch (ZipException e) {
            return true;
        }
    }

    private static boolean isXlsx(ZipFile zip) {
        return zip.getEntry("xl/workbook.xml") != null || zip.getEntry("[Content_Types].xml") != null;
    }

    private static boolean isOds(ZipFile zip) {
        return zip.getEntry("content.xml") != null || zip.getEntry("encrypted-package") != null;
    }

    private static int firstBytes(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            int first = 0;
            for (byte each : in.readNBytes(4)) {
                first = first << 8 | (each & 0xff);
            }
            return first;
        }
    }

    /** A workbook with a password lies inside a file of the old kind. */
    private static BadTableException oldOffice(Path file) {
        try (POIFSFileSystem inside = new POIFSFileSystem(file.toFile(), true)) {
            if (inside.getRoot().hasEntry("EncryptedPackage")) {
                return new BadTableException(
                        "The workbook is locked with a password. Save it without one, then bring it in.");
            }
        } catch (IOException | RuntimeException e) {
            return new BadTableException("The file is damaged. Fetch it again, or save it anew as xlsx, ods or csv.");
        }
        return new BadTableException("The file is of an old office format. Save it as xlsx, ods or csv.");
    }

    private static List<Table> workbook(Path file) throws IOException, BadTableException {
        try {
            ZipDirectory.special(file);
        } catch (BadPackException e) {
            throw new BadTableException("The workbook can't be opened. " + e.getMessage());
        }
        boolean xlsx;
        boolean ods;
        try (ZipFile zip = new ZipFile(file.toFile())) {
            xlsx = isXlsx(zip);
            ods = isOds(zip);
        } catch (IOException e) {
            throw new BadTableException("The workbook is damaged. Fetch it again, or save it anew.");
        }
        if (ods) {
            return OdsTable.read(file);
        }
        if (xlsx) {
            return XlsxTable.read(file);
        }
        throw new BadTableException("This is a zip file, but no workbook. A pack is taken in with \"unpack\".");
    }
}
