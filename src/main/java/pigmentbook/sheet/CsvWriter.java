package pigmentbook.sheet;

import com.opencsv.CSVWriter;
import com.opencsv.ICSVWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.nio.charset.StandardCharsets;
import pigmentbook.quantity.Numbers;

/** Draws the plain table as csv: UTF-8, lines end with CR LF, a dot as decimal mark. */
final class CsvWriter {

    /** What an office program would take for the start of a formula. */
    private static final String STARTS_A_FORMULA = "=+-@\t\r";

    private CsvWriter() {}

    static void write(MixSheet sheet, OutputStream out) throws IOException {
        // Not closed: the stream is the caller's.
        CSVWriter csv = new CSVWriter(
                new OutputStreamWriter(out, StandardCharsets.UTF_8),
                ICSVWriter.DEFAULT_SEPARATOR,
                ICSVWriter.DEFAULT_QUOTE_CHARACTER,
                ICSVWriter.DEFAULT_QUOTE_CHARACTER,
                ICSVWriter.RFC4180_LINE_END);
        for (Grid.Row row : sheet.table().rows()) {
            csv.writeNext(
                    row.cells().stream()
                            .map(placed -> written(placed.cell().content()))
                            .toArray(String[]::new),
                    false);
        }
        csv.flush();
        if (csv.checkError()) {
            throw new IOException("The csv table could not be written.");
        }
    }

    private static String written(Cell.Content content) {
        if (content instanceof Cell.Figure figure) {
            return Numbers.plain(figure.value());
        }
        if (content instanceof Cell.Text text) {
            return harmless(text.text());
        }
        return "";
    }

    static String harmless(String text) {
        return !text.isEmpty() && STARTS_A_FORMULA.indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
    }
}
