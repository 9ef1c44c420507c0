package pigmentbook.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Draws the page as an OpenDocument 1.3 spreadsheet. */
final class OdsWriter {

    private static final DateTimeFormatter ISO = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss", Locale.ROOT);
    private static final DateTimeFormatter SHOWN = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

    private final Grid grid;
    private final Map<String, Grid.Address> names;
    private final Map<String, String> references = new HashMap<>();
    private final OdsStyles styles = new OdsStyles();
    private final Xml body = new Xml();

    private OdsWriter(MixSheet sheet) {
        this.grid = sheet.page();
        names = grid.names();
        names.forEach((name, address) -> references.put(name, "[." + address.written() + "]"));
    }

    static void write(MixSheet sheet, OutputStream out) throws IOException {
        LocalDateTime made = sheet.info().made();
        ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
        // A sheet's mark-up repeats itself so much that the quickest level compresses nearly as well.
        zip.setLevel(Deflater.BEST_SPEED);
        stored(zip, made, SheetWriters.Format.ODS.mediaType().getBytes(StandardCharsets.US_ASCII));
        zip.putNextEntry(entry("content.xml", made));
        new OdsWriter(sheet).content(zip);
        part(zip, entry("styles.xml", made), OdsStyles.pageStyles(sheet));
        part(zip, entry("meta.xml", made), meta(sheet));
        part(zip, entry("META-INF/manifest.xml", made), manifest());
        zip.closeEntry();
        zip.finish();
    }

    private static void part(ZipOutputStream zip, ZipEntry entry, Xml xml) throws IOException {
        zip.closeEntry();
        zip.putNextEntry(entry);
        xml.moveTo(zip);
    }

    /** The first entry is stored plain, so that the kind of file can be read from its first bytes. */
    private static void stored(ZipOutputStream zip, LocalDateTime made, byte[] bytes) throws IOException {
        ZipEntry entry = entry("mimetype", made);
        CRC32 sum = new CRC32();
        sum.update(bytes);
        entry.setMethod(ZipEntry.STORED);
        entry.setSize(bytes.length);
        entry.setCompressedSize(bytes.length);
        entry.setCrc(sum.getValue());
        zip.putNextEntry(entry);
        zip.write(bytes);
        zip.closeEntry();
    }

    private static ZipEntry entry(String name, LocalDateTime made) {
        ZipEntry entry = new ZipEntry(name);
        entry.setTimeLocal(made);
        return entry;
    }

    private void content(OutputStream out) throws IOException {
        table(); // first, for it gathers the styles that stand before it
        Xml xml = OdsStyles.document("office:document-content");
        styles.write(xml, grid);
        xml.open("office:body").open("office:spreadsheet");
        checks(xml);
        xml.moveTo(out);
        body.moveTo(out);
        names(xml);
        xml.close().close().close().moveTo(out);
    }

    private void table() {
        body.open("table:table")
                .attr("table:name", grid.title())
                .attr("table:style-name", "ta")
                .attr("table:protected", "true")
                .attr("table:print-ranges", range());
        for (int i = 0; i < grid.columnsMm().size(); i++) {
            body.open("table:table-column").attr("table:style-name", "co" + i).close();
        }
        int[] coveredDown = new int[grid.columnsMm().size()];
        for (Grid.Row row : grid.rows()) {
            row(row, coveredDown);
        }
        body.close();
    }

    private String range() {
        Grid.Address last =
                new Grid.Address(grid.rows().size() - 1, grid.columnsMm().size() - 1);
        return grid.title() + ".$A$1:" + grid.title() + "." + last.written();
    }

    private void row(Grid.Row row, int[] coveredDown) {
        body.open("table:table-row").attr("table:style-name", styles.row(row));
        if (row.isHidden()) {
            body.attr("table:visibility", "collapse");
        }
        int column = 0;
        for (Grid.Placed placed : row.cells()) {
            skip(column, placed.column(), coveredDown);
            Cell cell = placed.cell();
            cell(cell);
            covered(cell.across() - 1);
            for (int i = 0; i < cell.across(); i++) {
                coveredDown[placed.column() + i] = cell.down() - 1;
            }
            column = placed.column() + cell.across();
        }
        skip(column, coveredDown.length, coveredDown);
        body.close();
    }

    private void skip(int from, int to, int[] coveredDown) {
        for (int column = from; column < to; column++) {
            boolean covered = coveredDown[column] > 0;
            body.open(covered ? "table:covered-table-cell" : "table:table-cell").close();
            if (covered) {
                coveredDown[column]--;
            }
        }
    }

    private void covered(int count) {
        if (count > 0) {
            body.open("table:covered-table-cell");
            if (count > 1) {
                body.attr("table:number-columns-repeated", count);
            }
            body.close();
        }
    }

