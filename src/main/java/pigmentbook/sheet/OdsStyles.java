package pigmentbook.sheet;

import java.util.LinkedHashMap;
import java.util.Map;
import pigmentbook.quantity.Numbers;

/** The styles of an OpenDocument sheet, each made once. */
final class OdsStyles {

    private static final String[][] NAMESPACES = {
        {"office", "office:1.0"},
        {"style", "style:1.0"},
        {"text", "text:1.0"},
        {"table", "table:1.0"},
        {"number", "datastyle:1.0"},
        {"meta", "meta:1.0"},
        {"fo", "xsl-fo-compatible:1.0"},
    };

    private static final String DATE_FORMAT = "nd";
    private static final String TEXT_FORMAT = "nt";

    private record Key(Style style, String format, String fill, boolean locked) {}

    /** The standard wants a height above nothing, for hidden rows too. */
    private static final double LEAST_ROW_PT = 1;

    private record RowKey(double heightPt, boolean newPage) {}

    private final Map<Key, String> cells = new LinkedHashMap<>();
    private final Map<RowKey, String> rows = new LinkedHashMap<>();
    private final Map<Cell.Form, String> forms = new LinkedHashMap<>();

    /** Starts a document with its namespaces. */
    static Xml document(String root) {
        Xml xml = new Xml();
        xml.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n").open(root);
        for (String[] namespace : NAMESPACES) {
            xml.attr("xmlns:" + namespace[0], "urn:oasis:names:tc:opendocument:xmlns:" + namespace[1]);
        }
        return xml.attr("xmlns:of", "urn:oasis:names:tc:opendocument:xmlns:of:1.2")
                .attr("xmlns:dc", "http://purl.org/dc/elements/1.1/")
                .attr("office:version", "1.3");
    }

    String row(Grid.Row row) {
        return rows.computeIfAbsent(new RowKey(row.heightPt(), row.newPage()), key -> "ro" + rows.size());
    }

    String cell(Cell cell) {
        String fill = cell.content() instanceof Cell.Chip chip ? chip.rgb() : "";
        return cells.computeIfAbsent(
                new Key(cell.style(), format(cell), fill, cell.isLocked()), key -> "ce" + cells.size());
    }

    private String format(Cell cell) {
        Cell.Content content = cell.content();
        if (content instanceof Cell.Figure figure) {
            return forms.computeIfAbsent(figure.form(), form -> "n" + forms.size());
        }
        if (content instanceof Cell.Formula formula) {
            return forms.computeIfAbsent(formula.form(), form -> "n" + forms.size());
        }
        if (content instanceof Cell.Moment || content instanceof Cell.BlankMoment) {
            return DATE_FORMAT;
        }
        return cell.isWords() ? TEXT_FORMAT : "";
    }

    /** Writes the styles that the cells asked for. */
    void write(Xml xml, Grid grid) {
        xml.open("office:automatic-styles");
        forms.forEach((form, name) -> form(xml, form, name));
        wordsAndDates(xml);
        for (int i = 0; i < grid.columnsMm().size(); i++) {
            xml.open("style:style").attr("style:name", "co" + i).attr("style:family", "table-column");
            xml.open("style:table-column-properties")
                    .attr("style:column-width", Numbers.plain(grid.columnsMm().get(i)) + "mm")
                    .close()
                    .close();
        }
        rows.forEach((key, name) -> {
            xml.open("style:style").attr("style:name", name).attr("style:family", "table-row");
            xml.open("style:table-row-properties")
                    .attr("style:row-height", pt(Math.max(LEAST_ROW_PT, key.heightPt())))
                    .attr("style:use-optimal-row-height", "false");
            if (key.newPage()) {
                xml.attr("fo:break-before", "page");
            }
            xml.close().close();
        });
        xml.open("style:style")
                .attr("style:name", "ta")
                .attr("style:family", "table")
                .attr("style:master-page-name", "Sheet");
        xml.open("style:table-properties").attr("table:display", "true").close().close();
        cells.forEach((key, name) -> cell(xml, key, name));
        xml.close();
    }

    private static void form(Xml xml, Cell.Form form, String name) {
        xml.open("number:number-style").attr("style:name", name);
        if (!form.before().isEmpty()) {
            xml.open("number:text").text(form.before()).close();
        }
        xml.open("number:number")
                .attr("number:decimal-places", form.decimals())
                .attr("number:min-decimal-places", form.decimals())
                .attr("number:min-integer-digits", 1)
                .close();
        if (!form.behind().isEmpty()) {
            xml.open("number:text").text(form.behind()).close();
        }
        xml.close();
    }

    private static void wordsAndDates(Xml xml) {
        xml.open("number:text-style").attr("style:name", TEXT_FORMAT);
        xml.open("number:text-content").close().close();
        xml.open("number:date-style").attr("style:name", DATE_FORMAT);
        part(xml, "number:year");
        xml.open("number:text").text("-").close();
        part(xml, "number:month");
        xml.open("number:text").text("-").close();
        part(xml, "number:day");
        xml.open("number:text").text(" ").close();
        part(xml, "number:hours");
        xml.open("number:text").text(":").close();
        part(xml, "number:minutes");
        xml.close();
    }

