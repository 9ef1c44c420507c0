package pigmentbook.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.usermodel.DataValidationConstraint;
import org.apache.poi.ss.usermodel.DataValidationHelper;
import org.apache.poi.ss.usermodel.PageMargin;
import org.apache.poi.ss.usermodel.PaperSize;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.ss.util.CellRangeAddressList;
import org.apache.poi.xssf.usermodel.XSSFCell;
import org.apache.poi.xssf.usermodel.XSSFName;
import org.apache.poi.xssf.usermodel.XSSFPrintSetup;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.CTCell;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.STCellType;

/** Draws the page as an xlsx workbook. */
final class XlsxWriter {

    /** Pixels to the mm at 96 dpi, and the 7 pixels of a digit that widths are counted in. */
    private static final double DIGITS_PER_MM = 96 / 25.4 / 7;

    private static final double MM_PER_INCH = 25.4;
    private static final int WIDTH_UNITS = 256;

    private final Grid grid;
    private final MixSheet sheet;
    private final XSSFWorkbook workbook;
    private final XSSFSheet page;
    private final XlsxStyles styles;
    private final Map<String, Grid.Address> names;

    private XlsxWriter(MixSheet sheet, XSSFWorkbook workbook) {
        this.sheet = sheet;
        this.grid = sheet.page();
        this.workbook = workbook;
        this.page = workbook.createSheet(grid.title());
        this.styles = new XlsxStyles(workbook);
        this.names = grid.names();
    }

    static void write(MixSheet sheet, OutputStream out) throws IOException {
        try (XSSFWorkbook workbook = new XSSFWorkbook()) {
            new XlsxWriter(sheet, workbook).draw();
            workbook.write(out);
        }
    }

