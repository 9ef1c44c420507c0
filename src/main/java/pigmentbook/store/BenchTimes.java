package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Duration;

/**
 * When what may be done next with a pour, counted from what was entered at the bench. These are moments, so midnight
 * and a clock that is put forward or back between two layers change nothing in the hours that pass.
 *
 * @param layer the layer that was begun last, from 1
 * @param pourBy until when it must be poured, counted from part B in its first cup; null where not stated
 * @param nextFrom when the next layer may go on; null where there is none, or not stated
 * @param nextTo until when it may
 * @param demold when the piece may leave the mold, counted from when its last cup was poured; null before that
 * @param fullCure when it is fully cured
 */
public record BenchTimes(
        int layer,
        @Nullable Instant pourBy,
        @Nullable Instant nextFrom,
        @Nullable Instant nextTo,
        @Nullable Instant demold,
        @Nullable Instant fullCure) {

    /** Works the times out from a pour's record; null where part B went into no cup yet. */
    public static @Nullable BenchTimes of(JsonNode record) {
        Map<String, Instant> partB = new TreeMap<>();
        Map<String, Instant> poured = new TreeMap<>();
        for (JsonNode entry : BenchLog.standing(record)) {
            Instant at = moment(entry.path("at").asText());
            String key = key(entry.path("layer").asInt(), entry.path("cup").asInt());
            String what = entry.path("what").asText();
            if (what.equals("throw")) {
                partB.remove(key);
                poured.remove(key);
            } else if (what.equals("poured") && at != null) {
                poured.put(key, at);
            } else if (what.equals("weigh") && entry.path("item").asText().equals("part B") && at != null) {
                partB.putIfAbsent(key, at);
            }
        }
        JsonNode layers = record.path("plan").path("layers");
        int layer = layers.size();
        while (layer > 0 && began(partB, layers, layer) == null) {
            layer--;
        }
        Instant began = layer == 0 ? null : began(partB, layers, layer);
        if (began == null) {
            return null;
        }
        JsonNode times = record.path("plan").path("times");
        boolean last = layer == layers.size();
        int cups = 0;
        for (JsonNode each : layers) {
            cups += each.path("cups").size();
        }
        Instant end = poured.size() < cups
                ? null
                : poured.values().stream().max(Instant::compareTo).orElse(null);
        return new BenchTimes(
                layer,
                after(began, times.path("pourBy")),
                last ? null : after(began, times.path("nextLayerFrom")),
                last ? null : after(began, times.path("nextLayerTo")),
                after(end, times.path("demold")),
                after(end, times.path("fullCure")));
    }

    private static String key(int layer, int cup) {
        return layer + "/" + cup;
    }

    private static @Nullable Instant began(Map<String, Instant> partB, JsonNode layers, int layer) {
        for (int cup = 1; cup <= layers.path(layer - 1).path("cups").size(); cup++) {
            Instant at = partB.get(key(layer, cup));
            if (at != null) {
                return at;
            }
        }
        return null;
    }

    private static @Nullable Instant after(@Nullable Instant from, JsonNode said) {
        try {
            return from == null || !said.isTextual()
                    ? null
                    : from.plusSeconds(Math.round(Duration.parse(said.asText()).minutes() * 60));
        } catch (BadAmountException e) {
            return null;
        }
    }

    private static @Nullable Instant moment(String text) {
        try {
            return OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeParseException e) {
            return null;
        }
    }
}
