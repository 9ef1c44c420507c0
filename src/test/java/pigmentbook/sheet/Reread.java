package pigmentbook.sheet;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFCell;
import org.apache.poi.xssf.usermodel.XSSFName;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.SAXException;

/**
 * What a written workbook holds, read by other means than it was written with.
 *
 * @param cells the cells by address, such as {@code B12}
 * @param names the address of each defined name
 * @param isProtected whether the sheet is locked
 */
record Reread(Map<String, Found> cells, Map<String, String> names, boolean isProtected) {

    /** One cell. */
    record Found(String text, Double number, String formula, boolean locked, boolean checked) {

        boolean hasContent() {
            return number != null || !text.isEmpty() || !formula.isEmpty();
        }
    }

    Found named(String name) {
        String address = names.get(name);
        if (address == null) {
            throw new AssertionError("no cell is named " + name);
        }
        return cells.getOrDefault(address, new Found("", null, "", true, false));
    }

    static Reread of(SheetWriters.Format format, byte[] bytes) {
        try {
            return format == SheetWriters.Format.XLSX ? xlsx(bytes) : ods(bytes);
        } catch (IOException | SAXException | ParserConfigurationException e) {
            throw new AssertionError(e);
        }
    }

    private static Reread xlsx(byte[] bytes) throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes))) {
            XSSFSheet sheet = book.getSheetAt(0);
            Map<String, Found> cells = new TreeMap<>();
            for (var row : sheet) {
                for (var cell : row) {
                    cells.put(cell.getAddress().formatAsString(), found((XSSFCell) cell, sheet.getDataValidations()));
                }
            }
            Map<String, String> names = new LinkedHashMap<>();
            for (XSSFName name : book.getAllNames()) {
                if (!name.getNameName().startsWith("_xlnm")) {
                    names.put(
                            name.getNameName(),
                            new CellReference(name.getRefersToFormula().split(":")[0])
                                    .formatAsString(false)
                                    .replaceAll(".*!", "")
                                    .replace("$", ""));
                }
            }
            return new Reread(cells, names, sheet.getProtect());
        }
    }

    private static Found found(XSSFCell cell, List<? extends DataValidation> checks) {
        boolean isFormula = cell.getCellType() == CellType.FORMULA;
        CellType type = isFormula ? cell.getCachedFormulaResultType() : cell.getCellType();
        boolean checked = false;
        for (DataValidation check : checks) {
            for (CellRangeAddress range : check.getRegions().getCellRangeAddresses()) {
                checked |= range.isInRange(cell);
            }
        }
        return new Found(
                type == CellType.STRING ? cell.getStringCellValue() : "",
                type == CellType.NUMERIC ? (Double) cell.getNumericCellValue() : null,
                isFormula ? cell.getCellFormula() : "",
                cell.getCellStyle().getLocked(),
                checked);
    }

    private static Reread ods(byte[] bytes) throws IOException, SAXException, ParserConfigurationException {
        Document content = part(bytes, "content.xml");
        Map<String, Boolean> lockedByStyle = new HashMap<>();
        for (Document document : List.of(content, part(bytes, "styles.xml"))) {
            for (Element style : all(document, "style:style")) {
                for (Element properties : all(style, "style:table-cell-properties")) {
                    String protect = properties.getAttribute("style:cell-protect");
                    if (!protect.isEmpty()) {
                        lockedByStyle.put(style.getAttribute("style:name"), !protect.equals("none"));
                    }
                }
            }
        }
        Element table = all(content, "table:table").get(0);
        Map<String, Found> cells = new TreeMap<>();
        int row = 0;
        for (Element each : all(table, "table:table-row")) {
            int column = 0;
            for (Node node = each.getFirstChild(); node != null; node = node.getNextSibling()) {
                if (node instanceof Element cell) {
                    int repeated = count(cell, "table:number-columns-repeated");
                    if (repeated < 100) {
                        for (int i = 0; i < repeated; i++) {
                            String address = CellReference.convertNumToColString(column + i) + (row + 1);
                            cells.put(address, found(cell, lockedByStyle));
                        }
                    }
                    column += repeated;
                }
            }
            row += count(each, "table:number-rows-repeated");
        }
        Map<String, String> names = new LinkedHashMap<>();
        for (Element name : all(content, "table:named-range")) {
            if (name.getAttribute("table:name").startsWith("_xlnm")) {
                continue; // the print area, which another program names so
            }
            names.put(
                    name.getAttribute("table:name"),
                    name.getAttribute("table:cell-range-address")
                            .replaceAll(".*\\.", "")
                            .replace("$", ""));
        }
        return new Reread(cells, names, table.getAttribute("table:protected").equals("true"));
    }

    private static int count(Element element, String attribute) {
        String count = element.getAttribute(attribute);
        return count.isEmpty() ? 1 : Integer.parseInt(count);
    }

    private static Found found(Element cell, Map<String, Boolean> lockedByStyle) {
        StringBuilder text = new StringBuilder();
        List<Element> lines = all(cell, "text:p");
        for (int i = 0; i < lines.size(); i++) {
            text.append(i == 0 ? "" : "\n");
            text(lines.get(i), text);
        }
        boolean isText = cell.getAttribute("office:value-type").equals("string");
        String value = cell.getAttribute("office:value");
        return new Found(
                isText ? text.toString() : cell.getAttribute("office:date-value"),
                value.isEmpty() ? null : (Double) Double.parseDouble(value),
                cell.getAttribute("table:formula"),
                lockedByStyle.getOrDefault(cell.getAttribute("table:style-name"), true),
                !cell.getAttribute("table:content-validation-name").isEmpty());
    }

    private static void text(Node node, StringBuilder text) {
        for (Node child = node.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child.getNodeName().equals("text:s")) {
                text.append(" ".repeat(count((Element) child, "text:c")));
            } else if (child.getNodeName().equals("text:tab")) {
                text.append('\t');
            } else if (child.getNodeType() == Node.TEXT_NODE) {
                text.append(child.getNodeValue());
            } else {
                text(child, text);
            }
        }
    }

    static byte[] entry(byte[] zip, String name) throws IOException {
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                if (entry.getName().equals(name)) {
                    return in.readAllBytes();
                }
            }
        }
        throw new AssertionError("no " + name + " in the file");
    }

    static Document part(byte[] zip, String name) throws IOException, SAXException, ParserConfigurationException {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(entry(zip, name)));
    }

    private static List<Element> all(Node node, String tag) {
        var list = node instanceof Document document
                ? document.getElementsByTagName(tag)
                : ((Element) node).getElementsByTagName(tag);
        return java.util.stream.IntStream.range(0, list.getLength())
                .mapToObj(i -> (Element) list.item(i))
                .toList();
    }
}