    /** Loads the library by writing the smallest sheet to nowhere. */
    static void load() {
        Grid.Placed words = new Grid.Placed(0, Cell.text(Style.BODY, "x"));
        Grid.Placed total = new Grid.Placed(
                1, Cell.figure(Style.TOTAL, 1, "", 2).named(CellNames.TOTAL).entry(Cell.Check.NUMBER));
        Grid.Placed twice =
                new Grid.Placed(2, Cell.formula(Style.FIGURE, Expr.cell(CellNames.TOTAL), 1, Cell.Form.aligned(0, 2)));
        Grid grid = new Grid(
                "Mix",
                "x",
                List.of(10.0, 10.0, 10.0),
                List.of(new Grid.Row(10, false, List.of(words, total, twice))),
                true);
        SheetInfo info = new SheetInfo("x", LocalDateTime.of(2026, 1, 1, 0, 0), "", Paper.A4);
        try {
            write(new MixSheet(info, grid, grid), OutputStream.nullOutputStream());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void draw() {
        Date made = Date.from(sheet.info().made().toInstant(ZoneOffset.UTC));
        var properties = workbook.getProperties().getCoreProperties();
        properties.setCreator("Pigment Book");
        properties.setCreated(Optional.of(made));
        properties.setModified(Optional.of(made));
        page.setDisplayGridlines(false);
        for (int i = 0; i < grid.columnsMm().size(); i++) {
            page.setColumnWidth(i, (int) Math.round(grid.columnsMm().get(i) * DIGITS_PER_MM * WIDTH_UNITS));
        }
        for (int row = 0; row < grid.rows().size(); row++) {
            row(row, grid.rows().get(row));
        }
        names.forEach(this::name);
        checks();
        print();
        page.enableLocking();
        page.lockFormatColumns(false);
        page.lockFormatRows(false);
    }

    private void row(int number, Grid.Row drawn) {
        XSSFRow row = rowAt(number);
        if (drawn.isHidden()) {
            row.setZeroHeight(true);
        } else {
            row.setHeightInPoints((float) drawn.heightPt());
        }
        for (Grid.Placed placed : drawn.cells()) {
            Cell cell = placed.cell();
            for (int down = 0; down < cell.down(); down++) {
                for (int across = 0; across < cell.across(); across++) {
                    rowAt(number + down).createCell(placed.column() + across).setCellStyle(styles.of(cell));
                }
            }
            fill(row.getCell(placed.column()), cell.content());
            if (cell.across() > 1 || cell.down() > 1) {
                page.addMergedRegionUnsafe(new CellRangeAddress(
                        number, number + cell.down() - 1, placed.column(), placed.column() + cell.across() - 1));
            }
        }
        if (drawn.newPage()) {
            page.setRowBreak(number - 1);
        }
    }

    private XSSFRow rowAt(int number) {
        XSSFRow row = page.getRow(number);
        return row == null ? page.createRow(number) : row;
    }

    private void fill(XSSFCell cell, Cell.Content content) {
        if (content instanceof Cell.Text text) {
            if (!text.text().isEmpty()) {
                cell.setCellValue(text.text().replaceAll("_(?=x[0-9A-Fa-f]{4}_)", "_x005F_"));
            }
        } else if (content instanceof Cell.Figure figure) {
            cell.setCellValue(figure.value());
        } else if (content instanceof Cell.Moment moment) {
            cell.setCellValue(moment.at());
        } else if (content instanceof Cell.Formula formula) {
            // Straight into the file's record: the library would parse the text again, which doubles the time.
            CTCell record = cell.getCTCell();
            record.addNewF().setStringValue(formula.expr().written(this::reference, ','));
            record.setT(STCellType.N);
            record.setV(Double.toString(formula.value()));
        }
    }

    private String reference(String name) {
        Grid.Address address = names.get(name);
        if (address == null) {
            throw new IllegalStateException("no cell named " + name);
        }
        return address.written();
    }

    private void name(String name, Grid.Address address) {
        XSSFName defined = workbook.createName();
        defined.setNameName(name);
        defined.setRefersToFormula(grid.title() + "!" + address.written());
    }

    private void checks() {
        for (Cell.Check check : Cell.Check.values()) {
            CellRangeAddressList cells = new CellRangeAddressList();
            for (int column = 0; column < grid.columnsMm().size(); column++) {
                runs(check, column).forEach(cells::addCellRangeAddress);
            }
            if (check != Cell.Check.ANYTHING && cells.countRanges() > 0) {
                check(check, cells);
            }
        }
    }

    /** Returns the runs of cells beneath each other that share a check. */
    private List<CellRangeAddress> runs(Cell.Check check, int column) {
        List<CellRangeAddress> runs = new ArrayList<>();
        for (int row = 0; row < grid.rows().size(); row++) {
            for (Grid.Placed placed : grid.rows().get(row).cells()) {
                if (placed.column() == column && placed.cell().check() == check) {
                    CellRangeAddress last = runs.isEmpty() ? null : runs.get(runs.size() - 1);
                    if (last != null && last.getLastRow() == row - 1) {
                        last.setLastRow(row);
                    } else {
                        runs.add(new CellRangeAddress(row, row, column, column));
                    }
                }
            }
        }
        return runs;
    }

    private void check(Cell.Check check, CellRangeAddressList cells) {
        DataValidationHelper helper = page.getDataValidationHelper();
        DataValidationConstraint constraint = switch (check) {
            case RATING -> helper.createIntegerConstraint(DataValidationConstraint.OperatorType.BETWEEN, "1", "5");
            case PERCENT -> helper.createDecimalConstraint(DataValidationConstraint.OperatorType.BETWEEN, "0", "100");
            default -> helper.createDecimalConstraint(DataValidationConstraint.OperatorType.GREATER_OR_EQUAL, "0", "");
        };
        DataValidation validation = helper.createValidation(constraint, cells);
        validation.setEmptyCellAllowed(true);
        validation.setShowErrorBox(true);
        validation.setErrorStyle(DataValidation.ErrorStyle.STOP);
        validation.createErrorBox(Checks.TITLE, Checks.message(check));
        page.addValidationData(validation);
    }

    private void print() {
        int last = grid.rows().size() - 1;
        workbook.setPrintArea(0, 0, grid.columnsMm().size() - 1, 0, last);
        page.setMargin(PageMargin.LEFT, Paper.SIDE_MM / MM_PER_INCH);
        page.setMargin(PageMargin.RIGHT, Paper.SIDE_MM / MM_PER_INCH);
        page.setMargin(PageMargin.TOP, Paper.TOP_MM / MM_PER_INCH);
        page.setMargin(PageMargin.BOTTOM, Paper.BOTTOM_MM / MM_PER_INCH);
        page.setMargin(PageMargin.HEADER, 5 / MM_PER_INCH);
        page.setMargin(PageMargin.FOOTER, 6 / MM_PER_INCH);
        page.setHorizontallyCenter(true);
        page.setFitToPage(true);
        XSSFPrintSetup setup = page.getPrintSetup();
        setup.setPaperSize(sheet.info().paper() == Paper.A4 ? PaperSize.A4_PAPER : PaperSize.LETTER_PAPER);
        setup.setFitWidth((short) 1);
        setup.setFitHeight((short) (grid.onePage() ? 1 : 0));
        page.getFooter().setLeft("&8" + grid.foot().replace("&", "&&"));
        page.getFooter().setRight("&8Page &P of &N");
    }
}
