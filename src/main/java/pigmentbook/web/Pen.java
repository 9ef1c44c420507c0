package pigmentbook.web;

import pigmentbook.quantity.Numbers;

/** Writes the parts of a drawing as SVG. Classes carry the look; colours that come from data are attributes. */
final class Pen {

    private static final double TICK = 3.5;
    private final StringBuilder out = new StringBuilder(2048);

    Pen(String cssClass, double width, double height, String label) {
        out.append("<svg class=\"")
                .append(cssClass)
                .append("\" viewBox=\"0 0 ")
                .append(at(width))
                .append(' ')
                .append(at(height))
                .append("\" role=\"img\" aria-label=\"")
                .append(escaped(label))
                .append("\">");
    }

    static String at(double pixels) {
        return Numbers.fixed(pixels, 1);
    }

    /** Shows a length without end zeros, at most one decimal. */
    static String shown(double value) {
        String fixed = Numbers.fixed(value, 1);
        return fixed.endsWith(".0") ? fixed.substring(0, fixed.length() - 2) : fixed;
    }

    static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }

    Pen path(String cssClass, String d) {
        out.append("<path class=\"")
                .append(cssClass)
                .append("\" d=\"")
                .append(d)
                .append("\"/>");
        return this;
    }

    /** Leaves room for a line across that the page's script draws at the height of the slice. */
    Pen slice(double left, double right, double floor, double perMm) {
        out.append("<path class=\"cut\" data-cut=\"")
                .append(at(left) + " " + at(right) + " " + at(floor) + " " + Numbers.fixed(perMm, 4))
                .append("\"/>");
        return this;
    }

    Pen filled(String cssClass, String fill, String d) {
        out.append("<path class=\"")
                .append(cssClass)
                .append("\" fill=\"")
                .append(escaped(fill))
                .append("\" d=\"")
                .append(d)
                .append("\"/>");
        return this;
    }

    Pen rect(String cssClass, double x, double y, double width, double height) {
        out.append("<rect class=\"")
                .append(cssClass)
                .append("\" x=\"")
                .append(at(x))
                .append("\" y=\"")
                .append(at(y))
                .append("\" width=\"")
                .append(at(Math.max(0, width)))
                .append("\" height=\"")
                .append(at(Math.max(0, height)))
                .append("\"/>");
        return this;
    }

    Pen text(double x, double y, String anchor, String text) {
        return text(x, y, anchor, "", text);
    }

    Pen text(double x, double y, String anchor, String cssClass, String text) {
        out.append("<text x=\"")
                .append(at(x))
                .append("\" y=\"")
                .append(at(y))
                .append("\" text-anchor=\"")
                .append(anchor)
                .append('"');
        if (!cssClass.isEmpty()) {
            out.append(" class=\"").append(cssClass).append('"');
        }
        out.append('>').append(escaped(text)).append("</text>");
        return this;
    }

    /** Draws a chain of dimensions along a horizontal line: the numbers stand between the marks. */
    Pen across(double y, double[] marks, String[] texts, double textY) {
        StringBuilder line = new StringBuilder("M" + at(marks[0]) + " " + at(y) + "H" + at(marks[marks.length - 1]));
        StringBuilder ticks = new StringBuilder();
        for (double x : marks) {
            line.append('M')
                    .append(at(x))
                    .append(' ')
                    .append(at(y - 7))
                    .append('V')
                    .append(at(y + 5));
            ticks.append('M')
                    .append(at(x - TICK))
                    .append(' ')
                    .append(at(y + TICK))
                    .append("l7-7");
        }
        path("d", line.toString()).path("tk", ticks.toString());
        for (int i = 0; i < texts.length; i++) {
            text((marks[i] + marks[i + 1]) / 2, textY, "middle", texts[i]);
        }
        return this;
    }

    /** Draws a chain of dimensions along a vertical line, the marks from below upwards. */
    Pen upright(double x, double[] marks) {
        StringBuilder line = new StringBuilder("M" + at(x) + " " + at(marks[marks.length - 1]) + "V" + at(marks[0]));
        StringBuilder ticks = new StringBuilder();
        for (double y : marks) {
            line.append('M')
                    .append(at(x - 5))
                    .append(' ')
                    .append(at(y))
                    .append('H')
                    .append(at(x + 7));
            ticks.append('M')
                    .append(at(x - TICK))
                    .append(' ')
                    .append(at(y + TICK))
                    .append("l7-7");
        }
        return path("d", line.toString()).path("tk", ticks.toString());
    }

    Pen turned(double x, double y, String text) {
        out.append("<text transform=\"translate(")
                .append(at(x))
                .append(' ')
                .append(at(y))
                .append(") rotate(-90)\" text-anchor=\"middle\">")
                .append(escaped(text))
                .append("</text>");
        return this;
    }

    String done() {
        return out.append("</svg>").toString();
    }
}
