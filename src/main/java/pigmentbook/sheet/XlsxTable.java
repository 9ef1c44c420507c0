package pigmentbook.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.apache.poi.openxml4j.exceptions.OpenXML4JException;
import org.apache.poi.openxml4j.opc.OPCPackage;
import org.apache.poi.openxml4j.opc.PackageAccess;
import org.apache.poi.openxml4j.util.ZipSecureFile;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.usermodel.RichTextString;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.util.XMLHelper;
import org.apache.poi.xssf.eventusermodel.ReadOnlySharedStringsTable;
import org.apache.poi.xssf.eventusermodel.XSSFReader;
import org.apache.poi.xssf.eventusermodel.XSSFSheetXMLHandler;
import org.apache.poi.xssf.model.SharedStrings;
import org.apache.poi.xssf.model.StylesTable;
import org.apache.poi.xssf.usermodel.XSSFComment;
import org.jspecify.annotations.Nullable;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import org.xml.sax.XMLReader;
import pigmentbook.store.Table;

/** Reads the sheets of an xlsx workbook as they stream by; of a formula its last value. */
final class XlsxTable {

    private static final long MOST_PART_BYTES = 32L * 1024 * 1024;
    private static final int MOST_PARTS = 500;
    private static final double LEAST_RATIO = 0.005;

    /** What the library says of a broken file goes to its log; the person is told in one sentence. */
    private static final Logger QUIET = Logger.getLogger("org.apache.poi");

    static {
        QUIET.setLevel(Level.OFF);
    }

    private XlsxTable() {}

    static List<Table> read(Path file) throws BadTableException {
        ZipSecureFile.setMaxEntrySize(MOST_PART_BYTES);
        ZipSecureFile.setMaxFileCount(MOST_PARTS);
        ZipSecureFile.setMinInflateRatio(LEAST_RATIO);
        try (OPCPackage inside = OPCPackage.open(file.toFile(), PackageAccess.READ)) {
            XSSFReader reader = new XSSFReader(inside);
            SharedStrings texts = new Texts(new ReadOnlySharedStringsTable(inside, false));
            StylesTable styles = reader.getStylesTable();
            DataFormatter figures = new Figures(countsFrom1904(reader));
            List<Table> tables = new ArrayList<>();
            XSSFReader.SheetIterator sheets = (XSSFReader.SheetIterator) reader.getSheetsData();
            while (sheets.hasNext()) {
                try (InputStream sheet = sheets.next()) {
                    Rows rows = new Rows(new TableCells(sheets.getSheetName()));
                    XMLReader xml = XMLHelper.newXMLReader();
                    xml.setContentHandler(new XSSFSheetXMLHandler(styles, texts, rows, figures, false));
                    xml.parse(new InputSource(sheet));
                    tables.add(rows.cells.table());
                }
            }
            return tables;
        } catch (TooMuch e) {
            throw e.why;
        } catch (OpenXML4JException
                | SAXException
                | ParserConfigurationException
                | XMLStreamException
                | IOException
                | RuntimeException e) {
            throw refused(e);
        }
    }

    private static BadTableException refused(Exception e) {
        for (Throwable each = e; each != null; each = each.getCause()) {
            String said = String.valueOf(each.getMessage());
            if (said.contains("Zip bomb") || said.contains("MAX_ENTRY_SIZE") || said.contains("MAX_FILE_COUNT")) {
                return new BadTableException(
                        "A sheet of the workbook unpacks to more than " + MOST_PART_BYTES / 1024 / 1024
                                + " MiB, or the workbook has far too many parts. Split it, or save it as csv.");
            }
        }
        return new BadTableException("The workbook is damaged or none. Save it anew as xlsx, ods or csv.");
    }

    /** Returns whether days count from 1 January 1904, as some workbooks say. */
    private static boolean countsFrom1904(XSSFReader reader)
            throws IOException, OpenXML4JException, XMLStreamException {
        try (InputStream workbook = reader.getWorkbookData()) {
            XMLStreamReader xml = XMLHelper.newXMLInputFactory().createXMLStreamReader(workbook);
            while (xml.hasNext()) {
                if (xml.next() == XMLStreamConstants.START_ELEMENT
                        && xml.getLocalName().equals("workbookPr")) {
                    String says = String.valueOf(xml.getAttributeValue(null, "date1904"));
                    return says.equals("1") || says.equals("true");
                }
            }
            return false;
        }
    }

    /** The workbook's texts, each made once: the library makes a costly object of a text whenever it is asked for. */
    private static final class Texts implements SharedStrings {
        private final SharedStrings read;
        private final Map<Integer, RichTextString> made = new HashMap<>();

        Texts(SharedStrings read) {
            this.read = read;
        }

        @Override
        public RichTextString getItemAt(int index) {
            return made.computeIfAbsent(index, read::getItemAt);
        }

        @Override
        public int getCount() {
            return read.getCount();
        }

        @Override
        public int getUniqueCount() {
            return read.getUniqueCount();
        }
    }

    /** Carries a refusal out of the library's parser. */
    private static final class TooMuch extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient BadTableException why;

        TooMuch(BadTableException why) {
            super(why);
            this.why = why;
        }
    }

    /** Gathers the cells of a sheet. */
    private static final class Rows implements XSSFSheetXMLHandler.SheetContentsHandler {
        private final TableCells cells;
        private int column;

        Rows(TableCells cells) {
            this.cells = cells;
        }

        @Override
        public void startRow(int row) {
            column = -1;
        }

        @Override
        public void endRow(int row) {
            try {
                cells.endRow(row + 1);
            } catch (BadTableException e) {
                throw new TooMuch(e);
            }
        }

        @Override
        public void cell(@Nullable String reference, @Nullable String text, @Nullable XSSFComment comment) {
            column = reference == null ? column + 1 : column(reference);
            try {
                cells.set(column, text == null ? "" : text.startsWith("ERROR:") ? text.substring(6) : text);
            } catch (BadTableException e) {
                throw new TooMuch(e);
            }
        }

        private static int column(String reference) {
            int letters = 0;
            while (letters < reference.length() && Character.isLetter(reference.charAt(letters))) {
                letters++;
            }
            return CellReference.convertColStringToIndex(reference.substring(0, letters));
        }
    }

    /** Gives the library a figure's text in full, not as its format would round it. */
    private static final class Figures extends DataFormatter {
        private final boolean from1904;
        private final Map<String, Boolean> days = new HashMap<>();
        private final Map<String, String> shown = new HashMap<>();

        Figures(boolean from1904) {
            super(Locale.ROOT);
            this.from1904 = from1904;
        }

        @Override
        public String formatRawCellContents(double value, int index, String format) {
            boolean day = days.computeIfAbsent(format, each -> DateUtil.isADateFormat(index, each));
            if (day && DateUtil.isValidExcelDate(value)) {
                return DateUtil.getLocalDateTime(value, from1904).toLocalDate().toString();
            }
            return TableCells.figure(
                    value, shown.computeIfAbsent(format, each -> super.formatRawCellContents(1, index, each, false)));
        }
    }
}
