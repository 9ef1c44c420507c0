package pigmentbook.book;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Finds what a person may have meant by a mistyped id. */
public final class NearIds {

    private static final int SHOWN = 3;

    private NearIds() {}

    /**
     * Returns the ids that come nearest to what was typed, nearest first, at most three: those that begin with it or
     * differ by no more than a quarter of its letters.
     */
    public static List<String> of(String typed, Collection<String> ids) {
        String wanted = typed.toLowerCase(Locale.ROOT);
        if (wanted.isEmpty() || wanted.length() > 64) {
            return List.of();
        }
        int most = Math.max(1, (wanted.length() + 2) / 4);
        record Near(String id, int steps) {}
        return ids.stream()
                .map(id -> new Near(id, steps(wanted, id.toLowerCase(Locale.ROOT))))
                .filter(near -> near.steps <= most)
                .sorted(Comparator.comparingInt(Near::steps).thenComparing(Near::id))
                .limit(SHOWN)
                .map(Near::id)
                .toList();
    }

    /** Returns a sentence that names the nearest ids, or an empty text when there are none near. */
    public static String hint(String typed, Collection<String> ids) {
        List<String> near = of(typed, ids);
        return near.isEmpty() ? "" : " Nearest: " + near.stream().collect(Collectors.joining(", ")) + ".";
    }

    /** Counts the letters to add, drop, change or swap (optimal string alignment); a shared beginning counts 1. */
    private static int steps(String a, String b) {
        if (b.startsWith(a)) {
            return 1;
        }
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            d[i][0] = i;
        }
        for (int j = 0; j <= b.length(); j++) {
            d[0][j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            for (int j = 1; j <= b.length(); j++) {
                int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                d[i][j] = Math.min(Math.min(d[i - 1][j] + 1, d[i][j - 1] + 1), d[i - 1][j - 1] + change);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
