package pigmentbook.sheet;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Table;

/**
 * Reads the sheets of an OpenDocument spreadsheet; of a formula its last value.
 *
 * @see <a
 *     href="https://docs.oasis-open.org/office/OpenDocument/v1.3/os/part3-schema/OpenDocument-v1.3-os-part3-schema.html">OpenDocument
 *     1.3, part 3: 9.1.4 table:table-cell, 19.385 office:value-type, 19.675 table:number-columns-repeated</a>
 */
final class OdsTable {

    private static final int MOST_CONTENT_BYTES = 64 * 1024 * 1024;
    private static final int MOST_REPEATED = 1_000_000;
    private static final int MOST_DEPTH = 64;
    private static final String LARGE = "The workbook unpacks to more than " + MOST_CONTENT_BYTES / 1024 / 1024
            + " MiB. Split it, or save it as csv.";
    private static final String DAMAGED = "The workbook is damaged or none. Save it anew as xlsx, ods or csv.";

    private final XMLStreamReader xml;
    private final List<Table> tables = new ArrayList<>();

    private OdsTable(XMLStreamReader xml) {
        this.xml = xml;
    }

    static List<Table> read(Path file) throws BadTableException {
        try (ZipFile zip = new ZipFile(file.toFile())) {
            requireUnlocked(zip);
            ZipEntry content = zip.getEntry("content.xml");
            if (content == null || content.getSize() > MOST_CONTENT_BYTES) {
                throw new BadTableException(content == null ? DAMAGED : LARGE);
            }
            try (InputStream in = new Limited(zip.getInputStream(content))) {
                OdsTable reader = new OdsTable(reader(in));
                reader.read();
                return reader.tables;
            }
        } catch (XMLStreamException | IOException | RuntimeException e) {
            throw new BadTableException(e.getMessage() != null && e.getMessage().contains(LARGE) ? LARGE : DAMAGED);
        }
    }

    private static void requireUnlocked(ZipFile zip) throws BadTableException, IOException, XMLStreamException {
        boolean locked = zip.getEntry("encrypted-package") != null;
        ZipEntry manifest = zip.getEntry("META-INF/manifest.xml");
        if (manifest != null) {
            try (InputStream in = new Limited(zip.getInputStream(manifest))) {
                XMLStreamReader xml = reader(in);
                while (xml.hasNext()) {
                    locked |= xml.next() == XMLStreamConstants.START_ELEMENT
                            && xml.getLocalName().equals("encryption-data");
                }
            }
        }
        if (locked) {
            throw new BadTableException(
                    "The workbook is locked with a password. Save it without one, then bring it in.");
        }
    }

    private static XMLStreamReader reader(InputStream in) throws XMLStreamException {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        return factory.createXMLStreamReader(in, "UTF-8");
    }

    /** Ends with an error where more comes than the entry said. */
    private static final class Limited extends FilterInputStream {
        private long left = MOST_CONTENT_BYTES;

        Limited(InputStream in) {
            super(in);
        }

        @Override
        public int read() throws IOException {
            return count(super.read(), 1);
        }

        @Override
        public int read(byte[] bytes, int from, int length) throws IOException {
            int read = super.read(bytes, from, length);
            return count(read, read);
        }

        private int count(int result, int bytes) throws IOException {
            left -= Math.max(0, bytes);
            if (left < 0) {
                throw new IOException(LARGE);
            }
            return result;
        }
    }

