package pigmentbook.sheet;

import java.time.LocalDateTime;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Numbers;

/**
 * One cell of a grid.
 *
 * @param content what stands in it
 * @param style how it looks
 * @param across how many columns it spans, 1 or more
 * @param down how many rows it spans, 1 or more
 * @param name its defined name, or null
 * @param check what may be typed into it; null: it is locked
 */
public record Cell(
        Content content,
        Style style,
        int across,
        int down,
        @Nullable String name,
        @Nullable Check check) {

    /** What may be typed into an open cell. */
    public enum Check {
        /** Anything. */
        ANYTHING,
        /** A number, 0 or more. */
        NUMBER,
        /** A number from 0 to 100. */
        PERCENT,
        /** A whole number from 1 to 5. */
        RATING
    }

    /** What stands in a cell. */
    public sealed interface Content {}

    /** Nothing. */
    public record Blank() implements Content {}

    /**
     * Words. Never a formula, whatever they begin with.
     *
     * @param text the words, made fit for every format
     */
    public record Text(String text) implements Content {
        public Text {
            text = Texts.clean(text);
        }
    }

    /**
     * A number.
     *
     * @param value its value
     * @param form how it is shown
     */
    public record Figure(double value, Form form) implements Content {}

    /**
     * A formula with what it comes to.
     *
     * @param expr the formula
     * @param value what it comes to
     * @param form how it is shown
     */
    public record Formula(Expr expr, double value, Form form) implements Content {}

    /**
     * How a number is shown.
     *
     * @param before words before it, such as {@code "revision "}
     * @param decimals how many decimals, 0 or more
     * @param behind what stands behind it: spaces, so that points stand beneath each other
     */
    public record Form(String before, int decimals, String behind) {

        private static final String WIDE_AS_POINT = "\u2008";
        private static final String WIDE_AS_DIGIT = "\u2007";
        private static final double[] TENS = {1, 10, 100, 1_000, 10_000};
        private static final double NEAR_A_HALF = 1e-4;
        private static final double MOST_QUICK = 1e12;

        /** Returns a number as it is shown, with the words before it and the room behind it. */
        String shown(double value) {
            return before + digits(value) + behind;
        }

        private String digits(double value) {
            if (decimals < TENS.length && value >= 0 && value < MOST_QUICK / TENS[decimals]) {
                double scaled = value * TENS[decimals];
                double whole = Math.floor(scaled);
                if (Math.abs(scaled - whole - 0.5) > NEAR_A_HALF) {
                    return pointed((long) (scaled - whole < 0.5 ? whole : whole + 1));
                }
            }
            return Numbers.fixed(value, decimals);
        }

        private String pointed(long scaled) {
            if (decimals == 0) {
                return Long.toString(scaled);
            }
            long ten = (long) TENS[decimals];
            return scaled / ten + "." + Long.toString(ten + scaled % ten).substring(1);
        }

        /**
         * Returns a form whose point stands beneath that of longer numbers.
         *
         * @param decimals how many decimals it has
         * @param most how many the longest has
         */
        static Form aligned(int decimals, int most) {
            boolean point = decimals == 0 && most > 0;
            return new Form("", decimals, (point ? WIDE_AS_POINT : "") + WIDE_AS_DIGIT.repeat(most - decimals));
        }

        /** Returns the form with a digit's room behind it, which keeps it off a line. */
        Form offTheLine() {
            return new Form(before, decimals, behind + WIDE_AS_DIGIT);
        }
    }

    /**
     * A moment, local time.
     *
     * @param at the moment
     */
    public record Moment(LocalDateTime at) implements Content {}

    /** Nothing yet; a moment will be typed. */
    public record BlankMoment() implements Content {}

    /**
     * A patch of colour.
     *
     * @param rgb the colour as {@code #rrggbb}
     */
    public record Chip(String rgb) implements Content {}

    static Cell blank(Style style) {
        return new Cell(new Blank(), style, 1, 1, null, null);
    }

    static Cell text(Style style, String text) {
        return new Cell(new Text(text), style, 1, 1, null, null);
    }

    static Cell figure(Style style, double value, String before, int decimals) {
        return new Cell(new Figure(value, new Form(before, decimals, "")), style, 1, 1, null, null);
    }

    static Cell formula(Style style, Expr expr, double value, Form form) {
        return new Cell(new Formula(expr, value, form), style, 1, 1, null, null);
    }

    static Cell of(Style style, Content content) {
        return new Cell(content, style, 1, 1, null, null);
    }

    Cell across(int columns) {
        return new Cell(content, style, columns, down, name, check);
    }

    Cell down(int rows) {
        return new Cell(content, style, across, rows, name, check);
    }

    Cell named(String definedName) {
        return new Cell(content, style, across, down, definedName, check);
    }

    Cell entry(Check typed) {
        return new Cell(content, style, across, down, name, typed);
    }

    /** Returns whether it holds words, so that 0042 typed into it stays 0042 and =1 stays =1. */
    boolean isWords() {
        return content instanceof Text || (content instanceof Blank && check == Check.ANYTHING);
    }

    boolean isLocked() {
        return check == null;
    }
}
