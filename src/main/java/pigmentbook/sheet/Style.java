package pigmentbook.sheet;

import java.util.List;

/** The looks of a cell: a small closed set, so that every format draws the same page. */
public enum Style {
    TITLE(Face.SERIF, 24, Lines.NONE, Trait.WRAP),
    LONG_TITLE(Face.SERIF, 15, Lines.NONE, Trait.WRAP),
    LONGEST_TITLE(Face.SERIF, 9, Lines.NONE, Trait.WRAP),
    REVISION(Face.SERIF, 15, Lines.NONE, Trait.RIGHT, Trait.INDENT),
    BODY(Face.SANS, 9, Lines.NONE, Trait.WRAP),
    FINE(Face.SANS, 7.5, Lines.NONE, Trait.WRAP, Trait.SOFT),
    CHIP(Face.SANS, 7.5, Lines.BOX),
    LABEL(Face.SANS, 7.5, Lines.NONE, Trait.WRAP, Trait.SOFT, Trait.LOW),
    LABEL_RIGHT(Face.SANS, 7.5, Lines.NONE, Trait.SOFT, Trait.RIGHT, Trait.LOW, Trait.INDENT),
    FACT(Face.SANS, 9.5, Lines.RULE, Trait.SHRINK),
    TOTAL(Face.SANS, 13, Lines.BOX, Trait.BOLD, Trait.RIGHT, Trait.SHRINK),
    UNIT(Face.SANS, 9.5, Lines.RULE, Trait.INDENT),
    STOP_NOW(Face.SANS, 10.5, Lines.FRAME, Trait.WRAP, Trait.BOLD),
    STOP(Face.SANS, 9.5, Lines.FRAME, Trait.WRAP),
    CAUTION(Face.SANS, 8.5, Lines.HAIR, Trait.WRAP),
    SECTION(Face.SANS, 10.5, Lines.NONE, Trait.BOLD, Trait.LOW, Trait.WRAP),
    CHECK_BOX(Face.SANS, 8, Lines.FIELD),
    CHECK(Face.SANS, 9, Lines.NONE, Trait.WRAP, Trait.INDENT),
    HEAD(Face.SANS, 7.5, Lines.OVER_UNDER, Trait.WRAP, Trait.SOFT),
    HEAD_RIGHT(Face.SANS, 7.5, Lines.OVER_UNDER, Trait.WRAP, Trait.SOFT, Trait.RIGHT),
    CUP(Face.SANS, 10, Lines.NONE, Trait.BOLD, Trait.LOW),
    ORDER(Face.SANS, 8, Lines.HAIR, Trait.SOFT),
    ITEM(Face.SANS, 10.5, Lines.HAIR, Trait.WRAP),
    LOT(Face.SANS, 10, Lines.FIELD, Trait.SHRINK),
    WEIGH(Face.SANS, 18, Lines.HAIR, Trait.BOLD, Trait.RIGHT, Trait.SHRINK),
    LONG_WEIGH(Face.SANS, 14, Lines.HAIR, Trait.BOLD, Trait.RIGHT, Trait.SHRINK),
    FIGURE(Face.SANS, 11, Lines.HAIR, Trait.RIGHT, Trait.SHRINK),
    FIGURE_LEFT(Face.SANS, 11, Lines.HAIR),
    LONG_FIGURE(Face.SANS, 8, Lines.HAIR, Trait.RIGHT, Trait.SHRINK),
    EXACT(Face.SANS, 7.5, Lines.HAIR, Trait.SOFT, Trait.RIGHT, Trait.SHRINK),
    RECORD(Face.SANS, 6.5, Lines.HAIR, Trait.SOFT, Trait.SHRINK, Trait.RIGHT),
    ENTRY(Face.SANS, 15, Lines.BOX, Trait.RIGHT, Trait.SHRINK),
    ENTRY_TEXT(Face.SANS, 10, Lines.BOX, Trait.WRAP),
    ALWAYS(Face.SANS, 7, Lines.NONE, Trait.WRAP);

    /** The two families of letters. */
    enum Face {
        SANS("Arial"),
        SERIF("Times New Roman");

        private final String family;

        Face(String family) {
            this.family = family;
        }

        String family() {
            return family;
        }
    }

    /** The lines round a cell, as widths in points; 0 is none. */
    enum Lines {
        NONE(0, 0, 0, "000000"),
        HAIR(0, 0.25, 0, "808080"),
        FIELD(0.25, 0.25, 0.25, "808080"),
        OVER_UNDER(1, 0.25, 0, "000000"),
        RULE(0, 1, 0, "000000"),
        BOX(0.75, 0.75, 0.75, "000000"),
        FRAME(1.75, 1.75, 1.75, "000000");

        final double top;
        final double bottom;
        final double sides;
        final String rgb;

        Lines(double top, double bottom, double sides, String rgb) {
            this.top = top;
            this.bottom = bottom;
            this.sides = sides;
            this.rgb = rgb;
        }
    }

    private enum Trait {
        BOLD,
        SOFT,
        RIGHT,
        WRAP,
        SHRINK,
        LOW,
        INDENT
    }

    private final Face face;
    private final double sizePt;
    private final Lines lines;
    private final boolean bold;
    private final boolean soft;
    private final boolean right;
    private final boolean wrap;
    private final boolean shrink;
    private final boolean low;
    private final boolean indent;

    Style(Face face, double sizePt, Lines lines, Trait... traits) {
        this.face = face;
        this.sizePt = sizePt;
        this.lines = lines;
        List<Trait> has = List.of(traits);
        this.bold = has.contains(Trait.BOLD);
        this.soft = has.contains(Trait.SOFT);
        this.right = has.contains(Trait.RIGHT);
        this.wrap = has.contains(Trait.WRAP);
        this.shrink = has.contains(Trait.SHRINK);
        this.low = has.contains(Trait.LOW);
        this.indent = has.contains(Trait.INDENT);
    }

    Face face() {
        return face;
    }

    /** Returns whether the text keeps off the lines at its sides. */
    boolean indented() {
        return indent || lines.sides > 0;
    }

    boolean isTitle() {
        return this == TITLE || this == LONG_TITLE || this == LONGEST_TITLE;
    }

    boolean isHead() {
        return this == HEAD || this == HEAD_RIGHT;
    }

    double sizePt() {
        return sizePt;
    }

    Lines lines() {
        return lines;
    }

    boolean bold() {
        return bold;
    }

    /** Returns the colour of the letters, as rrggbb: black, or a grey that still prints. */
    String ink() {
        return soft ? "4d4d4d" : "000000";
    }

    boolean right() {
        return right;
    }

    boolean wrap() {
        return wrap;
    }

    /** Returns whether a text too wide is made smaller, so that nothing is cut off. */
    boolean shrink() {
        return shrink;
    }

    /** Returns whether the text stands on the cell's bottom; else in its middle. */
    boolean low() {
        return low;
    }
}
