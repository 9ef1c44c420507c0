package pigmentbook.mold;

/** The area between a line and widths measured across it at equal steps. */
final class StationRules {

    private StationRules() {}

    /** Returns the area by trapezoids: half-weight ends, never the mean of the widths. */
    static double trapezoid(double spacing, double[] widths) {
        double sum = 0;
        for (int i = 0; i + 1 < widths.length; i++) {
            sum += (widths[i] + widths[i + 1]) / 2;
        }
        return spacing * sum;
    }

    /**
     * Returns the area by Simpson's first rule. An even number of widths ends with one trapezoid; fewer than three
     * widths are the trapezoid.
     */
    static double simpson(double spacing, double[] widths) {
        if (widths.length < 3) {
            return trapezoid(spacing, widths);
        }
        int last = widths.length % 2 == 1 ? widths.length - 1 : widths.length - 2;
        double sum = widths[0] + widths[last];
        for (int i = 1; i < last; i++) {
            sum += (i % 2 == 1 ? 4 : 2) * widths[i];
        }
        double tail = last == widths.length - 1 ? 0 : (widths[last] + widths[last + 1]) / 2;
        return spacing * (sum / 3 + tail);
    }
}
