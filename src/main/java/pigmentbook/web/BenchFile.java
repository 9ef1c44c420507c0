package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.mix.Mix;
import pigmentbook.sheet.HandedBack;
import pigmentbook.sheet.SheetInfo;
import pigmentbook.store.BenchPlan;

/**
 * A mix as one html file that works as a bench on a phone without any network: the same script, the same plan, entries
 * kept on the phone, and a file to hand back that is read like a filled-in sheet.
 */
public final class BenchFile {

    private BenchFile() {}

    /** Returns the file's text. */
    public static String of(Book book, Mix mix, SheetInfo info) {
        ObjectNode plan = BenchPlan.plan(book, mix, "");
        int layer = 0;
        for (JsonNode each : plan.path("layers")) {
            layer++;
            int cup = 0;
            for (JsonNode items : each.path("cups")) {
                cup++;
                for (JsonNode item : items.path("items")) {
                    if (item instanceof ObjectNode named) {
                        named.put(
                                "cell",
                                HandedBack.ending(layer, cup, item.path("item").asText()));
                    }
                }
            }
        }
        String bench = text("bench.js").replaceAll("(?m)^export ", "");
        return Pages.drawn(
                "benchfile.jte",
                Map.of(
                        "name",
                        mix.recipe().name(),
                        "style",
                        text("book.css"),
                        "script",
                        bench + "\n" + text("bench-file.js"),
                        "plan",
                        BenchPage.data(plan),
                        "back",
                        BenchPage.data(HandedBack.begun(mix, info))));
    }

    private static String text(String asset) {
        return new String(Assets.read(asset), StandardCharsets.UTF_8);
    }
}
