package pigmentbook.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import pigmentbook.quantity.Numbers;

/** Draws the page as one HTML file for the screen and for paper: no script, nothing from elsewhere. */
final class HtmlWriter {

    private static final DateTimeFormatter SHOWN = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);
    private static final double FULL = 1;

    /** Browsers round each row up a little. */
    private static final double SLACK = 0.975;

    private HtmlWriter() {}

    /** Writes sheets of one paper, at least one, each on pages of its own. */
    static void write(List<MixSheet> sheets, OutputStream out) throws IOException {
        Xml html = new Xml();
        html.raw("<!DOCTYPE html>\n").open("html").attr("lang", "en");
        html.open("head").open("meta").attr("charset", "utf-8").close();
        html.open("meta")
                .attr("name", "viewport")
                .attr("content", "width=device-width, initial-scale=1")
                .close();
        html.open("title").text(sheets.get(0).page().foot()).closeLong();
        html.open("style").raw(css(sheets)).close().close();
        html.open("body");
        for (int i = 0; i < sheets.size(); i++) {
            sheet(html, sheets.get(i).page(), name(i));
        }
        html.close().close().raw("\n");
        html.moveTo(out);
    }

    /** Returns the name of a sheet in the style sheet. */
    private static String name(int sheet) {
        return "sheet-" + (sheet + 1);
    }

    private static void sheet(Xml html, Grid grid, String name) {
        html.open("main").attr("class", name).open("table");
        html.open("colgroup");
        for (double width : grid.columnsMm()) {
            html.open("col")
                    .attr("style", "width:" + Numbers.plain(width) + "mm")
                    .close();
        }
        html.close();
        int[] coveredDown = new int[grid.columnsMm().size()];
        for (Grid.Row row : grid.rows()) {
            if (!row.isHidden()) {
                row(html, row, grid, coveredDown);
            }
        }
        html.close();
        html.open("footer").text(grid.foot()).closeLong();
        html.close();
    }

    private static void row(Xml html, Grid.Row row, Grid grid, int[] coveredDown) {
        html.open("tr");
        html.attr("style", "height:" + Numbers.plain(row.heightPt()) + "pt");
        if (row.newPage()) {
            html.attr("class", "page");
        }
        int column = 0;
        for (Grid.Placed placed : row.cells()) {
            gap(html, column, placed.column(), coveredDown);
            cell(html, placed.cell(), widthMm(grid.columnsMm(), placed));
            column = placed.column() + placed.cell().across();
            Arrays.fill(coveredDown, placed.column(), column, placed.cell().down() - 1);
        }
        gap(html, column, coveredDown.length, coveredDown);
        html.closeLong();
    }

    private static void gap(Xml html, int from, int to, int[] coveredDown) {
        int empty = 0;
        for (int column = from; column < to; column++) {
            if (coveredDown[column] > 0) {
                coveredDown[column]--;
            } else {
                empty++;
            }
        }
        if (empty > 0) {
            html.open("td").attr("colspan", empty).closeLong();
        }
    }

    private static void cell(Xml html, Cell cell, double widthMm) {
        String shown = shown(cell.content());
        html.open(cell.style().isHead() ? "th" : "td").attr("class", className(cell.style()));
        if (cell.across() > 1) {
            html.attr("colspan", cell.across());
        }
        if (cell.down() > 1) {
            html.attr("rowspan", cell.down());
        }
        if (cell.content() instanceof Cell.Chip chip) {
            html.attr("style", "background:" + chip.rgb());
        } else if (cell.style().shrink() && !Texts.fits(shown, cell.style(), widthMm)) {
            double size = cell.style().sizePt() * Texts.roomPt(widthMm) / Texts.widthPt(shown, cell.style());
            html.attr("style", "font-size:" + Numbers.fixed(size, 1) + "pt");
        }
        String heading = cell.style().isTitle() ? "h1" : cell.style() == Style.SECTION ? "h2" : "";
        if (heading.isEmpty()) {
            html.text(shown).closeLong();
        } else {
            html.open(heading).text(shown).closeLong().close();
        }
    }

    private static String shown(Cell.Content content) {
        if (content instanceof Cell.Text text) {
            return text.text();
        }
        if (content instanceof Cell.Figure figure) {
            return figure.form().shown(figure.value());
        }
        if (content instanceof Cell.Formula formula) {
            return formula.form().shown(formula.value());
        }
        return content instanceof Cell.Moment moment ? SHOWN.format(moment.at()) : "";
    }

    private static double widthMm(List<Double> columnsMm, Grid.Placed placed) {
        double width = 0;
        for (int i = 0; i < placed.cell().across(); i++) {
            width += columnsMm.get(placed.column() + i);
        }
        return width;
    }

    private static String className(Style style) {
        return style.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static String css(List<MixSheet> sheets) {
        Paper paper = sheets.get(0).info().paper();
        StringBuilder css = new StringBuilder("""

                @page { size: %PAPER% portrait; margin: %TOP%mm %SIDE%mm %BOTTOM%mm;
                  @bottom-right { content: "Page " counter(page) " of " counter(pages); font: 8pt Arial, sans-serif; } }
                * { box-sizing: border-box; }
                html { color-scheme: light; background: #fff; color: #000; -webkit-text-size-adjust: 100%; }
                body { margin: 0; }
                main { width: max-content; margin: 8mm auto; padding: 0 4mm; }
                table { border-collapse: collapse; table-layout: fixed; width: %WIDTH%mm; font-variant-numeric: lining-nums tabular-nums; }
                h1, h2 { font: inherit; margin: 0; }
                td, th { text-align: start; padding: 0 1.2mm; line-height: 1.18; overflow-wrap: anywhere; white-space: pre-line; unicode-bidi: isolate; }
                footer { font: 8pt Arial, sans-serif; padding-top: 2mm; }
                @media print { main { margin: 0 auto; padding: 0; } main + main { break-before: page; } footer { display: none; }
                  .page { break-before: page; } tr { break-inside: avoid; } td { print-color-adjust: exact; -webkit-print-color-adjust: exact; } }
                """.replace("%PAPER%", paper.cssName())
                .replace("%TOP%", Numbers.plain(Paper.TOP_MM))
                .replace("%SIDE%", Numbers.plain(Paper.SIDE_MM))
                .replace("%BOTTOM%", Numbers.plain(Paper.BOTTOM_MM))
                .replace("%WIDTH%", Numbers.plain(widthMm(sheets.get(0).page()))));
        for (int i = 0; i < sheets.size(); i++) {
            css.append("""
                    @page %NAME% { @bottom-left { content: "%FOOT%"; font: 8pt Arial, sans-serif; } }
                    .%NAME% { page: %NAME%; } @media print { .%NAME% { zoom: %ZOOM%; } }
                    """.replace("%NAME%", name(i))
                    .replace("%FOOT%", cssText(sheets.get(i).page().foot()))
                    .replace("%ZOOM%", Numbers.fixed(zoom(sheets.get(i).page(), paper), 3)));
        }
        for (Style style : Style.values()) {
            rule(css, style);
        }
        return css.toString();
    }

    private static double zoom(Grid page, Paper paper) {
        return page.onePage() ? Math.min(FULL, paper.roomPt() * SLACK / page.heightPt()) : FULL;
    }

    /**
     * Returns a text as it may stand between quotes in a style sheet inside a page: letters and digits, the rest as
     * codes.
     */
    private static String cssText(String text) {
        StringBuilder css = new StringBuilder();
        text.codePoints().forEach(c -> {
            if (Character.isLetterOrDigit(c) || c == ' ') {
                css.appendCodePoint(c);
            } else {
                css.append('\\').append(Integer.toHexString(c)).append(' ');
            }
        });
        return css.toString();
    }

    private static double widthMm(Grid grid) {
        return grid.columnsMm().stream().mapToDouble(Double::doubleValue).sum();
    }

    private static void rule(StringBuilder css, Style style) {
        css.append('.')
                .append(className(style))
                .append(" { font: ")
                .append(style.bold() ? "700 " : "400 ")
                .append(Numbers.plain(style.sizePt()))
                .append("pt/1.18 ")
                .append(style.face() == Style.Face.SERIF ? "\"Times New Roman\", serif" : "Arial, sans-serif")
                .append("; color: #")
                .append(style.ink())
                .append("; vertical-align: ")
                .append(style.low() ? "bottom" : "middle");
        if (style.right()) {
            css.append("; text-align: right");
        }
        Style.Lines lines = style.lines();
        line(css, "top", lines.top, lines.rgb);
        line(css, "bottom", lines.bottom, lines.rgb);
        line(css, "left", lines.sides, lines.rgb);
        line(css, "right", lines.sides, lines.rgb);
        css.append("; }\n");
    }

    private static void line(StringBuilder css, String side, double pt, String rgb) {
        if (pt > 0) {
            css.append("; border-")
                    .append(side)
                    .append(": ")
                    .append(Numbers.plain(pt))
                    .append("pt solid #")
                    .append(rgb);
        }
    }
}