    private void read() throws XMLStreamException, BadTableException {
        int depth = 0;
        while (xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.DTD) {
                throw new XMLStreamException("no document type belongs here");
            }
            if (event == XMLStreamConstants.START_ELEMENT) {
                depth++;
                if (depth > MOST_DEPTH) {
                    throw new XMLStreamException("nested too deeply");
                }
                if (xml.getLocalName().equals("table") && isTable()) {
                    table();
                    depth--;
                }
            } else if (event == XMLStreamConstants.END_ELEMENT) {
                depth--;
            }
        }
    }

    private boolean isTable() {
        return String.valueOf(xml.getNamespaceURI()).endsWith(":table:1.0");
    }

    private @Nullable String attribute(String name) {
        // Whatever the prefix: these names stand in one namespace each.
        for (int i = 0; i < xml.getAttributeCount(); i++) {
            if (xml.getAttributeLocalName(i).equals(name)
                    && !String.valueOf(xml.getAttributeNamespace(i)).contains("calcext")) {
                return xml.getAttributeValue(i);
            }
        }
        return null;
    }

    private int repeated(String name) throws XMLStreamException {
        String text = attribute(name);
        try {
            int times = text == null ? 1 : Integer.parseInt(text);
            if (times < 1 || times > 2 * MOST_REPEATED) {
                throw new XMLStreamException("repeated too often");
            }
            return times;
        } catch (NumberFormatException e) {
            throw new XMLStreamException("repeated by no number", e);
        }
    }

    /** Reads to the end of a sheet. */
    private void table() throws XMLStreamException, BadTableException {
        String name = attribute("name");
        TableCells cells = new TableCells(name == null ? "" : name);
        int row = 0;
        int inside = 1;
        while (inside > 0) {
            int event = xml.next();
            if (event == XMLStreamConstants.END_ELEMENT) {
                inside--;
            } else if (event == XMLStreamConstants.START_ELEMENT) {
                if (xml.getLocalName().equals("table-row")) {
                    row = row(cells, row);
                } else {
                    inside++;
                }
            }
            if (inside > MOST_DEPTH) {
                throw new XMLStreamException("nested too deeply");
            }
        }
        tables.add(cells.table());
    }

    private record Filled(int from, int times, String text) {}

    /** Reads a row, and returns the number of the last row it stands for. */
    private int row(TableCells cells, int before) throws XMLStreamException, BadTableException {
        int times = repeated("number-rows-repeated");
        List<Filled> filled = new ArrayList<>();
        int column = 0;
        int event = xml.next();
        while (event != XMLStreamConstants.END_ELEMENT) {
            if (event == XMLStreamConstants.START_ELEMENT) {
                int across = repeated("number-columns-repeated");
                String text = cell();
                if (!text.isBlank()) {
                    filled.add(new Filled(column, across, text));
                }
                column += across;
            }
            event = xml.next();
        }
        for (int i = 0; i < times && !filled.isEmpty(); i++) {
            for (Filled each : filled) {
                for (int c = 0; c < each.times(); c++) {
                    cells.set(each.from() + c, each.text());
                }
            }
            cells.endRow(before + i + 1);
        }
        return before + times;
    }

    private String cell() throws XMLStreamException {
        String type = String.valueOf(attribute("value-type"));
        String value = attribute("value");
        String day = attribute("date-value");
        String currency = attribute("currency");
        String string = attribute("string-value");
        String shown = paragraphs();
        return switch (type) {
            case "float" -> value == null ? shown : TableCells.figure(number(value), shown);
            case "percentage" -> value == null ? shown : TableCells.figure(number(value), "1%");
            case "currency" ->
                value == null ? shown : Numbers.plain(number(value)) + " " + (currency == null ? "" : currency);
            case "date" -> day == null ? shown : day.substring(0, Math.min(10, day.length()));
            default -> string == null ? shown : string;
        };
    }

    private static double number(String value) throws XMLStreamException {
        try {
            return Double.parseDouble(value);
        } catch (NumberFormatException e) {
            throw new XMLStreamException("no number", e);
        }
    }

    /** Reads to the end of a cell; its paragraphs are lines. Notes that hang on the cell are passed over. */
    private String paragraphs() throws XMLStreamException {
        StringBuilder text = new StringBuilder();
        int depth = 1;
        int passedOver = 0;
        int paragraphs = 0;
        while (depth > 0) {
            int event = xml.next();
            if (event == XMLStreamConstants.START_ELEMENT) {
                depth++;
                String name = xml.getLocalName();
                if (passedOver > 0 || name.equals("annotation") || name.equals("table")) {
                    passedOver++;
                } else if (name.equals("p")) {
                    text.append(paragraphs > 0 ? "\n" : "");
                    paragraphs++;
                } else {
                    text.append(special(name));
                }
                if (depth > MOST_DEPTH) {
                    throw new XMLStreamException("nested too deeply");
                }
            } else if (event == XMLStreamConstants.END_ELEMENT) {
                depth--;
                passedOver = Math.max(0, passedOver - 1);
            } else if (event == XMLStreamConstants.CHARACTERS && passedOver == 0 && paragraphs > 0 && depth > 1) {
                text.append(xml.getText());
            }
        }
        return text.toString();
    }

    private String special(String name) throws XMLStreamException {
        return switch (name) {
            case "s" -> " ".repeat(Math.min(100, attribute("c") == null ? 1 : repeated("c")));
            case "tab" -> "\t";
            case "line-break" -> "\n";
            default -> "";
        };
    }
}
