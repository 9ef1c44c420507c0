package pigmentbook.sheet;

import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Numbers;

/**
 * Reads an xlsx workbook (ISO/IEC 29500) from front to back: names, and cells as text. The xlsx library would build the
 * whole workbook in memory, which takes longer than reading a sheet back may.
 */
final class XlsxReader {

    private static final String WORKBOOK = "/officeDocument";
    private static final Pattern ESCAPED = Pattern.compile("_x([0-9A-Fa-f]{4})_");
    private static final Pattern NOT_A_FORMAT =
            Pattern.compile("\"[^\"]*\"|\\\\.|\\[(?![hms]+\\])[^\\]]*\\]|(?i:general|standard)");

    /** The formats of days and times that need no code (ISO/IEC 29500-1 18.8.30), those of eastern scripts included. */
    private static final Pattern MOMENTS = Pattern.compile("1[4-9]|2[0-2]|2[7-9]|3[0-6]|4[5-7]|5[0-8]");

    private static final Pattern MOMENT = Pattern.compile("(?i)[ymdhs]");
    private static final int PERCENT = 9;
    private static final int PERCENT_WITH_DECIMALS = 10;

    private final ZipParts zip;
    private final Pages pages = new Pages();
    private final List<String> shared = new ArrayList<>();
    private final List<Shown> shownBy = new ArrayList<>();
    private boolean from1904;

    /** What a cell's format makes of its number. */
    private enum Shown {
        NUMBER,
        PERCENT,
        MOMENT
    }

    private XlsxReader(ZipParts zip) {
        this.zip = zip;
    }

    static Pages read(ZipParts zip) throws NoMixSheetException, IOException {
        XlsxReader reader = new XlsxReader(zip);
        reader.workbook();
        return reader.pages;
    }

    /**
     * A link from one part to another.
     *
     * @param id its id
     * @param type what it leads to
     * @param target the part's name in the zip
     */
    private record Link(String id, String type, String target) {}

    private List<Link> links(String part) throws NoMixSheetException, IOException {
        int slash = part.lastIndexOf('/') + 1;
        String folder = part.substring(0, slash);
        byte[] bytes = zip.read(folder + "_rels/" + part.substring(slash) + ".rels");
        List<Link> links = new ArrayList<>();
        if (bytes == null) {
            return links;
        }
        Markup xml = new Markup(bytes);
        while (xml.next()) {
            if (xml.starts("Relationship")) {
                String target = or(xml.attribute("Target"), "");
                links.add(new Link(
                        or(xml.attribute("Id"), ""),
                        or(xml.attribute("Type"), ""),
                        target.startsWith("/") ? target.substring(1) : within(folder, target)));
            }
        }
        return links;
    }

    private static String within(String folder, String target) {
        String above = folder;
        String rest = target;
        while (rest.startsWith("../")) {
            above = above.substring(0, above.lastIndexOf('/', above.length() - 2) + 1);
            rest = rest.substring("../".length());
        }
        return above + rest;
    }

    private static String or(@Nullable String text, String otherwise) {
        return text == null ? otherwise : text;
    }

    private static @Nullable String target(List<Link> links, String type) {
        for (Link link : links) {
            if (link.type().endsWith(type)) {
                return link.target();
            }
        }
        return null;
    }

    private void workbook() throws NoMixSheetException, IOException {
        String workbook = or(target(links(""), WORKBOOK), "xl/workbook.xml");
        if (workbook.endsWith(".bin")) {
            throw new NoMixSheetException(
                    "is a workbook in a binary form. Save it as .xlsx or .ods and read that one.");
        }
        Map<String, String> sheets = new LinkedHashMap<>();
        Markup xml = new Markup(zip.need(workbook));
        while (xml.next()) {
            if (xml.starts("workbookPr")) {
                String from = or(xml.attribute("date1904"), "0");
                from1904 = from.equals("1") || from.equals("true");
            } else if (xml.starts("sheet")) {
                sheets.put(or(xml.attribute("id"), ""), or(xml.attribute("name"), ""));
            } else if (xml.starts("definedName")) {
                String name = or(xml.attribute("name"), "");
                boolean local = xml.attribute("localSheetId") != null;
                String range = xml.text();
                // A copied sheet has names of its own that repeat the workbook's; these lead to the sheet itself.
                if (!local || !pages.names().containsKey(name)) {
                    pages.name(name, range);
                }
            }
        }
        List<Link> links = links(workbook);
        sharedStrings(target(links, "/sharedStrings"));
        styles(target(links, "/styles"));
        for (Link link : links) {
            String title = sheets.get(link.id());
            if (title != null && link.type().endsWith("/worksheet")) {
                sheet(title, zip.need(link.target()));
                comments(title, links(link.target()));
            }
        }
    }

    /**
     * Reads the comments on cells. A thread of comments stands in the older part too, with a preamble of the program:
     * where there are threads only these are read.
     */
    private void comments(String title, List<Link> links) throws NoMixSheetException, IOException {
        Set<String> threads = new HashSet<>();
        for (String type : List.of("/threadedComment", "/comments")) {
            for (Link link : links) {
                byte[] part = link.type().endsWith(type) ? zip.read(link.target()) : null;
                if (part != null) {
                    comments(title, part, type.equals("/comments") ? "comment" : "threadedComment", threads);
                }
            }
        }
    }

