package pigmentbook.sheet;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Numbers;

/** Days and times as office programs keep them: as text, or as days since their first one. */
final class Moments {

    private static final int NANOS_OF_HALF_A_SECOND = 500_000_000;
    private static final int LENGTH_OF_A_DAY = 10;
    private static final long SECONDS_OF_A_DAY = 24 * 60 * 60;
    private static final double MOST_SERIAL = 2_958_466;

    private Moments() {}

    /**
     * Returns what a number shown as a day or a time says: {@code 2026-03-02T10:15}, {@code 2026-03-02}, {@code 10:15};
     * the number itself where it is none.
     *
     * @param days days since 30 December 1899, as office programs count from March 1900 on, or since 1 January 1904;
     *     below 1 it is a time of day
     * @param from1904 whether the days are counted from 1904
     */
    static String ofSerial(double days, boolean from1904) {
        if (days >= 0 && days < 1) {
            return LocalTime.MIDNIGHT
                    .plusSeconds(Math.round(days * SECONDS_OF_A_DAY))
                    .toString();
        }
        if (days < 0 || days >= MOST_SERIAL) {
            return Numbers.plain(days);
        }
        LocalDate first = from1904 ? LocalDate.of(1904, 1, 1) : LocalDate.of(1899, 12, 30);
        long seconds = Math.round((days - Math.floor(days)) * SECONDS_OF_A_DAY);
        return written(first.plusDays((long) Math.floor(days)).atStartOfDay().plusSeconds(seconds));
    }

    /** Returns a moment to the second, or only its day where it is midnight. */
    static String written(LocalDateTime moment) {
        LocalDateTime second = moment.plusNanos(NANOS_OF_HALF_A_SECOND).truncatedTo(ChronoUnit.SECONDS);
        return second.toLocalTime().equals(LocalTime.MIDNIGHT)
                ? second.toLocalDate().toString()
                : second.toString();
    }

    /** Reads a day, with or without its time, or a number of days since the end of 1899; null where it is neither. */
    static @Nullable LocalDateTime read(String text) {
        String tidy = text.strip().replace(' ', 'T');
        try {
            String said = tidy.matches("\\d{5}(\\.\\d+)?") ? ofSerial(Double.parseDouble(tidy), false) : tidy;
            return said.length() == LENGTH_OF_A_DAY ? LocalDate.parse(said).atStartOfDay() : LocalDateTime.parse(said);
        } catch (DateTimeException e) {
            return null;
        }
    }
}
