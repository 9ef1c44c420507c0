package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.poi.poifs.crypt.EncryptionInfo;
import org.apache.poi.poifs.crypt.EncryptionMode;
import org.apache.poi.poifs.crypt.Encryptor;
import org.apache.poi.poifs.filesystem.POIFSFileSystem;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xssf.usermodel.XSSFCell;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import pigmentbook.store.Table;

/** Reading somebody's tables: each cell as its owner would type it, and no file can do harm. */
class TableReaderTest {

    private static final String HEAD =
            "<office:document-content xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\""
                    + " xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\""
                    + " xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\"><office:body><office:spreadsheet>";
    private static final String FOOT = "</office:spreadsheet></office:body></office:document-content>";

    @TempDir
    Path temp;

    private List<List<String>> cells(Path file) throws BadTableException {
        return TableReader.read(file).get(0).rows().stream()
                .map(Table.Row::cells)
                .toList();
    }

    private Path csv(String text, Charset charset) throws IOException {
        return Files.write(temp.resolve("table.csv"), text.getBytes(charset));
    }

    private Path zip(String name, String... entries) throws IOException {
        Path file = temp.resolve(name);
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
            for (int i = 0; i < entries.length; i += 2) {
                zip.putNextEntry(new ZipEntry(entries[i]));
                zip.write(entries[i + 1].getBytes(StandardCharsets.UTF_8));
            }
        }
        return file;
    }

    private Path ods(String tables) throws IOException {
        return zip("table.ods", "content.xml", HEAD + tables + FOOT);
    }

    private void refused(Path file, String message) {
        long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        assertThatThrownBy(() -> TableReader.read(file))
                .isInstanceOf(BadTableException.class)
                .hasMessage(message);
        // This thread's own time, however busy the computer is.
        assertThat(ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before)
                .isLessThan(TimeUnit.SECONDS.toNanos(5));
    }

    @ParameterizedTest
    @ValueSource(strings = {",", ";", "\t"})
    void csvIsReadWhateverStandsBetweenItsCells(String between) throws Exception {
        String text = "\ufeffName|Notes\r\n\"Ember, or; so\"|\"two\nlines \"\"quoted\"\"\"\r\n\r\n'=5|ü\r\n";
        Path file = csv(text.replace("|", between), StandardCharsets.UTF_8);
        assertThat(cells(file))
                .containsExactly(
                        List.of("Name", "Notes"),
                        List.of("Ember, or; so", "two\nlines \"quoted\""),
                        List.of("=5", "ü"));
        assertThat(TableReader.read(file).get(0).rows().get(2).number()).isEqualTo(4);
    }

    @Test
    void csvInUtf16HasItsMark() throws Exception {
        assertThat(cells(csv("\ufeffName;Größe\n", StandardCharsets.UTF_16LE)))
                .containsExactly(List.of("Name", "Größe"));
        assertThat(cells(csv("\ufeffName;Größe\n", StandardCharsets.UTF_16BE)))
                .containsExactly(List.of("Name", "Größe"));
    }

    @Test
    void csvThatIsNoTextIsRefused() throws Exception {
        refused(
                csv("Name;Größe", StandardCharsets.ISO_8859_1),
                "The file is neither a workbook nor UTF-8 text. Save the table as xlsx, ods or csv in UTF-8.");
        refused(
                csv("a\0b", StandardCharsets.UTF_8),
                "The file is no table. Save the table as xlsx, ods or csv in UTF-8.");
        refused(csv(" \n", StandardCharsets.UTF_8), "The file is empty.");
        refused(
                csv("Name,Notes\nEmber,\"" + "x\n".repeat(500), StandardCharsets.UTF_8),
                "The csv file can't be read beyond its row 2: look for a quote that is not closed there.");
        refused(temp.resolve("none"), "There is no file \"" + temp.resolve("none") + "\". Name the table.");
    }

    private static CellStyle style(XSSFWorkbook workbook, String format) {
        CellStyle style = workbook.createCellStyle();
        style.setDataFormat(workbook.createDataFormat().getFormat(format));
        return style;
    }

    private Path xlsx(XSSFWorkbook workbook) throws IOException {
        Path file = temp.resolve("table.xlsx");
        try (OutputStream out = Files.newOutputStream(file)) {
            workbook.write(out);
        }
        workbook.close();
        return file;
    }

    @Test
    void aFigureInAWorkbookKeepsItsPercentSignUnitAndDay() throws Exception {
        XSSFWorkbook workbook = new XSSFWorkbook();
        XSSFSheet sheet = workbook.createSheet("Colours");
        XSSFRow row = sheet.createRow(4);
        String[] formats = {"0.00%", "0.0\" g\"", "General", "yyyy-mm-dd", "dd.mm.yy", "[$€-407] 0.00", "0.0"};
        double[] values = {0.012, 3.6, 0.35, 46112, 46112, 62.5, 0.1 + 0.2};
        for (int i = 0; i < formats.length; i++) {
            XSSFCell cell = row.createCell(i);
            cell.setCellValue(values[i]);
            cell.setCellStyle(style(workbook, formats[i]));
        }
        XSSFCell formula = row.createCell(8);
        formula.setCellFormula("1+1");
        formula.setCellValue(2);
        row.createCell(9).setCellValue("=text");
        row.createCell(10).setCellErrorValue(org.apache.poi.ss.usermodel.FormulaError.REF);
        sheet.addMergedRegion(new CellRangeAddress(4, 5, 9, 9));
        workbook.createSheet("Empty");
        Path file = xlsx(workbook);
        // Day 46112 after 30 December 1899 is 31 March 2026.
        String day = LocalDate.of(1899, 12, 30).plusDays(46112).toString();
        assertThat(day).isEqualTo("2026-03-31");
        assertThat(cells(file))
                .containsExactly(List.of(
                        "1.2 %",
                        "3.6 g", "0.35", day, day, "€ 62.5", "0.30000000000000004", "", "2", "=text", "#REF!"));
        assertThat(TableReader.read(file)).extracting(Table::sheet).containsExactly("Colours", "Empty");
        assertThat(TableReader.read(file).get(0).rows().get(0).number()).isEqualTo(5);
    }

    @Test
    void anOdsTableIsReadWithItsRepeatsAndWithoutItsNotes() throws Exception {
        Path file = ods("<table:table table:name=\"Colours\">"
                + "<table:table-column table:number-columns-repeated=\"16384\"/>"
                + "<table:table-row table:number-rows-repeated=\"3\"><table:table-cell table:number-columns-repeated=\"16384\"/></table:table-row>"
                + "<table:table-row>"
                + "<table:table-cell office:value-type=\"percentage\" office:value=\"0.012\"><text:p>1.20%</text:p></table:table-cell>"
                + "<table:table-cell office:value-type=\"float\" office:value=\"3.6\"><office:annotation><text:p>a note</text:p></office:annotation><text:p>3.60 g</text:p></table:table-cell>"
                + "<table:table-cell office:value-type=\"date\" office:date-value=\"2026-03-31T00:00:00\"><text:p>31/03/26</text:p></table:table-cell>"
                + "<table:table-cell office:value-type=\"currency\" office:currency=\"EUR\" office:value=\"62.5\"><text:p>62.50 €</text:p></table:table-cell>"
                + "<table:table-cell table:number-columns-repeated=\"2\" office:value-type=\"string\"><text:p>Em<text:span>ber</text:span><text:s text:c=\"2\"/>x</text:p><text:p>two</text:p></table:table-cell>"
                + "<table:covered-table-cell/>"
                + "</table:table-row>"
                + "<table:table-row table:number-rows-repeated=\"1048572\"><table:table-cell/></table:table-row>"
                + "</table:table><table:table table:name=\"Lots\"/>");
        assertThat(cells(file))
                .containsExactly(List.of("1.2 %", "3.6 g", "2026-03-31", "62.5 EUR", "Ember  x\ntwo", "Ember  x\ntwo"));
        assertThat(TableReader.read(file).get(0).rows().get(0).number()).isEqualTo(4);
        assertThat(TableReader.read(file)).extracting(Table::sheet).containsExactly("Colours", "Lots");
    }

    @Test
    void aLockedWorkbookIsNamedAsSuch() throws Exception {
        Path file = temp.resolve("locked.xlsx");
        EncryptionInfo info = new EncryptionInfo(EncryptionMode.agile);
        Encryptor encryptor = info.getEncryptor();
        encryptor.confirmPassword("secret");
        try (POIFSFileSystem inside = new POIFSFileSystem();
                XSSFWorkbook workbook = new XSSFWorkbook()) {
            workbook.createSheet("x");
            try (OutputStream out = encryptor.getDataStream(inside)) {
                workbook.write(out);
            }
            try (OutputStream out = Files.newOutputStream(file)) {
                inside.writeFilesystem(out);
            }
        }
        String message = "The workbook is locked with a password. Save it without one, then bring it in.";
        refused(file, message);
        refused(
                zip(
                        "locked.ods",
                        "META-INF/manifest.xml",
                        "<m:manifest xmlns:m=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\"><m:file-entry><m:encryption-data/></m:file-entry></m:manifest>",
                        "content.xml",
                        "x"),
                message);
        refused(zip("wholly.ods", "encrypted-package", "x"), message);
    }

    @Test
    void whatIsNoWorkbookIsRefused() throws Exception {
        String damaged = "The workbook is damaged or none. Save it anew as xlsx, ods or csv.";
        refused(
                zip("pack.zip", "ember.json", "{}"),
                "This is a zip file, but no workbook. A pack is taken in with \"unpack\".");
        refused(zip("broken.ods", "content.xml", "<x>"), damaged);
        refused(zip("broken.xlsx", "[Content_Types].xml", "<x>"), damaged);
        ByteArrayOutputStream whole = new ByteArrayOutputStream();
        try (XSSFWorkbook workbook = new XSSFWorkbook()) {
            workbook.createSheet("x");
            workbook.write(whole);
        }
        byte[] cut = java.util.Arrays.copyOf(whole.toByteArray(), whole.size() / 2);
        refused(
                Files.write(temp.resolve("cut.xlsx"), cut),
                "The workbook can't be opened. This file is cut short or damaged, or no zip file. Fetch it again."
                        + " Nothing was changed.");
        byte[] old = {(byte) 0xd0, (byte) 0xcf, 0x11, (byte) 0xe0, 1, 2, 3};
        refused(
                Files.write(temp.resolve("old.xls"), old),
                "The file is damaged. Fetch it again, or save it anew as xlsx, ods or csv.");
    }

    @Test
    void aWorkbookMadeToFillMemoryIsRefused() throws Exception {
        refused(
                zip("bomb.ods", "content.xml", HEAD + " ".repeat(50_000_000) + FOOT),
                "The workbook can't be opened. This file would unpack to far more than a book holds, or its entries share"
                        + " their bytes: it is made to fill memory or disk. Nothing was unpacked.");
        refused(
                ods("<table:table table:name=\"x\"><table:table-row table:number-rows-repeated=\"1000000\">"
                        + "<table:table-cell office:value-type=\"string\"><text:p>x</text:p></table:table-cell>"
                        + "</table:table-row></table:table>"),
                "The table has more than 50000 filled rows. Split it into smaller ones.");
        refused(
                ods("<table:table table:name=\"x\"><table:table-row>"
                        + "<table:table-cell table:number-columns-repeated=\"1000000\" office:value-type=\"string\"><text:p>x</text:p></table:table-cell>"
                        + "</table:table-row></table:table>"),
                "The table has more than 256 columns. Take out what is no table.");
        String nested = "<text:span>".repeat(50_000);
        refused(
                ods("<table:table table:name=\"x\"><table:table-row><table:table-cell><text:p>" + nested),
                "The workbook is damaged or none. Save it anew as xlsx, ods or csv.");
        refused(
                ods("<table:table table:name=\"x\"><table:table-row>"
                        + "<table:table-cell table:number-columns-repeated=\"-3\"/></table:table-row></table:table>"),
                "The workbook is damaged or none. Save it anew as xlsx, ods or csv.");
    }

    @Test
    void anOdsFileCantReachForOtherFiles() throws Exception {
        Files.writeString(temp.resolve("secret.txt"), "secret");
        refused(
                zip(
                        "table.ods",
                        "content.xml",
                        "<!DOCTYPE x [<!ENTITY e SYSTEM \""
                                + temp.resolve("secret.txt").toUri() + "\">]>" + HEAD + FOOT),
                "The workbook is damaged or none. Save it anew as xlsx, ods or csv.");
    }
}
