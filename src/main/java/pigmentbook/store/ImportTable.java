package pigmentbook.store;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Somebody's table with the heads of its columns understood. */
final class ImportTable {

    private static final int HEAD_WITHIN = 20;
    private static final int LEAST_KNOWN = 2;
    private static final int EXAMPLES_WITHIN = 50;
    private static final int EXAMPLES = 3;
    private static final Pattern WITH_UNIT = Pattern.compile(
            "(.+?)\\s*(?:[(\\[]\\s*(.+?)\\s*[)\\]]|[,/:]\\s*(\\S+)|\\s+in\\s+(\\S+)"
                    + "|\\s+(%|m?g|kg|oz|lb|g/ml|kg/l|g/cm3|kg/m3|eur|usd|gbp))",
            Pattern.CASE_INSENSITIVE);
    private static final Pattern MASS = Pattern.compile("m?g|kg|oz|lb|grams?", Pattern.CASE_INSENSITIVE);
    private static final Pattern BARE = Pattern.compile("[+-]?\\d[\\d\\s.,/]*");

    private final String sheet;
    private final List<Column> columns;
    private final List<Table.Row> rows;
    private final Map<Meaning, Column> byMeaning = new EnumMap<>(Meaning.class);

    /**
     * A column.
     *
     * @param at its place, from 0
     * @param head its head as it stands there
     * @param meaning what it holds
     * @param unit the unit of a bare number in it; empty for none
     */
    record Column(int at, String head, Meaning meaning, String unit) {}

    private ImportTable(String sheet, List<Column> columns, List<Table.Row> rows) {
        this.sheet = sheet;
        this.columns = columns;
        this.rows = rows;
        columns.forEach(each -> byMeaning.put(each.meaning(), each));
    }

    /**
     * Understands a table.
     *
     * @param learnt meanings by folded head, which come before the plain words
     * @return the table, or null where no row looks like one of heads
     */
    static @Nullable ImportTable of(Table table, Map<String, Meaning> learnt) {
        List<Table.Row> rows = table.rows();
        for (int i = 0; i < Math.min(HEAD_WITHIN, rows.size()); i++) {
            List<Column> columns = columns(rows.get(i), learnt);
            long known = columns.stream()
                    .filter(each -> each.meaning() != Meaning.NOT_USED)
                    .count();
            if (known >= LEAST_KNOWN) {
                return new ImportTable(table.sheet(), columns, rows.subList(i + 1, rows.size()));
            }
        }
        return null;
    }

    /**
     * Returns a table in which no row looks like one of heads, with the fullest of its first rows as if it were: so
     * that a person can say what its columns hold. Null where there is none.
     */
    static @Nullable ImportTable notKnown(Table table, Map<String, Meaning> learnt) {
        List<Table.Row> rows = table.rows();
        int fullest = -1;
        long most = 0;
        for (int i = 0; i < Math.min(HEAD_WITHIN, rows.size()); i++) {
            long filled =
                    rows.get(i).cells().stream().filter(each -> !each.isBlank()).count();
            if (filled > most) {
                most = filled;
                fullest = i;
            }
        }
        return fullest < 0
                ? null
                : new ImportTable(
                        table.sheet(), columns(rows.get(fullest), learnt), rows.subList(fullest + 1, rows.size()));
    }

    private static List<Column> columns(Table.Row row, Map<String, Meaning> learnt) {
        List<Column> columns = new ArrayList<>();
        Set<Meaning> taken = EnumSet.noneOf(Meaning.class);
        for (int at = 0; at < row.cells().size(); at++) {
            String head = row.cell(at);
            if (!head.isEmpty()) {
                Column column = column(at, head, learnt);
                boolean second = !taken.add(column.meaning());
                columns.add(second ? new Column(at, head, Meaning.NOT_USED, "") : column);
            }
        }
        return columns;
    }

