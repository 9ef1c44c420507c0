package pigmentbook.store;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads a day as people write it, where only one day can be meant. */
final class Days {

    private static final Pattern ISO = Pattern.compile("(\\d{4})-(\\d{1,2})-(\\d{1,2})(?:[T ].*)?");
    private static final Pattern DOTS = Pattern.compile("(\\d{1,2})\\. ?(\\d{1,2})\\. ?(\\d{4})");
    private static final Pattern SLASHES = Pattern.compile("(\\d{1,2})[/-](\\d{1,2})[/-](\\d{4})");
    private static final int MONTHS = 12;

    private Days() {}

    /**
     * Reads a day: the year first, or day.month.year, or with slashes where a number above 12 tells the day.
     *
     * @throws IllegalArgumentException if it is none, or two days could be meant
     */
    static LocalDate parse(String text) {
        Matcher iso = ISO.matcher(text);
        Matcher dots = DOTS.matcher(text);
        Matcher slashes = SLASHES.matcher(text);
        if (iso.matches()) {
            return day(text, number(iso, 1), number(iso, 2), number(iso, 3));
        }
        if (dots.matches()) {
            return day(text, number(dots, 3), number(dots, 2), number(dots, 1));
        }
        if (!slashes.matches()) {
            throw none(text);
        }
        int first = number(slashes, 1);
        int second = number(slashes, 2);
        int year = number(slashes, 3);
        if (first <= MONTHS && second <= MONTHS && first != second) {
            throw new IllegalArgumentException("\"" + text + "\" can be two days; write "
                    + day(text, year, second, first) + " or " + day(text, year, first, second) + ".");
        }
        return first > MONTHS ? day(text, year, second, first) : day(text, year, first, second);
    }

    private static int number(Matcher matcher, int group) {
        return Integer.parseInt(matcher.group(group));
    }

    private static LocalDate day(String text, int year, int month, int day) {
        try {
            return LocalDate.of(year, month, day);
        } catch (DateTimeException e) {
            throw none(text);
        }
    }

    private static IllegalArgumentException none(String text) {
        return new IllegalArgumentException(
                "\"" + Records.shown(text) + "\" is no day; one such as 2026-03-31 was expected.");
    }
}
