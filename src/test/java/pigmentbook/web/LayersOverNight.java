package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Path;

/** A pour in two layers, weighed at the times that a test says. */
final class LayersOverNight implements AutoCloseable {

    /** Slow casting resin in the demo book: 40 min at 22 °C, next layer 6 h to 24 h, demold 48 h, full cure 7 d. */
    private static final String MIX = "lead=volume&volume=400+mL&cup=1500+g&room=22+C&layers=";

    final Served served;
    final String pour;
    private final HandClock clock;
    private final Path folder;
    private int next;
    private int seen;

    LayersOverNight(Path folder, HandClock clock, int layers) throws IOException {
        this.folder = folder;
        this.clock = clock;
        served = new Served(Served.copyOfTheBook(folder), 0, clock);
        pour = served.post("/recipes/ember/bench?" + MIX + layers, "").body().split("/")[2];
    }

    JsonNode record() throws IOException {
        return new JsonMapper()
                .readTree(folder.resolve("pours/2026/" + pour + ".json").toFile());
    }

    /** Weighs a layer's cup whole at one moment. */
    void weigh(int layer, String at) throws IOException {
        clock.set(at);
        for (JsonNode item : record().at("/plan/layers/" + (layer - 1) + "/cups/0/items")) {
            enter(
                    "weigh",
                    layer,
                    ",\"item\":\"" + item.get("item").asText() + "\",\"grams\":\""
                            + item.get("target").asText() + "\",\"lot\":\""
                            + item.get("lot").asText() + "\"");
        }
    }

    void poured(int layer, String at) {
        clock.set(at);
        enter("poured", layer, "");
    }

    private void enter(String what, int layer, String rest) {
        var answer = served.post(
                "/pours/" + pour + "/log",
                "{\"device\":\"phone\",\"base\":" + seen + ",\"ago\":0,\"entries\":[{\"id\":\"e" + next++
                        + "\",\"what\":\"" + what + "\",\"layer\":" + layer + ",\"cup\":1,\"by\":\"Ida\"" + rest
                        + "}]}");
        if (answer.statusCode() != 200) {
            throw new AssertionError(answer.body());
        }
        seen++;
    }

    @Override
    public void close() {
        served.close();
    }
}
