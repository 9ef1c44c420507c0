package pigmentbook.cli;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Book;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.mix.LoadingCosts;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Opened;
import pigmentbook.tint.Limits;
import pigmentbook.tint.Loading;
import pigmentbook.tint.Match;
import pigmentbook.tint.MatchAnswer;
import pigmentbook.tint.MatchRequest;
import pigmentbook.tint.Tints;

/** Finds mixes that match a colour. */
@Command(
        name = "match",
        mixinStandardHelpOptions = true,
        description = "Find mixes that come near to a colour, to pour a sample of.",
        footer = {
            "",
            "Examples:",
            "  pigment-book match \"#a8541c\" --depth \"12 mm\" --backing white",
            "    --resin slow-cast",
            "  pigment-book match 41,23,36 --depth \"6 mm\" --backing wood",
            "    --resin slow-cast --pigments amber-paste,rust-paste --most 2"
        })
final class MatchCommand implements Callable<Integer> {

    private static final int USUAL_MOST = 3;
    private static final int USUAL_COUNT = 5;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Mixin
    private LookOptions options = new LookOptions();

    @Parameters(paramLabel = "COLOUR", description = "The colour wanted: L,a,b or #rrggbb.")
    @SuppressWarnings("NullAway.Init")
    private String colour;

    @Option(names = "--resin", required = true, paramLabel = "ID", description = "The resin.")
    @SuppressWarnings("NullAway.Init")
    private String resin;

    @Option(
            names = "--pigments",
            paramLabel = "ID,ID,…",
            description = "Only these pigments; default: all that have a reading.")
    private @Nullable String pigments;

    @Option(names = "--most", paramLabel = "K", description = "At most so many pigments in a mix; default: 3.")
    private int most = USUAL_MOST;

    @Option(names = "--count", paramLabel = "N", description = "At most so many mixes; default: 5.")
    private int count = USUAL_COUNT;

    @Override
    public Integer call() throws Exception {
        Lab target = ColourText.parse(colour);
        double depthMm = options.depthMm();
        Opened opened = book.open();
        Book read = opened.book();
        if (!read.resins().containsKey(resin)) {
            throw book.unknown(
                    opened,
                    "resin",
                    resin,
                    "shelf/resins/" + resin + ".json",
                    read.resins().keySet());
        }
        LocalDate today = LocalDate.now(book.context().clock());
        List<MatchAnswer> answers = Match.find(
                Tints.fit(read, Optional.empty()),
                new MatchRequest(
                        target,
                        depthMm,
                        options.backing(read.settings()),
                        resin,
                        wanted(opened),
                        most,
                        count,
                        loadings -> LoadingCosts.perKilogram(read, resin, loadings, today)));
        if (answer.json()) {
            writeJson(answers);
        } else {
            book.context().out().print(text(read, target, answers));
        }
        book.tellProblems(opened);
        return Main.DONE;
    }

    private List<String> wanted(Opened opened) {
        if (pigments == null) {
            return List.of();
        }
        List<String> wanted =
                Arrays.stream(pigments.split(",", -1)).map(String::strip).toList();
        for (String id : wanted) {
            if (!opened.book().pigments().containsKey(id)) {
                throw book.unknown(
                        opened,
                        "pigment",
                        id,
                        "shelf/pigments/" + id + ".json",
                        opened.book().pigments().keySet());
            }
        }
        return wanted;
    }

    private void writeJson(List<MatchAnswer> answers) {
        Json.write(book.context().out(), json -> {
            json.writeStartArray();
            for (MatchAnswer each : answers) {
                json.writeStartObject();
                json.writeObjectFieldStart("pigments");
                for (Loading loading : each.loadings()) {
                    json.writeNumberField(loading.pigmentId(), loading.percent());
                }
                json.writeEndObject();
                json.writeFieldName("lab");
                Colours.write(json, each.lab());
                json.writeNumberField("dE00", each.dE00());
                json.writeNumberField("spread_dE00", each.spreadDe00());
                Json.number(json, "cost", each.cost());
                json.writeEndObject();
            }
            json.writeEndArray();
        });
    }

    private String text(Book read, Lab target, List<MatchAnswer> answers) {
        Lines lines = new Lines(false);
        lines.head("L*a*b* " + Colours.text(target) + ", " + Srgb.hex(target) + ", " + options.words());
        if (answers.isEmpty()) {
            return lines.text("No mix of these pigments comes to anything.").toString();
        }
        String hindrance = answers.get(0).hindrance(options.words());
        if (!hindrance.isEmpty()) {
            lines.blank();
            lines.text(hindrance);
        }
        for (MatchAnswer each : answers) {
            List<String> parts = new ArrayList<>();
            for (Loading loading : each.loadings()) {
                parts.add(loading.pigmentId() + " " + Numbers.fixed(loading.percent(), 4) + " %");
            }
            lines.blank();
            lines.text(String.join(", ", parts));
            lines.text("  ΔE00 " + Numbers.fixed(each.dE00(), 2) + ", nine of ten readings within "
                    + Numbers.fixed(each.spreadDe00(), 1) + "; " + Srgb.hex(each.lab())
                    + (each.cost() == null ? "" : "; 1 kg of resin with them costs " + Numbers.fixed(each.cost(), 2)));
        }
        lines.blank();
        Limits.of(
                        read,
                        answers.stream()
                                .flatMap(each -> each.loadings().stream())
                                .toList())
                .forEach(lines::text);
        lines.text("Percents are of mixed resin. Pour a sample at this depth first, read it, and correct from it.");
        return lines.toString();
    }
}
