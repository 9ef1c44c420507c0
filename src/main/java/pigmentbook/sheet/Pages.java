package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** What stands in a workbook: the cells that hold something, each as text, and where the defined names lead. */
final class Pages {

    /** No mix sheet has more cells that hold something. */
    private static final int MOST_CELLS = 100_000;

    private static final int MOST_NAMES = 20_000;
    private static final int MOST_COMMENTS = 2_000;

    private final Map<String, Map<Spot, String>> cells = new HashMap<>();
    private final Map<String, Place> names = new LinkedHashMap<>();
    private final List<Comment> comments = new ArrayList<>();
    private int count;

    /**
     * A cell of a page.
     *
     * @param row its row, from 0
     * @param column its column, from 0
     */
    record Spot(int row, int column) implements Comparable<Spot> {
        @Override
        public int compareTo(Spot other) {
            int rows = Integer.compare(row, other.row);
            return rows != 0 ? rows : Integer.compare(column, other.column);
        }

        String written() {
            return new Grid.Address(row, column).written().replace("$", "");
        }
    }

    /**
     * Where a name leads.
     *
     * @param page the page's title
     * @param spot the cell
     */
    record Place(String page, Spot spot) {}

    /** What somebody wrote as a comment on a cell. */
    record Comment(Place at, String text) {}

    void comment(String page, Spot spot, String text) throws NoMixSheetException {
        if (text.isBlank()) {
            return;
        }
        if (comments.size() >= MOST_COMMENTS) {
            throw new NoMixSheetException("has more than " + MOST_COMMENTS + " comments; no mix sheet does.");
        }
        comments.add(new Comment(new Place(page, spot), text.strip()));
    }

    List<Comment> comments() {
        return comments;
    }

    void put(String page, int row, int column, String text) throws NoMixSheetException {
        if (text.isBlank()) {
            return;
        }
        if (++count > MOST_CELLS) {
            throw new NoMixSheetException(
                    "holds more than " + MOST_CELLS + " filled cells; no mix sheet does. It is not read any further.");
        }
        cells.computeIfAbsent(page, title -> new TreeMap<>()).put(new Spot(row, column), text);
    }

    /** Notes a name of a range such as {@code $Mix.$B$4:.$C$4} or {@code 'My mix'!$B$4}; others lead nowhere. */
    void name(String name, String range) throws NoMixSheetException {
        if (names.size() >= MOST_NAMES) {
            throw new NoMixSheetException("has more than " + MOST_NAMES + " names; no mix sheet does.");
        }
        Place place = place(range.strip());
        if (place != null) {
            names.put(name, place);
        }
    }

    /** Returns the place of a range's first cell, or null where it leads nowhere, as {@code #REF!} does. */
    static @Nullable Place place(String range) {
        int at = range.startsWith("$") ? 1 : 0;
        StringBuilder page = new StringBuilder();
        boolean quoted = at < range.length() && range.charAt(at) == '\'';
        if (quoted) {
            at++;
        }
        while (at < range.length()) {
            char c = range.charAt(at);
            if (quoted && c == '\'') {
                if (at + 1 < range.length() && range.charAt(at + 1) == '\'') {
                    at++;
                } else {
                    at++;
                    break;
                }
            } else if (!quoted && (c == '!' || c == '.')) {
                break;
            }
            page.append(range.charAt(at));
            at++;
        }
        Spot spot = at < range.length() ? spot(range.substring(at + 1)) : null;
        return spot == null ? null : new Place(page.toString(), spot);
    }

    /** Returns the cell at the front of {@code $B$4:.$C$4}, or null. */
    static @Nullable Spot spot(String reference) {
        int column = 0;
        int row = 0;
        int at = 0;
        boolean letters = false;
        boolean digits = false;
        for (; at < reference.length() && reference.charAt(at) != ':'; at++) {
            char c = reference.charAt(at);
            if (c >= 'A' && c <= 'Z' && !digits && column < 20_000) {
                column = column * 26 + c - 'A' + 1;
                letters = true;
            } else if (c >= '0' && c <= '9' && letters && row < 20_000_000) {
                row = row * 10 + c - '0';
                digits = true;
            } else if (c != '$') {
                return null;
            }
        }
        return letters && digits && row > 0 ? new Spot(row - 1, column - 1) : null;
    }

    Map<String, Place> names() {
        return names;
    }

    /** Returns the cells of a page that hold something, in reading order. */
    Map<Spot, String> page(String title) {
        return cells.getOrDefault(title, Map.of());
    }

    /** Returns what stands in a cell; nothing is empty. */
    String at(String page, Spot spot) {
        return page(page).getOrDefault(spot, "");
    }
}
