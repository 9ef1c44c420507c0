package pigmentbook.colour;

import java.util.List;
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

    private static final String COMMA_MARK = "([-+−]?\\d{1,3}(?:,\\d+)?)";
    private static final String COMMA_NEEDED = "([-+−]?\\d{1,3},\\d+)";
    private static final String DOT_MARK = "([-+−]?\\d{1,3}(?:\\.\\d+)?)";
    private static final String SEMICOLON = "\\s*;\\s*";
    private static final String APART = "(?:\\s*;\\s*|\\s+)";

    /**
     * Numbers that no comma keeps apart, with one decimal mark in all of them. Between spaces a comma counts as that
     * mark only where every number has one: "45,30 40 20" may as well be four numbers.
     */
    private static final List<Pattern> LAB_APART = List.of(
            Pattern.compile(String.join(APART, DOT_MARK, DOT_MARK, DOT_MARK)),
            Pattern.compile(String.join(APART, COMMA_NEEDED, COMMA_NEEDED, COMMA_NEEDED)),
            Pattern.compile(String.join(SEMICOLON, COMMA_MARK, COMMA_MARK, COMMA_MARK)));

    /** Three numbers or more, a comma right behind one of them. */
    private static final Pattern NUMBERS_WITH_COMMAS =
            Pattern.compile("(?=.*\\d,\\s*[-+−\\d])(?:[-+−,;\\s]*+\\d++(?:\\.\\d*+)?+){3,}+[,;\\s]*+");

    private ColourText() {}

    /**
     * Reads a colour.
     *
     * @param text {@code #rrggbb} (the mark may be missing), {@code rgb(r, g, b)} with parts of 0 to 255, or
     *     {@code L,a,b} with dots as decimal marks, or {@code L a b} or {@code L; a; b} with dots or commas, one mark
     *     in all three
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
        Matcher lab = lab(text);
        if (!lab.matches()) {
            throw unreadable(text);
        }
        try {
            return new Lab(number(lab.group(1)), number(lab.group(2)), number(lab.group(3)));
        } catch (IllegalArgumentException e) {
            throw new BadAmountException(
                    quoted(text) + " is no colour; L* goes from 0 to 100, a* and b* from -200 to 200.");
        }
    }

    private static Matcher lab(String text) {
        for (Pattern apart : LAB_APART) {
            Matcher lab = apart.matcher(text.strip());
            if (lab.matches()) {
                return lab;
            }
        }
        return LAB.matcher(text);
    }

    private static BadAmountException unreadable(String text) {
        return new BadAmountException(quoted(text)
                + (NUMBERS_WITH_COMMAS.matcher(text).matches()
                        ? " can be read in more than one way; write 45.5 30 40 with dots, or 45,5; 30; 40 with"
                                + " semicolons where commas are the decimal marks."
                        : " is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*; 45.5 with a dot)."));
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
