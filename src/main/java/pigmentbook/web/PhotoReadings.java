package pigmentbook.web;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.PhotoReading;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Photos;
import pigmentbook.store.SaveFailedException;

/** Reads a colour off a photo that somebody points at; nothing is kept by it. */
final class PhotoReadings {

    private static final int CORNERS = 4;
    private static final double AREA = 0.022;
    private static final double CHART_AREA = 0.012;
    private static final int LEAST_SIDE = 8;
    private static final double USUAL_CARD_L = 50;

    private PhotoReadings() {}

    static void addTo(JavalinConfig config) {
        config.routes.post("/photo-reading", PhotoReadings::read);
    }

    /** A place in the photo, 0 to 1 from its left and its top. */
    private record Place(double x, double y) {}

    private static void read(Context context) throws IOException, SaveFailedException {
        byte[] bytes = context.bodyInputStream().readNBytes(Photos.MOST_BYTES + 1);
        List<Place> places = places(context.queryParam("points"));
        boolean chart = "chart".equals(context.queryParam("with"));
        if (places.size() != (chart ? CORNERS + 1 : 2)) {
            throw new SaveFailedException(
                    chart
                            ? "Point at the chart's four corner patches and then at the resin."
                            : "Point at the card and then at the resin.");
        }
        Photos.Pixels photo = Photos.pixels(bytes);
        PhotoReading reading = chart ? withChart(photo, places) : withCard(photo, places, context.queryParam("L"));
        ObjectNode answer = JsonNodeFactory.instance.objectNode();
        answer.put("colour", Looks.shown(reading.lab()));
        answer.put("scatter", Numbers.fixed(reading.scatterDe00(), 1));
        answer.put("photo", Looks.shown(reading.lab()) + "; " + Numbers.fixed(reading.surenessDe00(), 1));
        answer.put("how", chart ? "photo with chart of 24 patches" : "photo with neutral card");
        answer.put(
                "told",
                "Scatter within the ring ΔE00 " + Numbers.fixed(reading.scatterDe00(), 1) + "; it may be off by "
                        + Numbers.fixed(reading.surenessDe00(), 1)
                        + (chart ? " and more." : " and more: a photo is a reminder, not a standard."));
        context.contentType("application/json; charset=utf-8").result(answer.toString());
    }

    private static List<Place> places(@Nullable String text) throws SaveFailedException {
        List<Place> places = new ArrayList<>();
        for (String each : (text == null ? "" : text).split(";", -1)) {
            if (!each.matches("[01](\\.[0-9]{1,12})?,[01](\\.[0-9]{1,12})?")) {
                throw new SaveFailedException("Point at the card and then at the resin.");
            }
            int comma = each.indexOf(',');
            places.add(new Place(
                    Double.parseDouble(each.substring(0, comma)), Double.parseDouble(each.substring(comma + 1))));
        }
        return places;
    }

    private static PhotoReading withCard(Photos.Pixels photo, List<Place> places, @Nullable String l)
            throws SaveFailedException {
        double cardL = l == null || l.isBlank() ? USUAL_CARD_L : cardL(l);
        return PhotoReading.withCard(area(photo, places.get(0), AREA), cardL, area(photo, places.get(1), AREA));
    }

    private static double cardL(String text) throws SaveFailedException {
        try {
            return Numbers.parse(text).doubleValue();
        } catch (BadAmountException e) {
            throw new SaveFailedException(
                    "The card's L is written on it, such as 50 or 92.5; \"" + text + "\" is none.");
        }
    }

    /** The corners are dark skin, bluish green, black and white: the patches lie evenly between them. */
    private static PhotoReading withChart(Photos.Pixels photo, List<Place> places) {
        PhotoReading.Placed[] chart = new PhotoReading.Placed[24];
        for (int i = 0; i < chart.length; i++) {
            double u = i % 6 / 5.0;
            int row = i / 6;
            double v = row / 3.0;
            Place at = new Place(
                    between(
                            u,
                            v,
                            places.get(0).x(),
                            places.get(1).x(),
                            places.get(2).x(),
                            places.get(3).x()),
                    between(
                            u,
                            v,
                            places.get(0).y(),
                            places.get(1).y(),
                            places.get(2).y(),
                            places.get(3).y()));
            chart[i] = new PhotoReading.Placed(area(photo, at, CHART_AREA), at.x(), at.y());
        }
        Place own = places.get(CORNERS);
        return PhotoReading.withChart(chart, new PhotoReading.Placed(area(photo, own, AREA), own.x(), own.y()));
    }

    private static double between(double u, double v, double first, double second, double third, double fourth) {
        return (1 - v) * ((1 - u) * first + u * second) + v * ((1 - u) * fourth + u * third);
    }

    private static PhotoReading.Area area(Photos.Pixels photo, Place at, double part) {
        int longest = Math.max(photo.width(), photo.height());
        int side = Math.min(
                Math.min(photo.width(), photo.height()), Math.max(LEAST_SIDE, (int) Math.round(part * longest)));
        int left = (int) Math.max(0, Math.min(photo.width() - side, Math.round(at.x() * photo.width() - side / 2.0)));
        int top = (int) Math.max(0, Math.min(photo.height() - side, Math.round(at.y() * photo.height() - side / 2.0)));
        return new PhotoReading.Area(side, photo.square(left, top, side));
    }
}