    private static Column column(int at, String head, Map<String, Meaning> learnt) {
        String folded = folded(head);
        Matcher matcher = WITH_UNIT.matcher(folded);
        boolean withUnit = matcher.matches();
        Meaning meaning = learnt.get(folded);
        if (meaning == null) {
            meaning = Meaning.ofHead(folded);
            withUnit &= meaning == null;
        }
        if (meaning == null && withUnit) {
            meaning = Meaning.ofHead(matcher.group(1));
        }
        if (meaning == null) {
            return new Column(at, head, Meaning.NOT_USED, "");
        }
        boolean grams = meaning == Meaning.RESIN_GRAMS && folded.contains("gram");
        String unit = grams ? "g" : meaning.unit();
        if (withUnit) {
            // As it is written: mL and ML are two units.
            Matcher written = WITH_UNIT.matcher(head.strip());
            if (written.matches()) {
                unit = first(written.group(2), written.group(3), written.group(4), written.group(5));
            }
        }
        if (MASS.matcher(unit).matches() && meaning == Meaning.RESIN) {
            meaning = Meaning.RESIN_GRAMS;
        } else if (MASS.matcher(unit).matches() && meaning == Meaning.PIGMENT) {
            meaning = Meaning.GRAMS;
        }
        return new Column(at, head, meaning, unit);
    }

    private static String first(@Nullable String... texts) {
        for (String each : texts) {
            if (each != null) {
                return each;
            }
        }
        return "";
    }

    /** Returns a head so that capitals and spaces don't matter. */
    static String folded(String head) {
        return head.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s_]+", " ").replaceAll("[*:]+$", "");
    }

    String sheet() {
        return sheet;
    }

    List<Column> columns() {
        return columns;
    }

    /** Returns the columns as a person is shown them. */
    List<Import.Column> shown() {
        return columns.stream()
                .map(each -> new Import.Column(each.head(), each.meaning().word(), examples(each)))
                .toList();
    }

    private String examples(Column column) {
        return rows.stream()
                .limit(EXAMPLES_WITHIN)
                .map(row -> row.cell(column.at()))
                .filter(each -> !each.isEmpty())
                .distinct()
                .limit(EXAMPLES)
                .map(Records::shown)
                .collect(Collectors.joining(", "));
    }

    List<Table.Row> rows() {
        return rows;
    }

    boolean has(Meaning meaning) {
        return byMeaning.containsKey(meaning);
    }

    /** Returns the first of the meanings that the table has a column for; the last one if it has none. */
    Meaning firstOf(Meaning... meanings) {
        for (Meaning each : meanings) {
            if (has(each)) {
                return each;
            }
        }
        return meanings[meanings.length - 1];
    }

    /** Returns a cell's text; a bare number with the unit that its head says. Empty where there is none. */
    String text(Table.Row row, Meaning meaning) {
        Column column = byMeaning.get(meaning);
        if (column == null) {
            return "";
        }
        String text = row.cell(column.at());
        boolean bare = !column.unit().isEmpty() && BARE.matcher(text).matches();
        return bare ? text + " " + column.unit() : text;
    }

    String head(Meaning meaning) {
        Column column = byMeaning.get(meaning);
        return column == null ? "" : column.head();
    }

    /** Returns what the table seems to list, or null. */
    Import.@Nullable As guess() {
        boolean amount = has(Meaning.PERCENT) || has(Meaning.PHR) || has(Meaning.GRAMS) || has(Meaning.AMOUNT);
        boolean formula = amount && has(Meaning.PIGMENT) && !has(Meaning.LOT);
        if (formula && (has(Meaning.RECIPE) || has(Meaning.NAME))) {
            return Import.As.RECIPES;
        }
        if (has(Meaning.LOT)) {
            return Import.As.LOTS;
        }
        boolean sheet = Stream.of(
                        Meaning.RATIO,
                        Meaning.RATIO_BY_WEIGHT,
                        Meaning.RATIO_BY_VOLUME,
                        Meaning.DENSITY_A,
                        Meaning.WORKING_TIME,
                        Meaning.LAYER_MOST,
                        Meaning.DEMOLD)
                .anyMatch(this::has);
        if (!has(Meaning.PIGMENT) && !amount && (has(Meaning.RESIN) || (has(Meaning.NAME) && sheet))) {
            return Import.As.RESINS;
        }
        return has(Meaning.PIGMENT) || (has(Meaning.NAME) && (has(Meaning.KIND) || has(Meaning.DENSITY)))
                ? Import.As.PIGMENTS
                : null;
    }
}
