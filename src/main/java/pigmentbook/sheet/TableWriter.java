package pigmentbook.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.xssf.usermodel.XSSFFont;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import pigmentbook.store.Table;

/** Writes plain tables, a sheet each. Every cell is a text, so that it is read back as it was written. */
public final class TableWriter {

    private static final int WIDTH_UNITS = 256;
    private static final int MOST_WIDTH = 60;

    private TableWriter() {}

    /**
     * Writes an xlsx workbook.
     *
     * @param out where to; not closed
     */
    public static void xlsx(List<Table> tables, OutputStream out) throws IOException {
        try (XSSFWorkbook workbook = new XSSFWorkbook()) {
            XSSFFont bold = workbook.createFont();
            bold.setBold(true);
            CellStyle head = workbook.createCellStyle();
            head.setFont(bold);
            for (Table table : tables) {
                XSSFSheet sheet = workbook.createSheet(table.sheet());
                sheet.createFreezePane(0, 1);
                int[] widths = new int[columns(table)];
                for (Table.Row row : table.rows()) {
                    XSSFRow written = sheet.createRow(row.number() - 1);
                    for (int i = 0; i < row.cells().size(); i++) {
                        String text = row.cells().get(i);
                        widths[i] = Math.max(widths[i], Math.min(MOST_WIDTH, text.length() + 2));
                        if (!text.isEmpty()) {
                            written.createCell(i).setCellValue(text);
                            if (row.number() == 1) {
                                written.getCell(i).setCellStyle(head);
                            }
                        }
                    }
                }
                for (int i = 0; i < widths.length; i++) {
                    sheet.setColumnWidth(i, widths[i] * WIDTH_UNITS);
                }
            }
            workbook.write(out);
        }
    }

    private static int columns(Table table) {
        return table.rows().stream().mapToInt(row -> row.cells().size()).max().orElse(0);
    }

    /**
     * Writes an OpenDocument spreadsheet.
     *
     * @param out where to; not closed
     */
    public static void ods(List<Table> tables, OutputStream out) throws IOException {
        ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
        byte[] mime = SheetWriters.Format.ODS.mediaType().getBytes(StandardCharsets.US_ASCII);
        CRC32 sum = new CRC32();
        sum.update(mime);
        ZipEntry first = new ZipEntry("mimetype");
        first.setMethod(ZipEntry.STORED);
        first.setSize(mime.length);
        first.setCrc(sum.getValue());
        zip.putNextEntry(first);
        zip.write(mime);
        zip.closeEntry();
        part(zip, "content.xml", content(tables));
        part(zip, "META-INF/manifest.xml", manifest());
        zip.finish();
    }

    private static void part(ZipOutputStream zip, String name, Xml xml) throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        xml.moveTo(zip);
        zip.closeEntry();
    }

    private static Xml content(List<Table> tables) {
        Xml xml = OdsStyles.document("office:document-content")
                .open("office:body")
                .open("office:spreadsheet");
        for (Table table : tables) {
            xml.open("table:table").attr("table:name", table.sheet());
            xml.open("table:table-column")
                    .attr("table:number-columns-repeated", Math.max(1, columns(table)))
                    .close();
            for (Table.Row row : table.rows()) {
                xml.open("table:table-row");
                row.cells().forEach(text -> cell(xml, text));
                xml.close();
            }
            xml.close();
        }
        return xml.close().close().close();
    }

    private static void cell(Xml xml, String text) {
        xml.open("table:table-cell");
        if (!text.isEmpty()) {
            xml.attr("office:value-type", "string");
            for (String line : text.split("\n", -1)) {
                xml.open("text:p").text(line).close();
            }
        }
        xml.close();
    }

    private static Xml manifest() {
        Xml xml = new Xml().raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        xml.open("manifest:manifest")
                .attr("xmlns:manifest", "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0")
                .attr("manifest:version", "1.3");
        entry(xml, "/", SheetWriters.Format.ODS.mediaType());
        entry(xml, "content.xml", "text/xml");
        return xml.close();
    }

    private static void entry(Xml xml, String path, String type) {
        xml.open("manifest:file-entry")
                .attr("manifest:full-path", path)
                .attr("manifest:media-type", type)
                .close();
    }
}
