package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Finds a workbook's entries. A name leads to a place, and rows may have been sorted or moved away from it: in a weigh
 * row the record id that stands in it says whose row it is, and the name says only in which column to look.
 */
final class Located {

    private final Pages pages;
    private final String page;
    private final Map<Pages.Spot, String> cells;
    private final Map<String, Integer> columns = new HashMap<>();
    private final Map<RowName, List<Integer>> rows = new LinkedHashMap<>();
    private final Map<Integer, RowName> owners = new HashMap<>();
    private final Map<String, String> found = new LinkedHashMap<>();
    private final List<Entries.Problem> problems = new ArrayList<>();

    private Located(Pages pages, String page) {
        this.pages = pages;
        this.page = page;
        this.cells = pages.page(page);
    }

    static Entries entries(Pages pages) throws NoMixSheetException {
        Pages.Place id = pages.names().get(CellNames.ID);
        if (id == null) {
            return Entries.of(Map.of(), List.of());
        }
        Located located = new Located(pages, id.page());
        located.columns();
        located.records();
        located.fill();
        located.strays();
        return Entries.of(located.found, located.problems);
    }

    /** Each kind of cell stands in one column: the one that most names of its kind lead to. */
    private void columns() {
        Map<String, Map<Integer, Integer>> votes = new HashMap<>();
        pages.names().forEach((name, place) -> {
            RowName row = RowName.ofName(name);
            if (row != null && place.page().equals(page)) {
                String what = name.substring(0, name.length() - row.cell("").length());
                votes.computeIfAbsent(what, kind -> new HashMap<>())
                        .merge(place.spot().column(), 1, Integer::sum);
            }
        });
        votes.forEach((what, counts) -> columns.put(what, most(counts)));
    }

    private static int most(Map<Integer, Integer> counts) {
        return counts.entrySet().stream()
                .max(Map.Entry.<Integer, Integer>comparingByValue()
                        .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
                .orElseThrow()
                .getKey();
    }

    /** Record ids stand in one column: the one that holds most of them. */
    private void records() {
        Map<Integer, Integer> counts = new HashMap<>();
        Map<Pages.Spot, RowName> all = new TreeMap<>();
        cells.forEach((spot, text) -> {
            RowName row = RowName.ofRecord(text);
            if (row != null) {
                all.put(spot, row);
                counts.merge(spot.column(), 1, Integer::sum);
            }
        });
        int column = counts.isEmpty() ? -1 : most(counts);
        all.forEach((spot, row) -> {
            if (spot.column() == column) {
                rows.computeIfAbsent(row, each -> new ArrayList<>()).add(spot.row());
                owners.put(spot.row(), row);
            }
        });
    }

    private void fill() {
        List<Map.Entry<String, Pages.Place>> names =
                new ArrayList<>(pages.names().entrySet());
        // In the order of the sheet: some office programs write names in the order of the alphabet.
        names.sort(Comparator.comparing(each -> each.getValue().spot()));
        Set<RowName> done = new HashSet<>();
        for (Map.Entry<String, Pages.Place> name : names) {
            RowName row = RowName.ofName(name.getKey());
            if (row == null) {
                found.put(
                        name.getKey(),
                        pages.at(name.getValue().page(), name.getValue().spot()));
            } else if (done.add(row)) {
                row(row, name.getValue().spot().row());
            }
        }
        for (RowName row : rows.keySet()) {
            if (done.add(row)) {
                row(row, -1);
            }
        }
    }

    private void row(RowName row, int named) {
        List<Integer> at = rows.getOrDefault(row, List.of());
        if (at.size() == 1) {
            take(row, at.get(0));
        } else if (at.size() > 1) {
            problems.add(new Entries.Problem(
                    row.cell("actual_g"),
                    "The record " + row.record() + " stands beside rows " + (at.get(0) + 1) + " and " + (at.get(1) + 1)
                            + "; one row was expected. Take the copy away."));
        } else if (named >= 0 && !owners.containsKey(named)) {
            take(row, named);
        }
        // A row that is gone leaves its names out; the plan tells that it is missing.
    }

    private void take(RowName row, int at) {
        for (String what : RowName.CELLS) {
            Integer column = columns.get(what);
            if (column != null) {
                found.put(row.cell(what), cells.getOrDefault(new Pages.Spot(at, column), ""));
            }
        }
    }

    /** Tells of weights that stand in no row of the mix: beside an inserted row's weight no record id stands yet. */
    private void strays() {
        Integer column = columns.get("actual_g");
        if (column == null || owners.isEmpty()) {
            return;
        }
        int first = owners.keySet().stream().mapToInt(Integer::intValue).min().getAsInt();
        int last = owners.keySet().stream().mapToInt(Integer::intValue).max().getAsInt();
        Set<Pages.Place> named = new HashSet<>(pages.names().values());
        cells.forEach((spot, text) -> {
            boolean stray = spot.column() == column
                    && spot.row() > first
                    && spot.row() <= last + 1
                    && !owners.containsKey(spot.row())
                    && Character.isDigit(text.strip().charAt(0))
                    && !named.contains(new Pages.Place(page, spot));
            if (stray) {
                problems.add(new Entries.Problem(
                        spot.written(),
                        Shown.quoted(text) + " stands in a row without a record id, so nobody knows what was weighed."
                                + " Write the id beside it, such as 1/1/amber_paste."));
            }
        });
    }
}
