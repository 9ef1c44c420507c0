package pigmentbook.tint;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Settings;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/**
 * What a book's readings say of its pigments, in the order of pours and readings.
 *
 * @param readings those that can be used
 * @param setAside those that can't, and why
 */
record BookReadings(List<Sample> readings, List<SetAside> setAside) {

    /**
     * A reading with all that lies behind it.
     *
     * @param pourId the pour
     * @param index which of its readings, from 0
     * @param resinId the resin, or empty where nobody knows
     * @param loadings what was in it, by pigment id
     * @param depthMm the depth read through, mm
     * @param backing the backing's colour
     * @param lab the colour with the gloss left out
     * @param weight how much it counts: 1, less where a pigment's lot has changed since
     */
    record Sample(
            String pourId,
            int index,
            String resinId,
            List<Loading> loadings,
            double depthMm,
            Lab backing,
            Lab lab,
            double weight) {}

    /** Returns the readings of a book. */
    static BookReadings of(Book book) {
        Map<String, List<String>> lots = lotsInTurn(book);
        List<Sample> readings = new ArrayList<>();
        List<SetAside> setAside = new ArrayList<>();
        for (Pour pour : book.pours().values()) {
            List<Loading> loadings = null;
            String wrong = "";
            try {
                loadings = Loadings.of(book, pour);
            } catch (TintRefusedException e) {
                wrong = String.valueOf(e.getMessage());
            }
            for (int i = 0; i < pour.readings().size(); i++) {
                Pour.Reading reading = pour.readings().get(i);
                Lab backing = lab(book.settings(), reading.backing());
                String why = loadings == null ? wrong : wrong(reading, backing);
                if (loadings == null || backing == null || reading.depth() == null || !why.isEmpty()) {
                    setAside.add(new SetAside(pour.id(), i, why));
                } else {
                    readings.add(new Sample(
                            pour.id(),
                            i,
                            resin(book, pour),
                            loadings,
                            reading.depth().mm(),
                            backing,
                            reading.glossIncluded() ? withoutGloss(reading.lab()) : reading.lab(),
                            weight(pour, lots)));
                }
            }
        }
        return new BookReadings(readings, setAside);
    }

    private static String wrong(Pour.Reading reading, @Nullable Lab backing) {
        if (reading.depth() == null || !(reading.depth().mm() > 0)) {
            return "it has no depth";
        }
        if (backing == null) {
            return reading.backing() == null ? "it has no backing" : "its backing is not in the book's settings";
        }
        return "";
    }

    /** Returns the colour of a backing, or null where the book has none of that name. */
    static @Nullable Lab lab(Settings settings, @Nullable Backing backing) {
        if (backing == null) {
            return null;
        }
        if (backing.lab() != null) {
            return backing.lab();
        }
        Lab own = settings.backings().get(String.valueOf(backing.name()));
        return own != null ? own : Settings.BACKINGS.get(String.valueOf(backing.name()));
    }

    private static Lab withoutGloss(Lab lab) {
        Xyz xyz = Xyz.of(lab);
        return new Xyz(
                        Math.max(0, xyz.x() - Gloss.K1 * Xyz.WHITE_X),
                        Math.max(0, xyz.y() - Gloss.K1),
                        Math.max(0, xyz.z() - Gloss.K1 * Xyz.WHITE_Z))
                .lab();
    }

    private static String resin(Book book, Pour pour) {
        Recipe.Revision revision = Loadings.revision(book, pour);
        return revision == null ? "" : revision.resinId();
    }

    /** Returns each pigment's lots in the order of the last pour that was read and took from them. */
    private static Map<String, List<String>> lotsInTurn(Book book) {
        List<Pour> inTurn = new ArrayList<>();
        for (Pour pour : book.pours().values()) {
            if (!pour.readings().isEmpty()) {
                inTurn.add(pour);
            }
        }
        inTurn.sort(Comparator.comparing(Pour::started, Comparator.nullsFirst(Comparator.<LocalDateTime>naturalOrder()))
                .thenComparing(Pour::id));
        Map<String, List<String>> lots = new HashMap<>();
        for (Pour pour : inTurn) {
            lotsOf(pour).forEach((pigment, ids) -> {
                List<String> all = lots.computeIfAbsent(pigment, id -> new ArrayList<>());
                all.removeAll(ids);
                all.addAll(ids);
            });
        }
        return lots;
    }

    private static Map<String, Set<String>> lotsOf(Pour pour) {
        Map<String, Set<String>> lots = new HashMap<>();
        for (Pour.Layer layer : pour.layers()) {
            for (Pour.Cup cup : layer.cups()) {
                for (Pour.Weighed each : cup.weighed()) {
                    Item item = each.item();
                    String lot = each.lot();
                    if (item.isPigment() && lot != null && !lot.equals(Pour.UNKNOWN_LOT)) {
                        lots.computeIfAbsent(item.id(), id -> new LinkedHashSet<>())
                                .add(lot);
                    }
                }
            }
        }
        return lots;
    }

    /** 1 where every pigment came from the lot read last, 1/2 where one lot followed since, 1/3 where two did. */
    private static double weight(Pour pour, Map<String, List<String>> lotsInTurn) {
        int since = 0;
        for (Map.Entry<String, Set<String>> each : lotsOf(pour).entrySet()) {
            List<String> all = lotsInTurn.getOrDefault(each.getKey(), List.of());
            for (String lot : each.getValue()) {
                since = Math.max(since, all.size() - 1 - all.indexOf(lot));
            }
        }
        return 1.0 / (1 + since);
    }
}
