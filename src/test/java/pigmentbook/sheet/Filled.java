package pigmentbook.sheet;

import com.opencsv.CSVReaderBuilder;
import com.opencsv.CSVWriter;
import com.opencsv.RFC4180ParserBuilder;
import com.opencsv.exceptions.CsvException;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import javax.xml.transform.TransformerFactory;
import javax.xml.transform.dom.DOMSource;
import javax.xml.transform.stream.StreamResult;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFName;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import pigmentbook.quantity.Numbers;

/** Fills sheets in by other means than they are read with, as an office program would. */
public final class Filled {

    private Filled() {}

    /** Types texts and numbers (Double) into named cells; an empty text empties one. */
    public static byte[] in(SheetWriters.Format format, byte[] sheet, Map<String, Object> typed) {
        try {
            return switch (format) {
                case XLSX -> xlsx(sheet, typed);
                case ODS -> ods(sheet, typed);
                case CSV -> csv(sheet, typed, ',');
                case HTML -> throw new IllegalArgumentException("a page is not filled in");
            };
        } catch (Exception e) {
            throw new AssertionError(e);
        }
    }

    /** Changes a workbook. */
    interface Change {
        void on(XSSFWorkbook book) throws IOException;
    }

    static byte[] changed(byte[] xlsx, Change change) {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(xlsx))) {
            change.on(book);
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            book.write(out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    static Cell named(XSSFWorkbook book, String name) {
        XSSFName defined = book.getName(name);
        CellReference at = new CellReference(defined.getRefersToFormula().replaceAll(":.*", ""));
        XSSFSheet sheet = book.getSheet(at.getSheetName());
        return sheet.getRow(at.getRow()).getCell(at.getCol());
    }

    private static byte[] xlsx(byte[] sheet, Map<String, Object> typed) {
        return changed(
                sheet,
                book -> typed.forEach((name, value) -> {
                    Cell cell = named(book, name);
                    if (value instanceof Double number) {
                        cell.setCellValue(number);
                    } else if (value.toString().isEmpty()) {
                        cell.setBlank();
                    } else {
                        cell.setCellValue(value.toString());
                    }
                }));
    }

    private static byte[] ods(byte[] sheet, Map<String, Object> typed) throws Exception {
        Map<String, String> names = Reread.of(SheetWriters.Format.ODS, sheet).names();
        Document content = Reread.part(sheet, "content.xml");
        for (Map.Entry<String, Object> each : typed.entrySet()) {
            CellReference at = new CellReference(names.get(each.getKey()));
            Element cell = cell(content, at.getRow(), at.getCol());
            while (cell.getFirstChild() != null) {
                cell.removeChild(cell.getFirstChild());
            }
            cell.removeAttribute("office:value");
            cell.removeAttribute("office:value-type");
            String text = each.getValue().toString();
            if (each.getValue() instanceof Double) {
                cell.setAttribute("office:value-type", "float");
                cell.setAttribute("office:value", text);
            } else if (text.isEmpty()) {
                continue;
            } else if (text.matches("\\d{4}-\\d\\d-\\d\\dT.*")) {
                cell.setAttribute("office:value-type", "date");
                cell.setAttribute("office:date-value", text);
            } else {
                cell.setAttribute("office:value-type", "string");
            }
            for (String line : text.split("\n", -1)) {
                Element paragraph = content.createElement("text:p");
                paragraph.setTextContent(line);
                cell.appendChild(paragraph);
            }
        }
        StringWriter xml = new StringWriter();
        TransformerFactory.newInstance().newTransformer().transform(new DOMSource(content), new StreamResult(xml));
        return with(sheet, "content.xml", xml.toString().getBytes(StandardCharsets.UTF_8));
    }

    private static Element cell(Document content, int row, int column) {
        Node at = content.getElementsByTagName("table:table-row").item(row).getFirstChild();
        int columns = 0;
        while (true) {
            String repeated = ((Element) at).getAttribute("table:number-columns-repeated");
            if (columns >= column) {
                return (Element) at;
            }
            columns += repeated.isEmpty() ? 1 : Integer.parseInt(repeated);
            at = at.getNextSibling();
        }
    }

    /** Puts a part into a zip in the place of the one of that name. */
    static byte[] with(byte[] zip, String part, byte[] bytes) {
        Map<String, byte[]> parts = new LinkedHashMap<>();
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                parts.put(entry.getName(), in.readAllBytes());
            }
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        parts.put(part, bytes);
        return zip(parts);
    }

    static byte[] zip(Map<String, byte[]> parts) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream out = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> each : parts.entrySet()) {
                out.putNextEntry(new ZipEntry(each.getKey()));
                out.write(each.getValue());
            }
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        return bytes.toByteArray();
    }

    /** Fills the table: what belongs to the whole sheet goes into its last row. */
    static byte[] csv(byte[] sheet, Map<String, Object> typed, char separator) throws IOException, CsvException {
        List<String[]> rows = new CSVReaderBuilder(new StringReader(new String(sheet, StandardCharsets.UTF_8)))
                .withCSVParser(new RFC4180ParserBuilder().build())
                .build()
                .readAll();
        List<String> head = List.of(rows.get(0));
        for (Map.Entry<String, Object> each : typed.entrySet()) {
            RowName name = RowName.ofName(each.getKey());
            String column = each.getKey();
            String[] row = rows.get(rows.size() - 1);
            if (name != null) {
                column = each.getKey().startsWith("lot") ? "lot" : "actual_g";
                for (String[] one : rows) {
                    if (one[0].equals("" + name.layer())
                            && one[1].equals("" + name.cup())
                            && one[2].equals(name.item().id())) {
                        row = one;
                    }
                }
            }
            String text = each.getValue() instanceof Double number
                    ? Numbers.plain(number)
                    : each.getValue().toString();
            row[head.indexOf(column)] = CsvWriter.harmless(text);
        }
        StringWriter out = new StringWriter();
        try (CSVWriter csv = new CSVWriter(out, separator, '"', '"', "\r\n")) {
            csv.writeAll(new ArrayList<>(rows), false);
        }
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }
}