    private void cell(Cell cell) {
        body.open("table:table-cell").attr("table:style-name", styles.cell(cell));
        if (cell.across() > 1 || cell.down() > 1) {
            body.attr("table:number-columns-spanned", cell.across()).attr("table:number-rows-spanned", cell.down());
        }
        if (cell.check() != null && cell.check() != Cell.Check.ANYTHING) {
            body.attr("table:content-validation-name", cell.check().name());
        }
        content(cell.content());
        body.close();
    }

    private void content(Cell.Content content) {
        if (content instanceof Cell.Formula formula) {
            body.attr("table:formula", "of:=" + formula.expr().written(this::reference, ';'));
            number(formula.value(), formula.form());
        } else if (content instanceof Cell.Figure figure) {
            number(figure.value(), figure.form());
        } else if (content instanceof Cell.Moment moment) {
            body.attr("office:value-type", "date").attr("office:date-value", ISO.format(moment.at()));
            body.open("text:p").text(SHOWN.format(moment.at())).close();
        } else if (content instanceof Cell.Text text && !text.text().isEmpty()) {
            body.attr("office:value-type", "string");
            for (String line : text.text().split("\n", -1)) {
                body.open("text:p");
                spaced(line);
                body.close();
            }
        }
    }

    private String reference(String name) {
        String reference = references.get(name);
        if (reference == null) {
            throw new IllegalStateException("no cell named " + name);
        }
        return reference;
    }

    private void number(double value, Cell.Form form) {
        body.attr("office:value-type", "float").attr("office:value", Double.toString(value));
        body.open("text:p").text(form.shown(value)).close();
    }

    /** Writes a line so that its spaces and tabs survive: XML would fold them. */
    private void spaced(String line) {
        int from = 0;
        for (int i = 0; i < line.length(); i++) {
            char c = line.charAt(i);
            boolean folds = c == ' ' && (i == 0 || i == line.length() - 1 || line.charAt(i - 1) == ' ');
            if (c == '\t' || folds) {
                body.text(line.substring(from, i))
                        .open(c == '\t' ? "text:tab" : "text:s")
                        .close();
                from = i + 1;
            }
        }
        body.text(line.substring(from));
    }

    private void checks(Xml xml) {
        xml.open("table:content-validations");
        for (Cell.Check check : Cell.Check.values()) {
            if (check == Cell.Check.ANYTHING) {
                continue;
            }
            String condition = switch (check) {
                case RATING -> "cell-content-is-whole-number() and cell-content-is-between(1,5)";
                case PERCENT -> "cell-content-is-decimal-number() and cell-content-is-between(0,100)";
                default -> "cell-content-is-decimal-number() and cell-content()>=0";
            };
            xml.open("table:content-validation")
                    .attr("table:name", check.name())
                    .attr("table:condition", "of:" + condition)
                    .attr("table:allow-empty-cell", "true")
                    .attr("table:base-cell-address", grid.title() + ".$A$1");
            xml.open("table:error-message")
                    .attr("table:title", Checks.TITLE)
                    .attr("table:display", "true")
                    .attr("table:message-type", "stop");
            xml.open("text:p").text(Checks.message(check)).close().close().close();
        }
        xml.close();
    }

    private void names(Xml xml) {
        xml.open("table:named-expressions");
        names.forEach((name, address) -> xml.open("table:named-range")
                .attr("table:name", name)
                // Not asked for by the standard, but without it office programs drop the name.
                .attr("table:base-cell-address", "$" + grid.title() + ".$A$1")
                .attr("table:cell-range-address", "$" + grid.title() + "." + address.written())
                .close());
        xml.close();
    }

    private static Xml meta(MixSheet sheet) {
        Xml xml = OdsStyles.document("office:document-meta");
        xml.open("office:meta");
        xml.open("meta:generator").text("Pigment Book").close();
        xml.open("meta:creation-date").text(ISO.format(sheet.info().made())).close();
        xml.open("dc:title").text(sheet.page().foot()).close();
        return xml.close().close();
    }

    private static Xml manifest() {
        Xml xml = new Xml();
        xml.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        xml.open("manifest:manifest")
                .attr("xmlns:manifest", "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0")
                .attr("manifest:version", "1.3");
        fileEntry(xml, "/", SheetWriters.Format.ODS.mediaType());
        for (String part : new String[] {"content.xml", "styles.xml", "meta.xml"}) {
            fileEntry(xml, part, "text/xml");
        }
        return xml.close();
    }

    private static void fileEntry(Xml xml, String path, String type) {
        xml.open("manifest:file-entry").attr("manifest:full-path", path).attr("manifest:media-type", type);
        if (path.equals("/")) {
            xml.attr("manifest:version", "1.3");
        }
        xml.close();
    }
}