    private static void part(Xml xml, String name) {
        xml.open(name).attr("number:style", "long").close();
    }

    private static void cell(Xml xml, Key key, String name) {
        Style style = key.style();
        xml.open("style:style").attr("style:name", name).attr("style:family", "table-cell");
        if (!key.format().isEmpty()) {
            xml.attr("style:data-style-name", key.format());
        }
        xml.open("style:table-cell-properties")
                .attr("style:cell-protect", key.locked() ? "protected" : "none")
                .attr("style:vertical-align", style.low() ? "bottom" : "middle")
                .attr("style:text-align-source", "fix");
        if (style.indented()) {
            xml.attr("fo:padding-left", "1.2mm").attr("fo:padding-right", "1.2mm");
        }
        if (style.wrap()) {
            xml.attr("fo:wrap-option", "wrap");
        }
        if (style.shrink()) {
            xml.attr("style:shrink-to-fit", "true");
        }
        if (!key.fill().isEmpty()) {
            xml.attr("fo:background-color", key.fill());
        }
        Style.Lines lines = style.lines();
        line(xml, "fo:border-top", lines.top, lines.rgb);
        line(xml, "fo:border-bottom", lines.bottom, lines.rgb);
        line(xml, "fo:border-left", lines.sides, lines.rgb);
        line(xml, "fo:border-right", lines.sides, lines.rgb);
        xml.close();
        xml.open("style:paragraph-properties")
                .attr("fo:text-align", style.right() ? "end" : "start")
                .close();
        xml.open("style:text-properties")
                .attr("fo:font-family", style.face().family())
                .attr("fo:font-size", pt(style.sizePt()))
                .attr("fo:color", "#" + style.ink());
        if (style.bold()) {
            xml.attr("fo:font-weight", "bold");
        }
        xml.close().close();
    }

    private static void line(Xml xml, String side, double pt, String rgb) {
        if (pt > 0) {
            xml.attr(side, pt(pt) + " solid #" + rgb);
        }
    }

    private static String pt(double points) {
        return Numbers.plain(points) + "pt";
    }

    /** Returns the paper, its edges and its footer. */
    static Xml pageStyles(MixSheet sheet) {
        Paper paper = sheet.info().paper();
        Xml xml = document("office:document-styles");
        xml.open("office:automatic-styles");
        xml.open("style:page-layout").attr("style:name", "paper");
        xml.open("style:page-layout-properties")
                .attr("fo:page-width", Numbers.plain(paper.widthMm()) + "mm")
                .attr("fo:page-height", Numbers.plain(paper.heightMm()) + "mm")
                .attr("style:print-orientation", "portrait")
                .attr("fo:margin-top", Numbers.plain(Paper.TOP_MM) + "mm")
                .attr("fo:margin-bottom", Numbers.plain(FOOT_EDGE_MM) + "mm")
                .attr("fo:margin-left", Numbers.plain(Paper.SIDE_MM) + "mm")
                .attr("fo:margin-right", Numbers.plain(Paper.SIDE_MM) + "mm")
                .attr("style:table-centering", "horizontal")
                .attr("style:scale-to-X", 1);
        if (sheet.page().onePage()) {
            xml.attr("style:scale-to-Y", 1);
        }
        xml.close();
        xml.open("style:footer-style");
        xml.open("style:header-footer-properties")
                .attr("fo:min-height", Numbers.plain(Paper.BOTTOM_MM - FOOT_EDGE_MM) + "mm")
                .attr("fo:margin-left", "0mm")
                .attr("fo:margin-right", "0mm")
                .attr("fo:margin-top", "2mm")
                .close()
                .close()
                .close();
        xml.open("style:style").attr("style:name", "foot").attr("style:family", "text");
        xml.open("style:text-properties")
                .attr("fo:font-family", Style.Face.SANS.family())
                .attr("fo:font-size", "8pt")
                .close()
                .close();
        for (String side : new String[] {"start", "end"}) {
            xml.open("style:style").attr("style:name", side).attr("style:family", "paragraph");
            xml.open("style:paragraph-properties")
                    .attr("fo:text-align", side)
                    .close()
                    .close();
        }
        xml.close();
        xml.open("office:master-styles");
        xml.open("style:master-page").attr("style:name", "Sheet").attr("style:page-layout-name", "paper");
        xml.open("style:footer");
        xml.open("style:region-left")
                .open("text:p")
                .attr("text:style-name", "start")
                .open("text:span")
                .attr("text:style-name", "foot");
        xml.text(sheet.page().foot()).close().close().close();
        xml.open("style:region-right")
                .open("text:p")
                .attr("text:style-name", "end")
                .open("text:span")
                .attr("text:style-name", "foot");
        xml.text("Page ").open("text:page-number").text("1").close();
        xml.text(" of ").open("text:page-count").text("1").close();
        xml.close().close().close().close().close().close();
        return xml.close();
    }

    /** The footer's own distance from the paper's edge, in mm. */
    private static final double FOOT_EDGE_MM = 6;
}
