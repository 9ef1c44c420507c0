package pigmentbook.web;

import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;

/** A clock on a wall in Berlin that a test sets. The European Union's rules for summer time: Directive 2000/84/EC. */
final class HandClock extends Clock {

    static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

    private volatile Instant now;

    HandClock(String now) {
        this.now = moment(now);
    }

    void set(String moment) {
        now = moment(moment);
    }

    private static Instant moment(String text) {
        return OffsetDateTime.parse(text).toInstant();
    }

    @Override
    public Instant instant() {
        return now;
    }

    @Override
    public ZoneId getZone() {
        return BERLIN;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        return Clock.fixed(now, zone);
    }
}
