package pigmentbook.web;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import pigmentbook.book.Book;
import pigmentbook.store.Import;

/**
 * What a table's columns are taken to hold, to be changed by hand, and what the table leaves open.
 *
 * @param sheets the sheets with their columns
 * @param words what a column may hold
 * @param resins the book's resins
 * @param resin the one for recipes that name none; empty for none chosen
 * @param add whether pigments that the book lacks are made
 * @param drops the pigments whose drop has to be weighed, with what was typed
 */
public record BroughtColumns(
        List<Sheet> sheets, List<String> words, List<Choice> resins, String resin, boolean add, List<Drop> drops) {

    private static final int MOST_COLUMNS = 60;

    /**
     * A sheet.
     *
     * @param as what its rows are taken to be; empty where that is not known
     * @param asChosen whether a person said so
     * @param more how many columns there are beside those shown
     */
    public record Sheet(String name, String as, boolean asChosen, List<Column> columns, int more) {

        /** Returns whether a person has to say what it holds. */
        public boolean unclear() {
            return as.isEmpty();
        }
    }

    /**
     * A column.
     *
     * @param head its head
     * @param word what it is taken to hold
     * @param examples what stands in it
     */
    public record Column(String head, String word, String examples) {}

    /** Something to choose. */
    public record Choice(String id, String name) {}

    /** A pigment that was counted in drops. */
    public record Drop(String pigment, String typed) {}

    /** Returns whether nothing needs to be said: every sheet is understood and nothing is left open. */
    public boolean clear() {
        return drops.isEmpty() && sheets.stream().noneMatch(Sheet::unclear);
    }

    /** Returns whether something in it is read as recipes, or not yet as anything. */
    public boolean recipes() {
        return sheets.stream().anyMatch(each -> each.unclear() || each.as().equals("recipes"));
    }

    static BroughtColumns of(Import.Found found, Import.Request request, Book book) {
        List<Sheet> sheets = new ArrayList<>();
        for (Import.Heads heads : found.heads()) {
            Import.As taken = heads.as();
            List<Column> columns = columns(heads);
            sheets.add(new Sheet(
                    heads.sheet(),
                    taken == null ? "" : BroughtIn.word(taken),
                    request.as() != null,
                    columns.subList(0, Math.min(MOST_COLUMNS, columns.size())),
                    Math.max(0, columns.size() - MOST_COLUMNS)));
        }
        List<Drop> drops = new ArrayList<>();
        Set<String> asked = new HashSet<>(found.drops());
        asked.addAll(request.dropMasses().keySet());
        asked.stream()
                .sorted()
                .forEach(each -> drops.add(new Drop(each, request.dropMasses().getOrDefault(each, ""))));
        return new BroughtColumns(
                sheets,
                Import.words(),
                book.resins().values().stream()
                        .map(each -> new Choice(each.id(), each.name()))
                        .toList(),
                Objects.requireNonNullElse(request.resin(), ""),
                request.addPigments(),
                drops);
    }

    /** A head that stands twice is chosen for once: its first column is the one that is read. */
    private static List<Column> columns(Import.Heads heads) {
        List<Column> columns = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (Import.Column each : heads.columns()) {
            if (seen.add(each.head().toLowerCase(Locale.ROOT))) {
                columns.add(new Column(each.head(), each.word(), each.examples()));
            }
        }
        return columns;
    }
}
