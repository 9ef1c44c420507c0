package pigmentbook.quantity;

import java.util.Locale;
import java.util.Map;

/** The sentences for a person whose text is no amount: what is there, what was expected, what to do. */
final class Refusal {

    private static final int MOST_QUOTED = 40;

    /** Names that mean one thing to one person and another to the next, and what to write instead. */
    private static final Map<String, String> TWO_MEANINGS = Map.ofEntries(
            Map.entry("gr", "g or grain"),
            Map.entry("dr", "dram or fl dr"),
            Map.entry("ton", "t or short ton"),
            Map.entry("tons", "t or short ton"),
            Map.entry("cup", "US cup or mL"),
            Map.entry("cups", "US cup or mL"),
            Map.entry("tbsp", "US tbsp or metric tbsp"),
            Map.entry("tsp", "US tsp or metric tsp"),
            Map.entry("°", "C or F"),
            Map.entry("deg", "C or F"),
            Map.entry("degrees", "C or F"));

    private Refusal() {}

    /** Returns the text in quotes, cut where it is long, with signs that cannot be seen written out. */
    static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        int at = 0;
        while (at < text.length() && quoted.length() <= MOST_QUOTED) {
            int sign = text.codePointAt(at);
            if (cannotBeSeen(sign)) {
                String hex = Integer.toHexString(sign).toUpperCase(Locale.ROOT);
                quoted.append("\\u")
                        .append("0".repeat(Math.max(0, 4 - hex.length())))
                        .append(hex);
            } else {
                quoted.appendCodePoint(sign);
            }
            at += Character.charCount(sign);
        }
        return quoted.append(at < text.length() ? "…\"" : "\"").toString();
    }

    /** Returns whether a sign leaves no mark on a screen and is no space either. */
    static boolean cannotBeSeen(int sign) {
        return switch (Character.getType(sign)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.UNASSIGNED,
                    Character.PRIVATE_USE -> true;
            default -> false;
        };
    }

    static BadAmountException empty(String expected) {
        return new BadAmountException("There is nothing here; " + expected + ".");
    }

    static BadAmountException tooLong(String text, String expected) {
        return new BadAmountException(quoted(text) + " is " + text.length() + " characters long; " + expected + ".");
    }

    static BadAmountException unseen(String text, String expected) {
        return new BadAmountException(
                quoted(text) + " has a character that cannot be seen. Type it again; " + expected + ".");
    }

    static BadAmountException noAmount(String text, String expected) {
        return new BadAmountException(quoted(text) + " can't be read; " + expected + ".");
    }

    static BadAmountException twoReadings(String text, String decimal, String grouped) {
        return new BadAmountException(quoted(text) + " is ambiguous: write " + decimal + " or " + grouped + ".", true);
    }

    static BadAmountException apart(String text) {
        return new BadAmountException(quoted(text)
                + " has gaps or marks between its digits; write them together with at most one decimal mark, such as"
                + " 1500.5.");
    }

    static BadAmountException twoNumbers(String text, String expected) {
        return new BadAmountException(quoted(text) + " has two numbers; write one of them: " + expected + ".");
    }

    static BadAmountException exponent(String text, String expected) {
        return new BadAmountException(quoted(text) + " has an exponent. Write the number in full; " + expected + ".");
    }

    static BadAmountException divisionByZero(String text, String expected) {
        return new BadAmountException(quoted(text) + " divides by zero; " + expected + ".");
    }

    static BadAmountException badFraction(String text) {
        return new BadAmountException(
                quoted(text) + " has no proper fraction; after a whole number write one below 1, such as 8 1/2.");
    }

    static BadAmountException noUnit(String text, Kind kind) {
        return new BadAmountException(quoted(text) + " has no unit; write " + kind.units() + " after the number.");
    }

    /** The name is no unit, or a doubtful one. */
    static BadAmountException badUnit(String text, String name, Kind kind) {
        String small = name.toLowerCase(Locale.ROOT);
        String start = quoted(name) + (name.equals(text) ? "" : " in " + quoted(text));
        if (TWO_MEANINGS.containsKey(small)) {
            return new BadAmountException(start + " can mean two things; write " + TWO_MEANINGS.get(small) + ".");
        }
        for (String other : new String[] {small, name.toUpperCase(Locale.ROOT)}) {
            if (UnitNames.find(other) != null) {
                return new BadAmountException(
                        start + " changes its meaning with its capital letters; write " + other + " if that is meant.");
            }
        }
        return new BadAmountException(start + " is not a known unit; write " + kind.units() + ".");
    }

    static BadAmountException otherKind(String text, Kind is, Kind wanted) {
        return new BadAmountException(quoted(text) + " is " + is.noun() + "; " + wanted.expected() + ".");
    }

    static BadAmountException notOne(String text, Kind kind) {
        return new BadAmountException(quoted(text) + " is not one amount"
                + (kind.addsUp() ? ": whole larger units come before smaller ones" : "") + "; " + kind.expected()
                + ".");
    }

    static BadAmountException negative(String text, String noun) {
        return new BadAmountException(quoted(text) + " is below zero; " + noun + " is 0 or more.");
    }

    static BadAmountException notPositive(String text, Kind kind) {
        return new BadAmountException(quoted(text) + " is not above zero; " + kind.expected() + ".");
    }
}
