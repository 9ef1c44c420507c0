package pigmentbook.web;

import java.time.format.DateTimeFormatter;
import java.time.temporal.TemporalAccessor;
import java.util.Locale;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Pour;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.quantity.Numbers;

/** How figures and colours stand on a page. */
final class Figures {

    private static final int GROUP = 3;
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

    private Figures() {}

    /** Returns a figure whose thousands stand apart and whose decimals stand in a column of their own, as HTML. */
    static String of(double value, int decimals) {
        String fixed = Numbers.fixed(value, decimals);
        int dot = fixed.indexOf('.');
        String whole = dot < 0 ? fixed : fixed.substring(0, dot);
        String sign = whole.startsWith("-") ? "\u2212" : "";
        String digits = whole.startsWith("-") ? whole.substring(1) : whole;
        StringBuilder html = new StringBuilder(sign);
        int first = digits.length() % GROUP;
        if (first > 0 && digits.length() > GROUP) {
            html.append("<span class=\"k\">").append(digits, 0, first).append("</span>");
        } else {
            first = 0;
        }
        for (int at = first; at < digits.length(); at += GROUP) {
            boolean last = at + GROUP >= digits.length();
            if (last || digits.length() <= GROUP) {
                html.append(digits.substring(at));
                break;
            }
            html.append("<span class=\"k\">").append(digits, at, at + GROUP).append("</span>");
        }
        return html + "<span class=\"f\">" + (dot < 0 ? "" : fixed.substring(dot)) + "</span>";
    }

    /** Returns a number without end zeros. */
    static String plain(double value, int decimals) {
        String fixed = Numbers.fixed(value, decimals);
        return fixed.indexOf('.') < 0 ? fixed : fixed.replaceAll("0+$", "").replaceAll("\\.$", "");
    }

    /** Returns the day of a date, such as {@code 9 Jun 2026}. */
    static String day(TemporalAccessor date) {
        return DAY.format(date);
    }

    /** Returns where a colour was read, such as {@code over white, 6 mm}. */
    static String where(Pour.Reading reading) {
        return (reading.backing() == null ? "on a backing not noted" : backing(reading.backing()))
                + (reading.depth() == null ? "" : ", " + reading.depth().written());
    }

    static String hex(Lab lab) {
        return Srgb.hex(lab);
    }

    /** Returns a backing in words. */
    static String backing(@Nullable Backing backing) {
        return backing == null ? "" : backing.name() == null ? "over a measured backing" : "over " + backing.name();
    }

    /** Returns the latest reading of a recipe over a named backing, or null. */
    static Pour.@Nullable Reading reading(Book book, String recipe, String backing) {
        return latest(
                book,
                recipe,
                reading -> reading.backing() != null
                        && backing.equals(reading.backing().name()));
    }

    /** Returns the latest of a recipe's readings that will do, or null. */
    static Pour.@Nullable Reading latest(Book book, String recipe, Predicate<Pour.Reading> which) {
        Pour.Reading found = null;
        for (Pour pour : book.madeOf(recipe)) {
            for (Pour.Reading reading : pour.readings()) {
                if (which.test(reading)) {
                    found = reading;
                }
            }
        }
        return found;
    }
}
