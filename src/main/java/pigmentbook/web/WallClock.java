package pigmentbook.web;

import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Moments as a clock on the wall shows them; with the offset where summer time's end shows an hour twice. */
final class WallClock {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE HH:mm", Locale.ENGLISH);
    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("EEE d MMM HH:mm", Locale.ENGLISH);
    private static final DateTimeFormatter OFFSET = DateTimeFormatter.ofPattern(" (xxx)", Locale.ROOT);

    private WallClock() {}

    /** The time alone, as in {@code 02:30}. */
    static String time(ZonedDateTime moment) {
        return shown(moment, TIME);
    }

    /** With the day of the week, as in {@code Sun 02:30}. */
    static String day(ZonedDateTime moment) {
        return shown(moment, DAY);
    }

    /** With the date, as in {@code Sun 29 Mar 02:30}. */
    static String date(ZonedDateTime moment) {
        return shown(moment, DATE);
    }

    private static String shown(ZonedDateTime moment, DateTimeFormatter format) {
        boolean twice = moment.getZone()
                        .getRules()
                        .getValidOffsets(moment.toLocalDateTime())
                        .size()
                > 1;
        return moment.format(format) + (twice ? moment.format(OFFSET) : "");
    }
}
