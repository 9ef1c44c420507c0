package pigmentbook.sheet;

/** Text made fit for a cell, and how much room it takes. */
final class Texts {

    /** The most characters an office program keeps in a cell. */
    private static final int MOST_CHARS = 32_767;

    /** A row can't be higher than this, in points. */
    static final double MOST_ROW_PT = 409;

    /**
     * Widths of the characters from space to tilde in the sans face, in thousandths of its size (its public metrics).
     */
    private static final String WIDTHS = """
            278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 \
            278 584 584 584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 \
            667 944 667 667 611 278 278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 \
            556 333 500 278 556 500 722 500 500 500 334 260 334 584""";

    private static final double[] WIDTH = java.util.Arrays.stream(WIDTHS.split("\\s+"))
            .mapToDouble(Double::parseDouble)
            .toArray();

    private static final double OTHER_LETTER = 620;
    private static final double FULL_WIDTH = 1000;
    private static final int FULL_WIDTH_FROM = 0x1100;

    /** Between these lie dashes, quotes, arrows and other signs no wider than a letter. */
    private static final int SIGNS_FROM = 0x1E00;

    private static final int SIGNS_TO = 0x2E7F;
    private static final double BOLD = 1.08;
    private static final double LINE = 1.2;
    private static final double PADDING_PT = 5;
    private static final double POINTS_PER_MM = 72 / 25.4;

    /** Office programs break lines a little earlier than plain widths say. */
    private static final double SAFETY = 0.95;

    private Texts() {}

    /** Returns the text with line ends as one character and what XML can't hold as {@code U+FFFD}, cut to a cell. */
    static String clean(String text) {
        StringBuilder clean = null;
        int end = Math.min(text.length(), MOST_CHARS);
        for (int i = 0; i < end; ) {
            int c = text.codePointAt(i);
            int chars = Character.charCount(c);
            boolean fits = (c >= ' ' && c < 0xD800 && c != 0x7F)
                    || c == '\n'
                    || c == '\t'
                    || (c > 0xDFFF && c < 0xFFFE)
                    || (c > 0xFFFF && i + chars <= end);
            if (!fits && clean == null) {
                clean = new StringBuilder(end).append(text, 0, i);
            }
            if (clean != null) {
                if (fits) {
                    clean.appendCodePoint(c);
                } else if (c != '\r' || i + 1 >= end || text.charAt(i + 1) != '\n') {
                    clean.append(c == '\r' ? '\n' : '\uFFFD');
                }
            }
            i += chars;
        }
        return clean == null ? text.substring(0, end) : clean.toString();
    }

    /** Returns the height that a text takes in a width, in points, at most what a row can have. */
    static double heightPt(String text, Style style, double widthMm) {
        double room = roomPt(widthMm);
        int lines = 0;
        for (String line : text.split("\n", -1)) {
            lines += lines(line, style, room);
        }
        return Math.min(MOST_ROW_PT, lines * style.sizePt() * LINE + 3);
    }

    /** Returns whether a text fits a width on one line. */
    static boolean fits(String text, Style style, double widthMm) {
        return !text.contains("\n") && widthPt(text, style) <= roomPt(widthMm);
    }

    /** Returns the room that a text has in a width, in points. */
    static double roomPt(double widthMm) {
        return widthMm * POINTS_PER_MM * SAFETY - PADDING_PT;
    }

    /** Returns the width of a text on one line, in points. */
    static double widthPt(String text, Style style) {
        double width = 0;
        for (int i = 0; i < text.length(); ) {
            int c = text.codePointAt(i);
            width += width(c);
            i += Character.charCount(c);
        }
        return width / 1000 * style.sizePt() * (style.bold() ? BOLD : 1);
    }

    private static double width(int c) {
        if (c >= ' ' && c <= '~') {
            return WIDTH[c - ' '];
        }
        return switch (c) {
            case '\u2007' -> WIDTH['0' - ' '];
            case '\u2008' -> WIDTH['.' - ' '];
            default -> c >= FULL_WIDTH_FROM && (c < SIGNS_FROM || c > SIGNS_TO) ? FULL_WIDTH : OTHER_LETTER;
        };
    }

    private static int lines(String line, Style style, double room) {
        int lines = 1;
        double used = 0;
        double space = widthPt(" ", style);
        for (String word : line.split(" ", -1)) {
            double width = widthPt(word, style);
            if (used > 0 && used + width > room) {
                lines++;
                used = 0;
            }
            int more = (int) Math.max(0, Math.ceil(width / room) - 1);
            lines += more;
            used += width - more * room + space;
        }
        return lines;
    }
}
