package pigmentbook.sheet;

import com.opencsv.CSVReader;
import com.opencsv.CSVReaderBuilder;
import com.opencsv.RFC4180ParserBuilder;
import com.opencsv.exceptions.CsvException;
import java.io.IOException;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import pigmentbook.store.Table;

/** Reads a csv file: UTF-8 or UTF-16 with its mark, cells apart by comma, semicolon or tab (RFC 4180 otherwise). */
final class CsvTable {

    private static final int MOST_LINES_IN_A_CELL = 100;
    private static final String SEPARATORS = ",;\t";

    private CsvTable() {}

    static Table read(byte[] bytes) throws BadTableException, IOException {
        String text = text(bytes);
        TableCells cells = new TableCells("");
        try (CSVReader csv = new CSVReaderBuilder(new StringReader(text))
                .withCSVParser(new RFC4180ParserBuilder()
                        .withSeparator(separator(text))
                        .build())
                .withMultilineLimit(MOST_LINES_IN_A_CELL)
                .build()) {
            int number = 0;
            for (String[] row = csv.readNext(); row != null; row = csv.readNext()) {
                number++;
                for (int i = 0; i < row.length; i++) {
                    cells.set(i, unguarded(row[i]));
                }
                cells.endRow(number);
            }
        } catch (CsvException | IOException e) {
            throw new BadTableException("The csv file can't be read beyond its row " + (rows(cells) + 1)
                    + ": look for a quote that is not closed there.");
        }
        return cells.table();
    }

    private static int rows(TableCells cells) {
        return cells.table().rows().size();
    }

    /** Our own tables put an apostrophe before what an office program would take for a formula. */
    private static String unguarded(String cell) {
        boolean guarded = cell.length() > 1 && cell.charAt(0) == '\'' && "=+-@\t\r".indexOf(cell.charAt(1)) >= 0;
        return guarded ? cell.substring(1) : cell;
    }

    private static String text(byte[] bytes) throws BadTableException {
        Charset charset = StandardCharsets.UTF_8;
        int mark = 0;
        if (bytes.length >= 3 && bytes[0] == (byte) 0xef && bytes[1] == (byte) 0xbb && bytes[2] == (byte) 0xbf) {
            mark = 3;
        } else if (bytes.length >= 2 && bytes[0] == (byte) 0xff && bytes[1] == (byte) 0xfe) {
            charset = StandardCharsets.UTF_16LE;
            mark = 2;
        } else if (bytes.length >= 2 && bytes[0] == (byte) 0xfe && bytes[1] == (byte) 0xff) {
            charset = StandardCharsets.UTF_16BE;
            mark = 2;
        }
        String text;
        try {
            text = charset.newDecoder()
                    .decode(ByteBuffer.wrap(bytes, mark, bytes.length - mark))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new BadTableException(
                    "The file is neither a workbook nor UTF-8 text. Save the table as xlsx, ods or csv in UTF-8.");
        }
        if (text.indexOf('\0') >= 0) {
            throw new BadTableException("The file is no table. Save the table as xlsx, ods or csv in UTF-8.");
        }
        if (text.isBlank()) {
            throw new BadTableException("The file is empty.");
        }
        return text;
    }

    /** Returns the sign that stands most often between the cells of the first line that holds something. */
    private static char separator(String text) {
        int[] counts = new int[SEPARATORS.length()];
        boolean quoted = false;
        boolean any = false;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"') {
                quoted = !quoted;
            } else if (c == '\n' && !quoted && any) {
                break;
            } else if (!quoted && SEPARATORS.indexOf(c) >= 0) {
                counts[SEPARATORS.indexOf(c)]++;
            }
            any |= !Character.isWhitespace(c) && SEPARATORS.indexOf(c) < 0;
        }
        int most = 0;
        for (int i = 1; i < counts.length; i++) {
            most = counts[i] > counts[most] ? i : most;
        }
        return SEPARATORS.charAt(most);
    }
}
