package pigmentbook.quantity;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.text.Normalizer;
import org.hipparchus.fraction.BigFraction;

/**
 * Reads a text from left to right: signs, numbers, units. Typographic signs are first made plain, so that what a phone
 * or a word processor made of a text is read like what was typed.
 */
final class AmountScanner {

    /** No amount that a person writes is longer. */
    private static final int MOST_CHARACTERS = 100;

    private final String text;
    private final String tidy;
    private final String expected;
    private int at;

    /**
     * Makes a scanner at the start of a text.
     *
     * @param text what a person wrote
     * @param expected what to say was expected where it can't be read
     * @throws BadAmountException if it is empty, too long, or has signs that cannot be seen
     */
    AmountScanner(String text, String expected) {
        this.text = text;
        this.expected = expected;
        if (text.length() > MOST_CHARACTERS) {
            throw Refusal.tooLong(text, expected);
        }
        if (hasUnseen(text)) {
            throw Refusal.unseen(text, expected);
        }
        this.tidy = tidied(text);
        if (tidy.isEmpty()) {
            throw Refusal.empty(expected);
        }
    }

    private static boolean hasUnseen(String text) {
        int sign;
        for (int i = 0; i < text.length(); i += Character.charCount(sign)) {
            sign = text.codePointAt(i);
            if (Refusal.cannotBeSeen(sign)) {
                return true;
            }
        }
        return false;
    }

