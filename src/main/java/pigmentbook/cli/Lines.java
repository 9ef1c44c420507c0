package pigmentbook.cli;

import java.util.ArrayList;
import java.util.List;

/** Lays text out for a terminal of 80 columns. */
final class Lines {

    static final int WIDTH = 80;

    /** No column of text gets narrower than this. */
    private static final int LEAST = 8;

    private final StringBuilder out = new StringBuilder();
    private final boolean colour;

    Lines(boolean colour) {
        this.colour = colour;
    }

    /** How a column is filled. */
    enum Side {
        LEFT,
        /** On the right, so that figures of the same decimals stand under each other. */
        RIGHT
    }

    Lines head(String text) {
        out.append(bold(cut(text, WIDTH))).append('\n');
        return this;
    }

    Lines blank() {
        out.append('\n');
        return this;
    }

    /** Adds a text, broken between words. */
    Lines text(String text) {
        return hanging("", text);
    }

    /** Adds a text behind a word, broken between words, its further lines under the first. */
    Lines hanging(String first, String text) {
        String indent = " ".repeat(first.length());
        String before = first;
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ", -1)) {
            String rest = word;
            while (rest.length() > WIDTH - indent.length()) {
                int room = WIDTH - indent.length();
                out.append(before).append(line);
                if (line.length() > 0) {
                    out.append('\n');
                    before = indent;
                    line.setLength(0);
                    continue;
                }
                out.append(rest, 0, room).append('\n');
                rest = rest.substring(room);
                before = indent;
            }
            if (line.length() > 0 && indent.length() + line.length() + 1 + rest.length() > WIDTH) {
                out.append(before).append(line).append('\n');
                before = indent;
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(rest);
        }
        out.append(before).append(line).append('\n');
        return this;
    }

    /** Adds a table; its widest columns of text give way where it would be too wide. */
    Lines table(List<String> heads, List<Side> sides, List<List<String>> rows) {
        int[] widths = new int[heads.size()];
        List<List<String>> all = new ArrayList<>(rows);
        all.add(0, heads);
        for (List<String> row : all) {
            for (int i = 0; i < widths.length; i++) {
                widths[i] = Math.max(widths[i], row.get(i).length());
            }
        }
        int sum = 2 * widths.length - 2;
        for (int width : widths) {
            sum += width;
        }
        for (int widest = widest(widths, sides);
                sum > WIDTH && widths[widest] > LEAST;
                widest = widest(widths, sides)) {
            widths[widest]--;
            sum--;
        }
        for (int r = 0; r < all.size(); r++) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < widths.length; i++) {
                String cell = cut(all.get(r).get(i), widths[i]);
                String pad = " ".repeat(widths[i] - cell.length());
                line.append(i == 0 ? "" : "  ").append(sides.get(i) == Side.LEFT ? cell + pad : pad + cell);
            }
            String text = line.toString().stripTrailing();
            out.append(r == 0 ? dim(text) : text).append('\n');
        }
        return this;
    }

    private static int widest(int[] widths, List<Side> sides) {
        int widest = 0;
        for (int i = 0; i < widths.length; i++) {
            boolean text = sides.get(i) == Side.LEFT;
            if (text && (sides.get(widest) != Side.LEFT || widths[i] > widths[widest])) {
                widest = i;
            }
        }
        return widest;
    }

    static String cut(String text, int width) {
        return text.length() <= width ? text : text.substring(0, Math.max(0, width - 1)) + "…";
    }

    String bold(String text) {
        return colour ? "\u001b[1m" + text + "\u001b[0m" : text;
    }

    private String dim(String text) {
        return colour ? "\u001b[2m" + text + "\u001b[0m" : text;
    }

    @Override
    public String toString() {
        return out.toString();
    }
}