    private void comments(String title, byte[] part, String element, Set<String> threads) throws NoMixSheetException {
        Markup xml = new Markup(part);
        while (xml.next()) {
            if (xml.starts(element)) {
                String ref = or(xml.attribute("ref"), "");
                Pages.Spot spot = Pages.spot(ref);
                boolean thread = element.equals("threadedComment");
                String text = thread ? threadText(xml) : richText(xml, element);
                if (spot != null && (thread || !threads.contains(ref))) {
                    pages.comment(title, spot, text);
                }
                if (thread) {
                    threads.add(ref);
                }
            }
        }
    }

    private static String threadText(Markup xml) throws NoMixSheetException {
        StringBuilder text = new StringBuilder();
        while (!xml.ends("threadedComment") && xml.next()) {
            if (xml.starts("text")) {
                Markup.add(text, xml.text());
            }
        }
        return unescaped(text.toString());
    }

    private void sharedStrings(@Nullable String part) throws NoMixSheetException, IOException {
        if (part == null) {
            return;
        }
        Markup xml = new Markup(zip.need(part));
        while (xml.next()) {
            if (xml.starts("si")) {
                shared.add(richText(xml, "si"));
            }
        }
    }

    /** Returns the text of runs; readings beside the letters of some scripts are no part of it. */
    private static String richText(Markup xml, String within) throws NoMixSheetException {
        StringBuilder text = new StringBuilder();
        while (!xml.ends(within) && xml.next()) {
            if (xml.starts("rPh")) {
                xml.skip();
            } else if (xml.starts("t")) {
                Markup.add(text, xml.text());
            }
        }
        return unescaped(text.toString());
    }

    /** Characters that XML can't hold are written as {@code _x0007_}. */
    static String unescaped(String text) {
        if (!text.contains("_x")) {
            return text;
        }
        Matcher escaped = ESCAPED.matcher(text);
        StringBuilder plain = new StringBuilder();
        while (escaped.find()) {
            char c = (char) Integer.parseInt(escaped.group(1), 16);
            escaped.appendReplacement(plain, Matcher.quoteReplacement(String.valueOf(c)));
        }
        return escaped.appendTail(plain).toString();
    }

    private void styles(@Nullable String part) throws NoMixSheetException, IOException {
        if (part == null) {
            return;
        }
        Map<Integer, String> formats = new HashMap<>();
        Markup xml = new Markup(zip.need(part));
        boolean ofCells = false;
        while (xml.next()) {
            if (xml.starts("numFmt")) {
                formats.put(number(xml.attribute("numFmtId")), or(xml.attribute("formatCode"), ""));
            } else if (xml.starts("cellXfs")) {
                ofCells = true;
            } else if (xml.ends("cellXfs")) {
                ofCells = false;
            } else if (ofCells && xml.starts("xf")) {
                int id = number(xml.attribute("numFmtId"));
                shownBy.add(shown(id, formats.getOrDefault(id, "")));
            }
        }
    }

    private static Shown shown(int id, String format) {
        String signs = NOT_A_FORMAT.matcher(format).replaceAll("");
        if (id == PERCENT || id == PERCENT_WITH_DECIMALS || signs.contains("%")) {
            return Shown.PERCENT;
        }
        boolean ofTheStandard =
                format.isEmpty() && MOMENTS.matcher(String.valueOf(id)).matches();
        return ofTheStandard || MOMENT.matcher(signs).find() ? Shown.MOMENT : Shown.NUMBER;
    }

    private static int number(@Nullable String text) {
        try {
            return text == null ? 0 : Integer.parseInt(text);
        } catch (NumberFormatException e) {
            return 0;
        }
    }

    private void sheet(String title, byte[] part) throws NoMixSheetException {
        Markup xml = new Markup(part);
        int row = -1;
        int column = -1;
        while (xml.next()) {
            if (xml.starts("row")) {
                row = Math.max(-1, xml.attribute("r") == null ? row + 1 : number(xml.attribute("r")) - 1);
                column = -1;
            } else if (xml.starts("c")) {
                Pages.Spot spot = Pages.spot(or(xml.attribute("r"), ""));
                row = spot == null ? row : spot.row();
                column = spot == null ? column + 1 : spot.column();
                pages.put(title, row, column, cell(xml));
            }
        }
    }

    private String cell(Markup xml) throws NoMixSheetException {
        String type = or(xml.attribute("t"), "n");
        int style = number(xml.attribute("s"));
        String value = "";
        while (!xml.ends("c") && xml.next()) {
            if (xml.starts("v")) {
                value = xml.text();
            } else if (xml.starts("is")) {
                value = richText(xml, "is");
            } else if (xml.starts("f") || xml.starts("extLst")) {
                xml.skip();
            }
        }
        return switch (type) {
            case "s" -> shared(value);
            case "str" -> unescaped(value);
            case "b" -> value.equals("1") ? "TRUE" : "FALSE";
            case "n" -> figure(value, style >= 0 && style < shownBy.size() ? shownBy.get(style) : Shown.NUMBER);
            default -> value;
        };
    }

    private String shared(String index) {
        int at = number(index);
        return at >= 0 && at < shared.size() ? shared.get(at) : "";
    }

    private String figure(String written, Shown shown) {
        double value;
        try {
            value = Double.parseDouble(written);
        } catch (NumberFormatException e) {
            return written;
        }
        if (!Double.isFinite(value)) {
            return written;
        }
        if (shown == Shown.PERCENT) {
            return percent(value);
        }
        return shown == Shown.MOMENT ? Moments.ofSerial(value, from1904) : Numbers.plain(value);
    }

    /** Returns a fraction as a person reads it: {@code 48 %} for 0.48. */
    static String percent(double fraction) {
        BigDecimal percent = new BigDecimal(Numbers.plain(fraction)).movePointRight(2);
        return Numbers.plain(percent.doubleValue()) + " %";
    }
}