    private static String tidied(String text) {
        StringBuilder tidy = new StringBuilder(text.length() + 16);
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            switch (sign) {
                case '\u2010', '\u2011', '\u2012', '\u2013', '\u2212' -> tidy.append('-');
                case '\u2018', '\u2019', '\u2032' -> tidy.append('\'');
                case '\u201c', '\u201d', '\u2033' -> tidy.append('"');
                case '\u2044', '\u2215' -> tidy.append('/');
                case '\u2236' -> tidy.append(':');
                case '\u00ba', '\u02da' -> tidy.append('°');
                case '\u2103' -> tidy.append("°C");
                case '\u2109' -> tidy.append("°F");
                case '\u03bc' -> tidy.append('µ');
                case '²', '³' -> tidy.append(afterLetter(text, i) ? (char) (sign - '²' + '2') : sign);
                default -> {
                    if (isFraction(sign)) {
                        // The spaces keep 8½ from becoming 81/2.
                        tidy.append(' ').append(slashed(sign)).append(' ');
                    } else if (sign >= '\uff01' && sign <= '\uff5e') {
                        tidy.append((char) (sign - '\uff01' + '!'));
                    } else {
                        tidy.append(Character.isSpaceChar(sign) ? ' ' : sign);
                    }
                }
            }
        }
        return tidy.toString().strip();
    }

    /** A small 2 after a letter is a power, as in m²; after a digit it would become another number. */
    private static boolean afterLetter(String text, int index) {
        return index > 0 && Character.isLetter(text.charAt(index - 1));
    }

    private static boolean isFraction(char sign) {
        return (sign >= '¼' && sign <= '¾') || (sign >= '\u2150' && sign <= '\u215e');
    }

    private static String slashed(char fraction) {
        return Normalizer.normalize(String.valueOf(fraction), Normalizer.Form.NFKC)
                .replace('\u2044', '/');
    }

    /** Reads a sign, if there is one, and returns whether it is a minus. */
    boolean minus() {
        skipSpaces();
        boolean minus = is('-');
        if (minus || is('+')) {
            at++;
        }
        return minus;
    }

    /** Reads a number: a decimal, a fraction, or a whole number and a fraction. */
    BigFraction number() {
        int start = at;
        BigFraction first = Numbers.fraction(decimal());
        boolean whole = isWhole(start, at);
        skipSpaces();
        BigFraction number = first;
        if (is('/') && digitAfterSpaces(at + 1)) {
            number = first.divide(divisor(whole));
        } else if (dashBeforeDigit() || isDigit(at)) {
            number = first.add(properFraction(whole));
        }
        skipSpaces();
        if (dashBeforeDigit()) {
            throw Refusal.twoNumbers(text, expected);
        }
        if (numberStarts(at)) {
            throw Refusal.apart(text);
        }
        return number;
    }

    /** Reads a number with at most one decimal mark. */
    BigDecimal decimal() {
        skipSpaces();
        int start = at;
        int marks = 0;
        int mark = -1;
        while (isDigit(at) || (isMark(at) && (isDigit(at + 1) || at > start))) {
            if (isMark(at)) {
                marks++;
                mark = at;
            }
            at++;
        }
        if (at == start) {
            throw Refusal.noAmount(text, expected);
        }
        if (marks > 1 || mark == at - 1) {
            throw Refusal.apart(text);
        }
        if ((is('e') || is('E')) && (isDigit(at + 1) || (isDigit(at + 2) && isSign(at + 1)))) {
            throw Refusal.exponent(text, expected);
        }
        String digits = tidy.substring(start, at);
        if (mark >= 0 && tidy.charAt(mark) == ',' && at - mark == 4) {
            String rest = unit();
            String unit = UnitNames.find(rest) == null ? "" : rest;
            throw Refusal.twoReadings(text, reading(digits, ".", unit), reading(digits, "", unit));
        }
        return new BigDecimal(digits.replace(',', '.'));
    }

    private static String reading(String digits, String mark, String unit) {
        BigDecimal number = new BigDecimal(digits.replace(",", mark)).stripTrailingZeros();
        String plain = number.signum() == 0 ? "0" : number.toPlainString();
        return unit.isEmpty() ? plain : plain + " " + unit;
    }

    private BigFraction properFraction(boolean afterWhole) {
        boolean dash = is('-');
        if (dash) {
            at++;
        }
        BigInteger numerator = digits();
        skipSpaces();
        if (!is('/') || !digitAfterSpaces(at + 1)) {
            throw dash ? Refusal.twoNumbers(text, expected) : Refusal.apart(text);
        }
        BigFraction fraction = new BigFraction(numerator).divide(divisor(afterWhole));
        if (fraction.compareTo(BigFraction.ONE) >= 0) {
            throw Refusal.badFraction(text);
        }
        return fraction;
    }

    private BigInteger divisor(boolean afterWhole) {
        at++;
        BigInteger divisor = digits();
        if (!afterWhole) {
            throw Refusal.badFraction(text);
        }
        if (divisor.signum() == 0) {
            throw Refusal.divisionByZero(text, expected);
        }
        return divisor;
    }

    private BigInteger digits() {
        skipSpaces();
        int start = at;
        while (isDigit(at)) {
            at++;
        }
        return new BigInteger(tidy.substring(start, at));
    }

    /** Reads what stands between this number and the next or the end. */
    String unit() {
        skipSpaces();
        int start = at;
        while (at < tidy.length() && !numberStarts(at) && !dashBeforeDigit()) {
            at++;
        }
        String unit = tidy.substring(start, at).strip();
        if (unit.equals("'") && tidy.charAt(at - 1) == '\'' && isWhole(at, at + 3) && !isDigit(at + 3)) {
            // 1'500 is a foot and 500 of something to one person, and fifteen hundred to another.
            throw Refusal.apart(text);
        }
        return unit;
    }

    /** Skips the dash of 1'-2", where one may be, and returns whether anything follows. */
    boolean more(boolean afterFeet) {
        skipSpaces();
        if (afterFeet && is('-')) {
            at++;
        }
        return at < tidy.length();
    }

    /** Reads one of these words, in any case, or returns false where another thing stands. */
    boolean word(String... words) {
        skipSpaces();
        for (String word : words) {
            if (tidy.regionMatches(true, at, word, 0, word.length())) {
                at += word.length();
                return true;
            }
        }
        return false;
    }

    /** Refuses whatever is left. */
    void end() {
        skipSpaces();
        if (at < tidy.length()) {
            throw Refusal.noAmount(text, expected);
        }
    }

    private void skipSpaces() {
        while (is(' ')) {
            at++;
        }
    }

    private boolean is(char sign) {
        return at < tidy.length() && tidy.charAt(at) == sign;
    }

    private boolean isDigit(int index) {
        return index >= 0 && index < tidy.length() && tidy.charAt(index) >= '0' && tidy.charAt(index) <= '9';
    }

    private boolean isSign(int index) {
        return tidy.charAt(index) == '-' || tidy.charAt(index) == '+';
    }

    private boolean dashBeforeDigit() {
        return is('-') && digitAfterSpaces(at + 1);
    }

    private boolean isMark(int index) {
        return index < tidy.length() && (tidy.charAt(index) == '.' || tidy.charAt(index) == ',');
    }

    private boolean isWhole(int from, int to) {
        for (int i = from; i < to; i++) {
            if (!isDigit(i)) {
                return false;
            }
        }
        return true;
    }

    private boolean digitAfterSpaces(int index) {
        int i = index;
        while (i < tidy.length() && tidy.charAt(i) == ' ') {
            i++;
        }
        return isDigit(i);
    }

    private boolean numberStarts(int index) {
        return (isDigit(index) && !isPower(index)) || (isMark(index) && isDigit(index + 1));
    }

    /** Returns whether the digit is the 2 of m2 or the 3 of cm3, and not the number in 1ft2in or 1ft2/3in. */
    private boolean isPower(int index) {
        char digit = tidy.charAt(index);
        if ((digit != '2' && digit != '3') || index == 0) {
            return false;
        }
        char before = tidy.charAt(index - 1);
        int next = index + 1;
        boolean numberGoesOn = next < tidy.length()
                && (Character.isLetterOrDigit(tidy.charAt(next))
                        || ((isMark(next) || tidy.charAt(next) == '/') && isDigit(next + 1)));
        return (Character.isLetter(before) || before == '^') && !numberGoesOn;
    }
}
