package pigmentbook.colour;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import pigmentbook.quantity.BadAmountException;

/** Colours as people write them. */
public final class ColourText {

    private static final int MOST_QUOTED = 40;
    private static final Pattern HEX = Pattern.compile("#?([0-9a-fA-F]{6})");
    private static final Pattern RGB = Pattern.compile("rgb\\(\\s*(\\d{1,3})[\\s,]+(\\d{1,3})[\\s,]+(\\d{1,3})\\s*\\)");
    private static final String NUMBER = "\\s*([-+−]?(?:\\d{1,3}(?:\\.\\d*)?|\\.\\d+))\\s*";
    private static final Pattern LAB = Pattern.compile("\\[?" + NUMBER + "," + NUMBER + "," + NUMBER + "]?");

    /** Numbers kept apart by spaces or semicolons may have a comma as decimal mark. */
    private static final String EITHER_MARK = "([-+−]?\\d{1,3}(?:[.,]\\d+)?)";

    private static final String APART = "(?:\\s*;\\s*|\\s+)";
    private static final Pattern LAB_APART = Pattern.compile(EITHER_MARK + APART + EITHER_MARK + APART + EITHER_MARK);

    private ColourText() {}

    /**
     * Reads a colour.
     *
     * @param text {@code #rrggbb} (the mark may be missing), {@code rgb(r, g, b)} with parts of 0 to 255, or
     *     {@code L,a,b} with dots as decimal marks, or {@code L a b} or {@code L; a; b} with dots or commas
     * @throws BadAmountException if it is none
     */
    public static Lab parse(String text) {
        Matcher hex = HEX.matcher(text.strip());
        if (hex.matches()) {
            int rgb = Integer.parseInt(hex.group(1), 16);
            return Srgb.lab(rgb >> 16 & 255, rgb >> 8 & 255, rgb & 255);
        }
        Matcher three = RGB.matcher(text.strip());
        if (three.matches()) {
            return Srgb.lab(part(three.group(1)), part(three.group(2)), part(three.group(3)));
        }
        Matcher apart = LAB_APART.matcher(text.strip());
        Matcher lab = apart.matches() ? apart : LAB.matcher(text);
        if (!lab.matches()) {
            throw new BadAmountException(
                    quoted(text) + " is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot).");
        }
        try {
            return new Lab(number(lab.group(1)), number(lab.group(2)), number(lab.group(3)));
        } catch (IllegalArgumentException e) {
            throw new BadAmountException(
                    quoted(text) + " is no colour; L* goes from 0 to 100, a* and b* from -200 to 200.");
        }
    }

    private static int part(String text) {
        int part = Integer.parseInt(text);
        if (part > 255) {
            throw new BadAmountException("\"" + text + "\" is no part of a colour; rgb goes from 0 to 255.");
        }
        return part;
    }

    private static double number(String text) {
        return Double.parseDouble(text.replace('−', '-').replace(',', '.'));
    }

    private static String quoted(String text) {
        String cut = text.length() > MOST_QUOTED ? text.substring(0, MOST_QUOTED) + "…" : text;
        return "\"" + cut.replaceAll("\\p{Cntrl}", "·") + "\"";
    }
}
