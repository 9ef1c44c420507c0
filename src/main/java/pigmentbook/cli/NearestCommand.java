package pigmentbook.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import pigmentbook.book.NearestReadings;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Opened;

/** Finds the readings nearest to a colour. */
@Command(
        name = "nearest",
        mixinStandardHelpOptions = true,
        description = "Find what was poured that came nearest to a colour, by CIEDE2000.",
        footer = {
            "",
            "Examples:",
            "  pigment-book nearest \"#a8541c\"",
            "  pigment-book nearest 41.2,22.8,36.1 --count 10 --format json"
        })
final class NearestCommand implements Callable<Integer> {

    private static final int USUAL = 5;

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "COLOUR", description = "A colour: L,a,b or #rrggbb.")
    @SuppressWarnings("NullAway.Init")
    private String colour;

    @Option(names = "--count", paramLabel = "N", description = "So many readings; default: 5.")
    private int count = USUAL;

    @Override
    public Integer call() throws Exception {
        if (count < 1) {
            throw new ParameterException(spec.commandLine(), "--count takes 1 or more");
        }
        Lab target = ColourText.parse(colour);
        Opened opened = book.open();
        List<NearestReadings.Found> found = new NearestReadings(opened.book()).nearest(target, count);
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartArray();
                for (NearestReadings.Found each : found) {
                    json.writeStartObject();
                    json.writeStringField("recipe", each.recipeId());
                    json.writeStringField("pour", each.pourId());
                    json.writeNumberField("reading", each.reading());
                    json.writeFieldName("lab");
                    Colours.write(json, each.lab());
                    json.writeNumberField("dE00", each.dE00());
                    json.writeEndObject();
                }
                json.writeEndArray();
            });
        } else {
            book.context().out().print(text(found));
        }
        book.tellProblems(opened);
        return Main.DONE;
    }

    private static String text(List<NearestReadings.Found> found) {
        if (found.isEmpty()) {
            return "No pour has a reading yet.\n";
        }
        List<List<String>> rows = new ArrayList<>();
        for (NearestReadings.Found each : found) {
            rows.add(List.of(
                    Numbers.fixed(each.dE00(), 2),
                    each.recipeId(),
                    each.pourId(),
                    String.valueOf(each.reading()),
                    Colours.text(each.lab())));
        }
        return new Lines(false)
                .table(
                        List.of("ΔE00", "Recipe", "Pour", "Reading", "L*, a*, b*"),
                        List.of(Lines.Side.RIGHT, Lines.Side.LEFT, Lines.Side.LEFT, Lines.Side.RIGHT, Lines.Side.LEFT),
                        rows)
                .toString();
    }
}
