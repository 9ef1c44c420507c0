package pigmentbook.web;

import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import pigmentbook.mix.Mix;
import pigmentbook.mix.Timeline;

/** The times of a mix drawn to scale: the minutes of one layer, and the hours and days of the whole piece. */
final class TimeDrawing {

    private static final double ROW = 34;
    private static final double BAR = 20;
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH);

    private TimeDrawing() {}

    /** Draws what is done to each cup of a layer, in minutes from the moment part B goes in. */
    static String layer(Mix mix, boolean broad) {
        Timeline times = mix.timeline();
        int shown = Math.min(times.cupsMin().size(), 6);
        double end = times.cupsMin().get(times.cupsMin().size() - 1).end();
        for (double pass : times.surfacePassesMin()) {
            end = Math.max(end, pass);
        }
        Double pourBy = times.pourByMin();
        end = Math.max(end, pourBy == null ? 0 : pourBy);
        double every = end > 90 ? 30 : end > 45 ? 10 : 5;
        end = (Math.floor(end / every) + 2) * every;
        double x0 = broad ? 60 : 8;
        double scale = (broad ? 432 : 297) / end;
        double first = broad ? 20 : 22;
        double row = broad ? ROW : 46;
        double axis = first + (shown - 1) * row + BAR + 52;
        Pen pen = new Pen(broad ? "broad" : "narrow", broad ? 540 : 350, axis + 26, label(times));
        double labelled = broad ? every : 2 * every;
        for (double minute = 0; minute <= end; minute += every) {
            double x = x0 + minute * scale;
            pen.path("d", "M" + Pen.at(x) + " " + Pen.at(axis) + "v5");
            if (minute % labelled == 0) {
                boolean last = minute + labelled > end;
                pen.text(x, axis + 19, "middle", Pen.shown(minute) + (last ? " min" : ""));
            }
        }
        pen.path("d", "M" + Pen.at(x0) + " " + Pen.at(axis) + "H" + Pen.at(x0 + end * scale));
        for (int i = 0; i < shown; i++) {
            Timeline.CupTimes cup = times.cupsMin().get(i);
            double y = first + i * row;
            double x = x0 + cup.stirFrom() * scale;
            pen.text(broad ? 0 : 8, broad ? y + 15 : y - 5, "start", "t-b", "Cup " + cup.number());
            pen.rect("solid", x, y, (cup.restFrom() - cup.stirFrom()) * scale, BAR);
            pen.rect("win", x0 + cup.restFrom() * scale, y, (cup.pourFrom() - cup.restFrom()) * scale, BAR);
            pen.rect("o", x0 + cup.pourFrom() * scale, y, (cup.end() - cup.pourFrom()) * scale, BAR);
            if (i == 0) {
                double after = x0 + cup.end() * scale + 8;
                String text = "stir " + Pen.shown(cup.restFrom() - cup.stirFrom()) + ", rest "
                        + Pen.shown(cup.pourFrom() - cup.restFrom()) + ", pour "
                        + Pen.shown(cup.end() - cup.pourFrom());
                pen.text(broad ? after : 62, broad ? y + 15 : y - 5, "start", text);
            }
        }
        if (pourBy != null) {
            double x = x0 + pourBy * scale;
            pen.path("o", "M" + Pen.at(x) + " 6V" + Pen.at(axis));
            boolean room = x < x0 + end * scale - 90;
            pen.text(x + (room ? 7 : -7), axis - 34, room ? "start" : "end", "t-b", "pour by " + Pen.shown(pourBy));
        }
        for (double pass : times.surfacePassesMin()) {
            double x = x0 + pass * scale;
            pen.path("solid", "M" + Pen.at(x - 5) + " " + Pen.at(axis - 12) + "h10l-5 10z");
        }
        if (!times.surfacePassesMin().isEmpty()) {
            List<Double> passes = times.surfacePassesMin();
            double before = x0 + passes.get(0) * scale - 8;
            double after = x0 + passes.get(passes.size() - 1) * scale + 8;
            boolean room = before > (broad ? 100 : 50);
            pen.text(room ? before : after, axis - 2, room ? "end" : "start", broad ? "surface passes" : "passes");
        }
        return pen.done();
    }

    private static String label(Timeline times) {
        int cups = times.cupsMin().size();
        StringBuilder text = new StringBuilder(
                "One layer in minutes: " + cups + (cups == 1 ? " cup" : " cups") + ", the last one empty at "
                        + Pen.shown(times.cupsMin().get(cups - 1).end()));
        if (times.pourByMin() != null) {
            text.append(" of ").append(Pen.shown(times.pourByMin()));
        }
        for (int i = 0; i < times.surfacePassesMin().size(); i++) {
            text.append(i == 0 ? "; surface passes at " : ", ")
                    .append(Pen.shown(times.surfacePassesMin().get(i)));
        }
        return text.toString();
    }

    /** Draws the layers of the whole piece, in hours from the first pour, with demold and full cure. */
    static String piece(Mix mix, ZonedDateTime start, boolean broad) {
        Timeline times = mix.timeline();
        double last = 1;
        for (Timeline.LayerTimes layer : times.layersHours()) {
            last = Math.max(last, layer.nextTo() != null ? layer.nextTo() : layer.start());
        }
        double every = last > 96 ? 24 : last > 48 ? 12 : last > 12 ? 6 : 2;
        double end = (Math.floor(last / every) + 1) * every;
        double x0 = broad ? 60 : 8;
        double right = broad ? 352 : 330;
        double first = broad ? 14 : 22;
        double row = broad ? 38 : 48;
        double scale = (right - x0) / end;
        int shown = Math.min(times.layersHours().size(), 8);
        double axis = first + shown * row + 6;
        Pen pen = new Pen(
                broad ? "broad" : "narrow", broad ? 540 : 350, axis + (broad ? 28 : 66), pieceLabel(mix, start));
        for (double hour = 0; hour <= end; hour += every) {
            double x = x0 + hour * scale;
            if (broad) {
                pen.path("grid", "M" + Pen.at(x) + " 8V" + Pen.at(axis));
            }
            pen.path("d", "M" + Pen.at(x) + " " + Pen.at(axis) + "v5");
            if (hour % (2 * every) == 0 && x < right - 24) {
                pen.text(x, axis + 19, hour > 0 || broad ? "middle" : "start", WallClock.time(plus(start, hour)));
            }
        }
        pen.path(
                "d",
                "M" + Pen.at(x0) + " " + Pen.at(axis) + "H" + Pen.at(right + 2)
                        + (broad ? "m6-7-6 14m14-14-6 14M" + Pen.at(right + 10) + " " + Pen.at(axis) + "H530" : ""));
        for (int i = 0; i < shown; i++) {
            Timeline.LayerTimes layer = times.layersHours().get(i);
            double y = first + i * row;
            double x = x0 + layer.start() * scale;
            pen.text(broad ? 0 : 8, broad ? y + 15 : y - 5, "start", "t-b", "Layer " + layer.number());
            pen.rect("solid", x, y, 8, BAR);
            if (layer.nextFrom() != null) {
                double from = x0 + layer.nextFrom() * scale;
                double to = layer.nextTo() == null ? right : Math.min(right + 6, x0 + layer.nextTo() * scale);
                pen.rect("win", from, y, to - from, BAR);
                if (layer.nextTo() != null) {
                    String until = "to " + WallClock.day(plus(start, layer.nextTo()));
                    pen.text(broad ? right + 16 : 68, broad ? y + 15 : y - 5, "start", broad ? until : "next " + until);
                }
            }
        }
        if (broad) {
            ends(pen, mix, start, axis);
        } else {
            endsInWords(pen, mix, start, axis);
        }
        return pen.done();
    }

    private static void endsInWords(Pen pen, Mix mix, ZonedDateTime start, double axis) {
        Timeline times = mix.timeline();
        double lastPour = lastPourHours(times);
        if (times.demoldHours() != null) {
            pen.text(8, axis + 40, "start", "t-b", "Demold");
            pen.text(78, axis + 40, "start", WallClock.day(plus(start, lastPour + times.demoldHours())));
        }
        if (times.fullCureHours() != null) {
            pen.text(8, axis + 60, "start", "t-b", "Full cure");
            pen.text(
                    78,
                    axis + 60,
                    "start",
                    plus(start, lastPour + times.fullCureHours()).format(DAY));
        }
    }

    private static double lastPourHours(Timeline times) {
        return times.layersHours().get(times.layersHours().size() - 1).start();
    }

    private static void ends(Pen pen, Mix mix, ZonedDateTime start, double axis) {
        Timeline times = mix.timeline();
        double lastPour = lastPourHours(times);
        if (times.demoldHours() != null) {
            pen.path("o", "M388 " + Pen.at(axis - 38) + "V" + Pen.at(axis));
            pen.text(393, axis - 8, "start", "t-b", "Demold");
            pen.text(388, axis + 19, "middle", WallClock.day(plus(start, lastPour + times.demoldHours())));
        }
        if (times.fullCureHours() != null) {
            pen.path("o", "M466 " + Pen.at(axis - 38) + "V" + Pen.at(axis));
            pen.text(471, axis - 8, "start", "t-b", "Full cure");
            pen.text(
                    480,
                    axis + 19,
                    "middle",
                    plus(start, lastPour + times.fullCureHours()).format(DAY));
        }
    }

    private static String pieceLabel(Mix mix, ZonedDateTime start) {
        StringBuilder text = new StringBuilder("The whole piece in days");
        for (Timeline.LayerTimes layer : mix.timeline().layersHours()) {
            text.append(layer.number() == 1 ? ": " : ", ")
                    .append("layer ")
                    .append(layer.number())
                    .append(layer.number() == 1 ? " at " : " from ")
                    .append(WallClock.day(plus(start, layer.start())));
        }
        return text.toString();
    }

    /** Hours that pass, whatever the clock on the wall is set to meanwhile. */
    private static ZonedDateTime plus(ZonedDateTime start, double hours) {
        return start.plusMinutes(Math.round(hours * 60));
    }
}
