package pigmentbook.sheet;

/** The paper a sheet is printed on. A sheet's columns fit both, its rows are fitted to the one that is chosen. */
public enum Paper {
    /** 210 mm × 297 mm. */
    A4("A4", 210, 297),
    /** 8 1/2 in × 11 in. */
    LETTER("Letter", 215.9, 279.4);

    /** The blank edge at the left and right, in mm. */
    static final double SIDE_MM = 10;

    /** The blank edge at the top, in mm. */
    static final double TOP_MM = 10;

    /** The edge at the bottom, which holds the footer, in mm. */
    static final double BOTTOM_MM = 14;

    private static final double POINTS_PER_MM = 72 / 25.4;

    private final String cssName;
    private final double widthMm;
    private final double heightMm;

    Paper(String cssName, double widthMm, double heightMm) {
        this.cssName = cssName;
        this.widthMm = widthMm;
        this.heightMm = heightMm;
    }

    /** Returns the paper's name, as style sheets know it. */
    public String cssName() {
        return cssName;
    }

    /** Returns the width in mm. */
    public double widthMm() {
        return widthMm;
    }

    /** Returns the height in mm. */
    public double heightMm() {
        return heightMm;
    }

    /** Returns the height that rows can fill, in points of 1/72 in. */
    public double roomPt() {
        return (heightMm - TOP_MM - BOTTOM_MM) * POINTS_PER_MM;
    }
}
