package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.Collections;
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

    /** The rows beside which each record id stands, from 0. */
    private final Map<String, List<Integer>> rows = new LinkedHashMap<>();

    private final Map<String, RowName> named = new HashMap<>();
    private final Set<Integer> owned = new HashSet<>();
    private final Map<Pages.Spot, String> spots = new TreeMap<>();
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
        return Entries.of(located.found, located.problems, located.notes(), List.of());
    }

    /** Each kind of cell stands in one column: the one that most names of its kind lead to. */
    private void columns() {
        Map<String, Map<Integer, Integer>> votes = new HashMap<>();
        pages.names().forEach((name, place) -> {
            RowName row = RowName.ofName(name);
            if (row != null && place.page().equals(page)) {
                named.put(name, row);
                String what = name.substring(0, name.length() - row.cell("").length());
                votes.computeIfAbsent(what, kind -> new HashMap<>())
                        .merge(place.spot().column(), 1, Integer::sum);
            }
        });
        votes.forEach((what, counts) -> columns.put(what, most(counts)));
    }

    /** Returns the leftmost of the columns that most were counted for. */
    private static int most(Map<Integer, Integer> counts) {
        int most = -1;
        for (Map.Entry<Integer, Integer> each : counts.entrySet()) {
            int ahead = most < 0 ? 1 : Integer.compare(each.getValue(), counts.getOrDefault(most, 0));
            if (ahead > 0 || (ahead == 0 && each.getKey() < most)) {
                most = each.getKey();
            }
        }
        return most;
    }

    /** Record ids stand in one column: the one that holds most of them. */
    private void records() {
        Map<Integer, Integer> counts = new HashMap<>();
        Map<Pages.Spot, String> all = new TreeMap<>();
        cells.forEach((spot, text) -> {
            RowName row = RowName.ofRecord(text);
            if (row != null) {
                all.put(spot, row.record());
                counts.merge(spot.column(), 1, Integer::sum);
            }
        });
        int column = most(counts);
        all.forEach((spot, record) -> {
            if (spot.column() == column) {
                rows.computeIfAbsent(record, each -> new ArrayList<>()).add(spot.row());
                owned.add(spot.row());
            }
        });
    }

    private void fill() {
        // In the order of the sheet: some office programs write names in the order of the alphabet.
        Map<Pages.Spot, String> ordered = new TreeMap<>();
        pages.names().forEach((name, place) -> {
            if (place.page().equals(page)) {
                ordered.put(place.spot(), name);
            }
        });
        Set<String> done = new HashSet<>();
        ordered.forEach((spot, name) -> {
            RowName row = named.get(name);
            if (row != null && done.add(row.record())) {
                row(row, spot.row());
            } else if (row == null && CellNames.isOfASheet(name)) {
                spots.put(spot, name);
                found.put(name, cells.getOrDefault(spot, ""));
            }
        });
        for (String record : rows.keySet()) {
            RowName row = RowName.ofRecord(record);
            if (row != null && done.add(record)) {
                row(row, -1);
            }
        }
    }

    private void row(RowName row, int there) {
        List<Integer> at = rows.getOrDefault(row.record(), List.of());
        if (at.size() == 1) {
            take(row, at.get(0));
        } else if (at.size() > 1) {
            problems.add(new Entries.Problem(
                    row.cell("actual_g"),
                    "The record " + row.record() + " stands beside rows " + (at.get(0) + 1) + " and " + (at.get(1) + 1)
                            + "; one row was expected. Take the copy away."));
        } else if (there >= 0 && !owned.contains(there)) {
            take(row, there);
        }
        // A row that is gone leaves its names out; the plan tells that it is missing.
    }

    private void take(RowName row, int at) {
        for (String what : RowName.CELLS) {
            Integer column = columns.get(what);
            if (column != null) {
                spots.put(new Pages.Spot(at, column), row.cell(what));
                found.put(row.cell(what), cells.getOrDefault(new Pages.Spot(at, column), ""));
            }
        }
    }

    /** Comments, each with the name of its cell; with its address where it has none. */
    private List<Entries.Problem> notes() {
        List<Entries.Problem> notes = new ArrayList<>();
        for (Pages.Comment each : pages.comments()) {
            Pages.Spot spot = each.at().spot();
            String name = each.at().page().equals(page)
                    ? spots.getOrDefault(spot, spot.written())
                    : each.at().page() + "!" + spot.written();
            notes.add(new Entries.Problem(name, each.text()));
        }
        return List.copyOf(notes);
    }

    /** Tells of weights that stand in no row of the mix: beside an inserted row's weight no record id stands yet. */
    private void strays() {
        Integer column = columns.get("actual_g");
        if (column == null || owned.isEmpty()) {
            return;
        }
        int first = Collections.min(owned);
        int last = Collections.max(owned);
        Set<String> taken = new HashSet<>();
        pages.names().values().forEach(place -> taken.add(place.spot().written()));
        cells.forEach((spot, text) -> {
            boolean stray = spot.column() == column
                    && spot.row() > first
                    && spot.row() <= last + 1
                    && !owned.contains(spot.row())
                    && Character.isDigit(text.strip().charAt(0))
                    && !taken.contains(spot.written());
            if (stray) {
                problems.add(new Entries.Problem(
                        spot.written(),
                        Shown.quoted(text) + " stands in a row without a record id, so nobody knows what was weighed."
                                + " Write the id beside it, such as 1/1/amber_paste."));
            }
        });
    }
}
