package pigmentbook.sheet;

import java.util.HashMap;
import java.util.HexFormat;
import java.util.Map;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.FillPatternType;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.xssf.usermodel.XSSFCellStyle;
import org.apache.poi.xssf.usermodel.XSSFColor;
import org.apache.poi.xssf.usermodel.XSSFFont;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;

/** The cell styles of a workbook, each made once. */
final class XlsxStyles {

    private static final double DEFAULT_SIZE_PT = 10;

    private record Key(Style style, String format, String fill, boolean locked) {}

    private record FontKey(Style.Face face, double sizePt, boolean bold, String ink) {}

    private final XSSFWorkbook workbook;
    private final Map<Key, XSSFCellStyle> styles = new HashMap<>();
    private final Map<FontKey, XSSFFont> fonts = new HashMap<>();

    XlsxStyles(XSSFWorkbook workbook) {
        this.workbook = workbook;
        // Column widths are counted in digits of the first font.
        XSSFFont first = workbook.getFontAt(0);
        first.setFontName(Style.Face.SANS.family());
        first.setFontHeight(DEFAULT_SIZE_PT);
    }

    XSSFCellStyle of(Cell cell) {
        String fill = cell.content() instanceof Cell.Chip chip ? chip.rgb().substring(1) : "";
        Key key = new Key(cell.style(), format(cell), fill, cell.isLocked());
        return styles.computeIfAbsent(key, this::make);
    }

    private static String format(Cell cell) {
        Cell.Content content = cell.content();
        if (content instanceof Cell.Figure figure) {
            return format(figure.form());
        }
        if (content instanceof Cell.Formula formula) {
            return format(formula.form());
        }
        if (content instanceof Cell.Moment || content instanceof Cell.BlankMoment) {
            return "yyyy-mm-dd hh:mm";
        }
        return cell.isWords() ? "@" : "General";
    }

    private static String format(Cell.Form form) {
        String number = form.decimals() == 0 ? "0" : "0." + "0".repeat(form.decimals());
        return quoted(form.before()) + number + quoted(form.behind());
    }

    private static String quoted(String text) {
        return text.isEmpty() ? "" : "\"" + text + "\"";
    }

    private XSSFCellStyle make(Key key) {
        Style style = key.style();
        XSSFCellStyle made = workbook.createCellStyle();
        made.setFont(fonts.computeIfAbsent(
                new FontKey(style.face(), style.sizePt(), style.bold(), style.ink()), this::font));
        made.setDataFormat(workbook.createDataFormat().getFormat(key.format()));
        made.setAlignment(style.right() ? HorizontalAlignment.RIGHT : HorizontalAlignment.LEFT);
        made.setVerticalAlignment(style.low() ? VerticalAlignment.BOTTOM : VerticalAlignment.CENTER);
        made.setIndention((short) (style.indented() ? 1 : 0));
        made.setWrapText(style.wrap());
        made.setShrinkToFit(style.shrink());
        made.setLocked(key.locked());
        if (!key.fill().isEmpty()) {
            made.setFillPattern(FillPatternType.SOLID_FOREGROUND);
            made.setFillForegroundColor(colour(key.fill()));
        }
        lines(made, style.lines());
        return made;
    }

    private static void lines(XSSFCellStyle made, Style.Lines lines) {
        XSSFColor ink = colour(lines.rgb);
        if (lines.top > 0) {
            made.setBorderTop(width(lines.top));
            made.setTopBorderColor(ink);
        }
        if (lines.bottom > 0) {
            made.setBorderBottom(width(lines.bottom));
            made.setBottomBorderColor(ink);
        }
        if (lines.sides > 0) {
            made.setBorderLeft(width(lines.sides));
            made.setBorderRight(width(lines.sides));
            made.setLeftBorderColor(ink);
            made.setRightBorderColor(ink);
        }
    }

    private static BorderStyle width(double pt) {
        return pt < 0.5 ? BorderStyle.HAIR : pt < 1.5 ? BorderStyle.THIN : BorderStyle.MEDIUM;
    }

    private XSSFFont font(FontKey key) {
        XSSFFont font = workbook.createFont();
        font.setFontName(key.face().family());
        font.setFontHeight(key.sizePt());
        font.setBold(key.bold());
        font.setColor(colour(key.ink()));
        return font;
    }

    private static XSSFColor colour(String rgb) {
        return new XSSFColor(HexFormat.of().parseHex("ff" + rgb));
    }
}
