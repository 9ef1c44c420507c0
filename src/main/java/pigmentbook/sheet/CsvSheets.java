package pigmentbook.sheet;

import com.opencsv.CSVReader;
import com.opencsv.CSVReaderBuilder;
import com.opencsv.RFC4180ParserBuilder;
import com.opencsv.exceptions.CsvException;
import java.io.IOException;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import pigmentbook.book.Item;

/** Reads the csv of a mix, as written or as an office program saved it: with commas, semicolons or tabs between. */
final class CsvSheets {

    private static final int MOST_LINES_IN_A_CELL = 100;
    private static final int MOST_ROWS = 20_000;
    private static final String SEPARATORS = ",;\t";
    private static final List<String> NEEDED = List.of("layer", "cup", "item", "actual_g", CellNames.ID);
    private static final Pattern GUARDED = Pattern.compile("'[=+\\-@\\t\\r].*", Pattern.DOTALL);
    private static final Pattern PLACE = Pattern.compile("[1-9]\\d{0,3}");

    /** Which column of a row goes under which name. */
    private static final Map<String, String> OF_A_ROW = Map.of(
            "lot", "lot",
            "exact_g", "target_g",
            "weigh_g", "weigh_g",
            "low_g", "low_g",
            "high_g", "high_g",
            "actual_g", "actual_g");

    /** Columns that say the same in every row, or stand in one alone, and the names they go under. */
    private static final Map<String, String> OF_THE_SHEET = ofTheSheet();

    private final Map<String, Integer> columns = new HashMap<>();
    private final Map<String, String> cells = new LinkedHashMap<>();
    private final List<Entries.Problem> problems = new ArrayList<>();

    private CsvSheets() {}

    private static Map<String, String> ofTheSheet() {
        Map<String, String> names = new LinkedHashMap<>();
        names.put("recipe", CellNames.RECIPE);
        names.put("revision", CellNames.REVISION);
        for (String name : List.of(
                CellNames.ID,
                CellNames.STARTED,
                CellNames.TEMPERATURE,
                CellNames.HUMIDITY,
                CellNames.LEFT,
                CellNames.LEVEL,
                CellNames.RATING,
                CellNames.RESULT,
                CellNames.DEVIATION,
                CellNames.PLAN)) {
            names.put(name, name);
        }
        return names;
    }

    static Entries read(byte[] bytes) throws NoMixSheetException {
        String text = text(bytes);
        String head = text.lines().findFirst().orElse("");
        char separator = ',';
        for (int i = 0; i < SEPARATORS.length(); i++) {
            char each = SEPARATORS.charAt(i);
            if (count(head, each) > count(head, separator)) {
                separator = each;
            }
        }
        CsvSheets sheets = new CsvSheets();
        try (CSVReader csv = new CSVReaderBuilder(new StringReader(text))
                .withCSVParser(
                        new RFC4180ParserBuilder().withSeparator(separator).build())
                .withMultilineLimit(MOST_LINES_IN_A_CELL)
                .build()) {
            sheets.head(csv.readNext());
            int number = 1;
            for (String[] row = csv.readNext(); row != null; row = csv.readNext()) {
                if (++number > MOST_ROWS) {
                    throw new NoMixSheetException("has more than " + MOST_ROWS + " rows; no mix sheet does.");
                }
                sheets.row(number, row);
            }
        } catch (IOException | CsvException e) {
            throw new NoMixSheetException("is no csv that can be read: a quote is missing or one cell has more than "
                    + MOST_LINES_IN_A_CELL + " lines. Save it anew.");
        }
        return Entries.of(sheets.cells, sheets.problems);
    }

    private static String text(byte[] bytes) throws NoMixSheetException {
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            if (text.indexOf('\0') >= 0) {
                throw noSheet();
            }
            return text.startsWith("\ufeff") ? text.substring(1) : text;
        } catch (CharacterCodingException e) {
            throw new NoMixSheetException(
                    "is no xlsx, ods or csv in UTF-8. If it is a csv, save it anew and choose UTF-8.");
        }
    }

    private static NoMixSheetException noSheet() {
        return new NoMixSheetException("is no mix sheet: an xlsx, an ods, or a csv with the columns "
                + String.join(", ", NEEDED) + " was expected.");
    }

    private static long count(String text, char sign) {
        return text.chars().filter(each -> each == sign).count();
    }

    private void head(String[] names) throws NoMixSheetException {
        for (int i = 0; names != null && i < names.length; i++) {
            columns.putIfAbsent(names[i].strip().toLowerCase(Locale.ROOT), i);
        }
        if (!columns.keySet().containsAll(NEEDED)) {
            throw noSheet();
        }
    }

    private String at(String[] row, String column) throws NoMixSheetException {
        Integer at = columns.get(column);
        String text = at == null || at >= row.length ? "" : row[at];
        if (text.length() > Markup.MOST_TEXT) {
            throw new NoMixSheetException("holds a cell of more than " + Markup.MOST_TEXT + " characters.");
        }
        return GUARDED.matcher(text).matches() ? text.substring(1) : text;
    }

    private void row(int number, String[] row) throws NoMixSheetException {
        for (Map.Entry<String, String> each : OF_THE_SHEET.entrySet()) {
            if (columns.containsKey(each.getKey())) {
                same(each.getValue(), at(row, each.getKey()), number);
            }
        }
        String item = at(row, "item").strip();
        String layer = at(row, "layer").strip();
        String cup = at(row, "cup").strip();
        if (item.isEmpty() && layer.isEmpty() && at(row, "actual_g").isBlank()) {
            return;
        }
        RowName name = PLACE.matcher(layer).matches() && PLACE.matcher(cup).matches() && !item.isEmpty()
                ? RowName.ofRecord(layer + "/" + cup + "/" + CellNames.inName(Item.of(item)))
                : null;
        if (name == null) {
            problems.add(new Entries.Problem(
                    "row " + number,
                    "Layer, cup and item are " + Shown.quoted(layer + ", " + cup + ", " + item)
                            + "; such as 1, 1, part A was expected."));
            return;
        }
        if (cells.containsKey(name.cell("actual_g"))) {
            problems.add(new Entries.Problem(
                    name.cell("actual_g"),
                    "Row " + number + " is a second one for " + name.record() + ". Take one of the two away."));
            return;
        }
        for (Map.Entry<String, String> each : OF_A_ROW.entrySet()) {
            if (columns.containsKey(each.getKey())) {
                cells.put(name.cell(each.getValue()), at(row, each.getKey()));
            }
        }
        if (columns.containsKey(CellNames.BY)) {
            same(CellNames.of(CellNames.BY, name.layer(), name.cup()), at(row, CellNames.BY), number);
        }
    }

    /** Notes what should be the same wherever it stands. */
    private void same(String name, String text, int number) throws NoMixSheetException {
        String before = cells.getOrDefault(name, "");
        if (before.isBlank()) {
            cells.put(name, text);
        } else if (!text.isBlank() && !text.strip().equals(before.strip())) {
            if (name.equals(CellNames.ID)) {
                throw new NoMixSheetException("holds rows of more than one sheet: " + Shown.quoted(before) + " and "
                        + Shown.quoted(text) + ". Keep the rows of one.");
            }
            problems.add(new Entries.Problem(
                    name,
                    "Here stands " + Shown.quoted(before) + ", but in row " + number + " " + Shown.quoted(text)
                            + ". Keep one of the two."));
        }
    }
}
