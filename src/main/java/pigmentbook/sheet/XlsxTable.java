package pigmentbook.sheet;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.apache.poi.openxml4j.exceptions.InvalidFormatException;
import org.apache.poi.openxml4j.opc.OPCPackage;
import org.apache.poi.openxml4j.opc.PackageAccess;
import org.apache.poi.openxml4j.util.ZipSecureFile;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.usermodel.FormulaError;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import pigmentbook.store.Table;

/** Reads the sheets of an xlsx workbook; of a formula its last value. */
final class XlsxTable {

    /** The library holds a sheet many times over in memory; this is some 20 000 rows. */
    private static final long MOST_PART_BYTES = 8L * 1024 * 1024;

    private static final int MOST_PARTS = 500;
    private static final double LEAST_RATIO = 0.01;

    /** What the library says of a broken file goes to its log; the person is told in one sentence. */
    private static final Logger QUIET = Logger.getLogger("org.apache.poi");

    static {
        QUIET.setLevel(Level.OFF);
    }

    private final DataFormatter formatter = new DataFormatter(Locale.ROOT);
    private final Map<String, Boolean> dates = new HashMap<>();
    private final Map<String, String> shown = new HashMap<>();

    private XlsxTable() {}

    static List<Table> read(Path file) throws BadTableException {
        ZipSecureFile.setMaxEntrySize(MOST_PART_BYTES);
        ZipSecureFile.setMaxFileCount(MOST_PARTS);
        ZipSecureFile.setMinInflateRatio(LEAST_RATIO);
        try (OPCPackage inside = OPCPackage.open(file.toFile(), PackageAccess.READ)) {
            XlsxTable reader = new XlsxTable();
            List<Table> tables = new ArrayList<>();
            // Closed with the package, which is only read.
            @SuppressWarnings("resource")
            XSSFWorkbook workbook = new XSSFWorkbook(inside);
            for (Sheet sheet : workbook) {
                tables.add(reader.table(sheet));
            }
            return tables;
        } catch (InvalidFormatException | IOException | RuntimeException e) {
            throw refused(e);
        }
    }

    private static BadTableException refused(Exception e) {
        for (Throwable each = e; each != null; each = each.getCause()) {
            String said = String.valueOf(each.getMessage());
            if (said.contains("Zip bomb")
                    || said.contains("too large")
                    || said.contains("max")
                    || said.contains("Max")) {
                return new BadTableException(
                        "A sheet of the workbook unpacks to more than " + MOST_PART_BYTES / 1024 / 1024
                                + " MiB, or the workbook has far too many parts. Split it, or save it as csv.");
            }
        }
        return new BadTableException("The workbook is damaged or none. Save it anew as xlsx, ods or csv.");
    }

    private Table table(Sheet sheet) throws BadTableException {
        TableCells cells = new TableCells(sheet.getSheetName());
        for (Row row : sheet) {
            for (Cell cell : row) {
                cells.set(cell.getColumnIndex(), text(cell));
            }
            cells.endRow(row.getRowNum() + 1);
        }
        return cells.table();
    }

    private String text(Cell cell) {
        CellType type = cell.getCellType() == CellType.FORMULA ? cell.getCachedFormulaResultType() : cell.getCellType();
        return switch (type) {
            case STRING -> cell.getStringCellValue();
            case BOOLEAN -> cell.getBooleanCellValue() ? "TRUE" : "FALSE";
            case ERROR -> FormulaError.forInt(cell.getErrorCellValue()).getString();
            case NUMERIC -> number(cell);
            default -> "";
        };
    }

    private String number(Cell cell) {
        int index = cell.getCellStyle().getDataFormat();
        String format = String.valueOf(cell.getCellStyle().getDataFormatString());
        double value = cell.getNumericCellValue();
        if (dates.computeIfAbsent(format, each -> DateUtil.isADateFormat(index, each))
                && DateUtil.isValidExcelDate(value)) {
            LocalDateTime day = cell.getLocalDateTimeCellValue();
            return day.toLocalDate().toString();
        }
        return TableCells.figure(
                value, shown.computeIfAbsent(format, each -> formatter.formatRawCellContents(1, index, each)));
    }
}
