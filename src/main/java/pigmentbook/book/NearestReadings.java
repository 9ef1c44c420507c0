package pigmentbook.book;

import java.util.ArrayList;
import java.util.List;
import pigmentbook.colour.Lab;
import pigmentbook.colour.NearestColours;

/** The readings of a book whose colours are nearest to one, exactly, by CIEDE2000. Immutable; made once for a book. */
public final class NearestReadings {

    private final List<Found> readings = new ArrayList<>();
    private final NearestColours colours;

    /**
     * A reading.
     *
     * @param recipeId the recipe poured
     * @param pourId the pour
     * @param reading which of its readings, from 0
     * @param lab its colour
     * @param dE00 how far it is
     */
    public record Found(String recipeId, String pourId, int reading, Lab lab, double dE00) {}

    /** Indexes the readings of a book. */
    public NearestReadings(Book book) {
        // A book's pours come in the order of their ids, so the order of the list is that of ties.
        for (Pour pour : book.pours().values()) {
            for (int i = 0; i < pour.readings().size(); i++) {
                readings.add(new Found(
                        pour.recipeId(), pour.id(), i, pour.readings().get(i).lab(), 0));
            }
        }
        colours = new NearestColours(readings.stream().map(Found::lab).toList());
    }

    /**
     * Returns the nearest readings, nearest first; equally near ones by pour, then by reading.
     *
     * @param target the colour to be near to
     * @param count how many, at least 1
     */
    public List<Found> nearest(Lab target, int count) {
        return colours.nearest(target, count).stream()
                .map(found -> {
                    Found reading = readings.get(found.index());
                    return new Found(
                            reading.recipeId(), reading.pourId(), reading.reading(), reading.lab(), found.dE00());
                })
                .toList();
    }
}
