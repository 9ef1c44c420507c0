package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.poi.openxml4j.exceptions.InvalidFormatException;
import org.apache.poi.openxml4j.opc.OPCPackage;
import org.apache.poi.poifs.crypt.EncryptionInfo;
import org.apache.poi.poifs.crypt.EncryptionMode;
import org.apache.poi.poifs.crypt.Encryptor;
import org.apache.poi.poifs.filesystem.POIFSFileSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What is no sheet, or was made to do harm, is refused within seconds, by name and reason. */
@Timeout(value = 20, unit = TimeUnit.SECONDS)
class HostileSheetsTest {

    private static final MixSheet SHEET = Studio.sheet(Studio.mix(Studio.Order.total("940 g")));
    private static final byte[] XLSX = Studio.written(SheetWriters.Format.XLSX, SHEET);
    private static final byte[] ODS = Studio.written(SheetWriters.Format.ODS, SHEET);
    private static final int MIB = 1024 * 1024;
    private static final String DAMAGED = "is damaged or cut short. Fetch it again, or save it anew.";

    @TempDir
    Path folder;

    private void refuses(String name, byte[] bytes, String because) throws IOException {
        Path file = Files.write(folder.resolve(name), bytes);
        assertThatThrownBy(() -> SheetFile.read(file))
                .isInstanceOf(NoMixSheetException.class)
                .hasMessageStartingWith("\"" + name + "\" ")
                .hasMessageContaining(because);
        assertThat(Files.readAllBytes(file)).isEqualTo(bytes);
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static String part(byte[] zip, String name) throws IOException {
        return new String(Reread.entry(zip, name), StandardCharsets.UTF_8);
    }

    @Test
    void aPartThatUnpacksWithoutEnd() throws IOException {
        refuses("bomb.xlsx", bomb(XLSX, "xl/worksheets/sheet1.xml"), "unpacks to more than 8 MiB");
        refuses("bomb.ods", bomb(ODS, "content.xml"), "unpacks to more than 8 MiB");
        refuses("strings.xlsx", bomb(XLSX, "xl/sharedStrings.xml"), "unpacks to more than 8 MiB");
    }

    /** A part of 64 MiB of spaces, which packs to a thousandth of it. */
    private static byte[] bomb(byte[] zip, String part) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        byte[] spaces = new byte[MIB];
        Arrays.fill(spaces, (byte) ' ');
        try (ZipOutputStream out = new ZipOutputStream(bytes);
                var in = new java.util.zip.ZipInputStream(new ByteArrayInputStream(zip))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                out.putNextEntry(new ZipEntry(entry.getName()));
                if (entry.getName().equals(part)) {
                    for (int i = 0; i < 64; i++) {
                        out.write(spaces);
                    }
                } else {
                    in.transferTo(out);
                }
            }
        }
        return bytes.toByteArray();
    }

    @Test
    void entitiesThatMultiplyOrReadOtherFiles() throws IOException {
        StringBuilder lol = new StringBuilder("<!DOCTYPE x [<!ENTITY a0 \"ha\">");
        for (int i = 1; i < 30; i++) {
            lol.append("<!ENTITY a")
                    .append(i)
                    .append(" \"")
                    .append(("&a" + (i - 1) + ";").repeat(10))
                    .append("\">");
        }
        String type = lol.append("]>").toString();
        for (String text : new String[] {"&a29;", ""}) {
            byte[] ods = Filled.with(ODS, "content.xml", withType(part(ODS, "content.xml"), type, text));
            refuses("entities.ods", ods, "document type");
            byte[] xlsx =
                    Filled.with(XLSX, "xl/sharedStrings.xml", withType(part(XLSX, "xl/sharedStrings.xml"), type, text));
            refuses("entities.xlsx", xlsx, "document type");
        }
        String other = "<!DOCTYPE x [<!ENTITY f SYSTEM \"file:///etc/hostname\">]>";
        byte[] reads = Filled.with(ODS, "content.xml", withType(part(ODS, "content.xml"), other, "&f;"));
        refuses("reads.ods", reads, "document type");
    }

    private static byte[] withType(String xml, String type, String text) {
        return utf8(xml.replaceFirst("\\?>", "?>" + type.replace("\\", "\\\\")).replaceFirst("Ember", "Ember" + text));
    }

    @Test
    void oneThatIsLockedWithAPassword() throws Exception {
        refuses("locked.xlsx", encrypted(XLSX), "is locked with a password");
        String manifest = part(ODS, "META-INF/manifest.xml")
                .replaceFirst(
                        "(<manifest:file-entry manifest:full-path=\"content.xml\"[^>]*)/>",
                        "$1><manifest:encryption-data/></manifest:file-entry>");
        byte[] ods = Filled.with(ODS, "META-INF/manifest.xml", utf8(manifest));
        refuses("locked.ods", Filled.with(ods, "content.xml", new byte[] {1, 2, 3}), "is locked with a password");
        Map<String, byte[]> whole = new LinkedHashMap<>();
        whole.put("mimetype", utf8("application/vnd.oasis.opendocument.spreadsheet"));
        whole.put("encrypted-package", new byte[100]);
        refuses("locked-whole.ods", Filled.zip(whole), "is locked with a password");
    }

    private static byte[] encrypted(byte[] xlsx) throws Exception {
        try (POIFSFileSystem files = new POIFSFileSystem()) {
            Encryptor encryptor = new EncryptionInfo(EncryptionMode.agile).getEncryptor();
            encryptor.confirmPassword("ash");
            try (OPCPackage book = OPCPackage.open(new ByteArrayInputStream(xlsx));
                    OutputStream out = encryptor.getDataStream(files)) {
                book.save(out);
            } catch (InvalidFormatException e) {
                throw new AssertionError(e);
            }
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            files.writeFilesystem(bytes);
            return bytes.toByteArray();
        }
    }

    @Test
    void oneThatIsCutShortOrAltered() throws IOException {
        for (byte[] whole : new byte[][] {XLSX, ODS}) {
            for (int parts = 1; parts < 8; parts++) {
                refuses("short.xlsx", Arrays.copyOf(whole, whole.length * parts / 8), DAMAGED);
            }
        }
        // One altered byte in a stored part is found by its sum, nowhere else.
        byte[] altered = stored("content.xml", Reread.entry(ODS, "content.xml"));
        int at = new String(altered, StandardCharsets.ISO_8859_1).indexOf("Ember");
        altered[at] = 'I';
        refuses("altered.ods", altered, DAMAGED);
        refuses("broken.ods", Filled.with(ODS, "content.xml", utf8("<a><b></a>")), "XML that can't be read");
    }

    private static byte[] stored(String name, byte[] content) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream out = new ZipOutputStream(bytes)) {
            ZipEntry entry = new ZipEntry(name);
            java.util.zip.CRC32 sum = new java.util.zip.CRC32();
            sum.update(content);
            entry.setMethod(ZipEntry.STORED);
            entry.setSize(content.length);
            entry.setCrc(sum.getValue());
            out.putNextEntry(entry);
            out.write(content);
        }
        return bytes.toByteArray();
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS", "CSV"})
    void oneUnderAWrongNameIsReadByWhatItHolds(SheetWriters.Format format) throws IOException, NoMixSheetException {
        for (String ending : new String[] {"xlsx", "ods", "csv", "txt", "json"}) {
            Path file = Files.write(folder.resolve("sheet." + ending), Studio.written(format, SHEET));
            assertThat(SheetFile.read(file).cells()).containsEntry("mix_id", "2026-11-25-ember-1");
        }
    }

    @Test
    void cellsThatRepeatAMillionTimes() throws IOException, NoMixSheetException {
        String content = part(ODS, "content.xml");
        String empty = "<table:table-row table:number-rows-repeated=\"1048000\"><table:table-cell"
                + " table:number-columns-repeated=\"16384\"/></table:table-row>";
        Path file = Files.write(
                folder.resolve("empty.ods"),
                Filled.with(ODS, "content.xml", utf8(content.replace("</table:table>", empty + "</table:table>"))));
        assertThat(SheetFile.read(file).cells()).containsEntry("mix_id", "2026-11-25-ember-1");
        for (String[] times : new String[][] {{"1048000", "16384"}, {"1", "2147483647"}, {"99999999999999", "1"}}) {
            String full = "<table:table-row table:number-rows-repeated=\"" + times[0] + "\"><table:table-cell"
                    + " office:value-type=\"string\" table:number-columns-repeated=\"" + times[1]
                    + "\"><text:p>x</text:p></table:table-cell></table:table-row>";
            byte[] bytes =
                    Filled.with(ODS, "content.xml", utf8(content.replace("</table:table>", full + "</table:table>")));
            refuses("full.ods", bytes, "holds more than 100000 filled cells");
        }
        String spaces = content.replaceFirst("<text:p>Ember", "<text:p><text:s text:c=\"2000000000\"/>Ember");
        refuses("spaces.ods", Filled.with(ODS, "content.xml", utf8(spaces)), "a cell of more than 32767 characters");
    }

    @Test
    void textsWithoutEndAndNestingWithoutEnd() throws IOException {
        String strings = part(XLSX, "xl/sharedStrings.xml").replaceFirst("Ember", "E".repeat(7 * MIB));
        refuses(
                "long.xlsx",
                Filled.with(XLSX, "xl/sharedStrings.xml", utf8(strings)),
                "a cell of more than 32767 characters");
        String nested = part(ODS, "content.xml").replaceFirst("<text:p>", "<text:p>" + "<text:span>".repeat(100_000));
        refuses("nested.ods", Filled.with(ODS, "content.xml", utf8(nested)), "is nested too deeply");
        StringBuilder many = new StringBuilder();
        for (int i = 0; i < 150_000; i++) {
            many.append("<c r=\"A").append(1000 + i).append("\"><v>1</v></c>");
        }
        String sheet =
                part(XLSX, "xl/worksheets/sheet1.xml").replace("</sheetData>", "<row>" + many + "</row></sheetData>");
        refuses(
                "many.xlsx",
                Filled.with(XLSX, "xl/worksheets/sheet1.xml", utf8(sheet)),
                "holds more than 100000 filled cells");
    }

    @Test
    void aZipOfManyPartsAndOneOfOtherThings() throws IOException {
        Map<String, byte[]> parts = new LinkedHashMap<>();
        for (int i = 0; i < 501; i++) {
            parts.put("content.xml" + i, new byte[0]);
        }
        refuses("many.ods", Filled.zip(parts), "holds 501 parts");
        refuses("other.zip", Filled.zip(Map.of("readme.txt", utf8("words"))), "is a packed folder");
        refuses(
                "words.odt",
                Filled.zip(Map.of(
                        "mimetype", utf8("application/vnd.oasis.opendocument.text"), "content.xml", utf8("<a/>"))),
                "no spreadsheet");
        refuses("no-id.ods", Filled.with(ODS, "content.xml", utf8("<a/>")), "nothing in it is named mix_id");
    }

    @Test
    void whatIsNoSheetAtAll() throws IOException {
        refuses("empty.xlsx", new byte[0], "is empty");
        refuses("picture.ods", new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 0}, "is a picture");
        refuses("paper.pdf", utf8("%PDF-1.7"), "is a PDF");
        refuses("noise.csv", new byte[] {1, 2, 0, 4, (byte) 200}, "is no xlsx, ods or csv in UTF-8");
        refuses("words.csv", utf8("layer,cup\r\n1,1\r\n"), "a csv with the columns layer, cup, item, actual_g, mix_id");
        refuses("words.txt", utf8("ash and oak"), "is no mix sheet");
        refuses("page.html", Studio.written(SheetWriters.Format.HTML, SHEET), "is a page for the screen or for paper");
        refuses("draft.json", utf8("{ \"mix_id\": \"a-1\", \"entries\": { \"bad name\": \"1\" } }"), "has an entry");
        refuses("draft.json", utf8("{ \"mix_id\": \"a-1\", "), "is no JSON that can be read");
        refuses("draft.json", utf8("[".repeat(100)), "is no mix sheet");
        refuses("draft.json", utf8("{\"a\":" + "[".repeat(100_000)), "is no JSON that can be read");
        refuses("large.csv", new byte[9 * MIB], "is larger than 8 MiB");
        refuses("quote.csv", utf8("layer,cup,item,actual_g,mix_id\r\n1,1,\"part A" + "\n".repeat(200)), "is no csv");
        Path inner = Files.createDirectory(folder.resolve("inner.xlsx"));
        assertThatThrownBy(() -> SheetFile.read(inner)).hasMessageContaining("is a folder");
        assertThatThrownBy(() -> SheetFile.read(folder.resolve("none.xlsx"))).hasMessageContaining("is not there");
    }

    @Test
    void aCsvWithTheRowsOfTwoSheets() throws IOException {
        String csv = new String(Studio.written(SheetWriters.Format.CSV, SHEET), StandardCharsets.UTF_8);
        int last = csv.lastIndexOf("2026-11-25-ember-1");
        String two = csv.substring(0, last) + "2026-11-25-ember-2" + csv.substring(last + 18);
        refuses("two.csv", utf8(two), "rows of more than one sheet");
    }
}
