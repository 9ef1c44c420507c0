package pigmentbook.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Numbers;

/** Tells how far two colours lie apart. */
@Command(
        name = "difference",
        mixinStandardHelpOptions = true,
        description = "Tell how far two colours lie apart: CIEDE2000, and the older 1976 formula.",
        footer = {
            "",
            "Examples:",
            "  pigment-book difference 41.2,22.8,36.1 43,21,35",
            "  pigment-book difference \"#a8541c\" \"#b05a20\" --format json"
        })
final class DifferenceCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(index = "0", paramLabel = "COLOUR", description = "A colour: L,a,b or #rrggbb.")
    @SuppressWarnings("NullAway.Init")
    private String one;

    @Parameters(index = "1", paramLabel = "COLOUR", description = "The other.")
    @SuppressWarnings("NullAway.Init")
    private String other;

    @Override
    public Integer call() {
        Lab first = ColourText.parse(one);
        Lab second = ColourText.parse(other);
        double dE00 = Ciede2000.between(first, second);
        double dE76 = Math.sqrt((first.l() - second.l()) * (first.l() - second.l())
                + (first.a() - second.a()) * (first.a() - second.a())
                + (first.b() - second.b()) * (first.b() - second.b()));
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeNumberField("dE00", dE00);
                json.writeNumberField("dE76", dE76);
                json.writeArrayFieldStart("lab");
                Colours.write(json, first);
                Colours.write(json, second);
                json.writeEndArray();
                json.writeEndObject();
            });
        } else {
            book.context()
                    .out()
                    .println("ΔE00 " + Numbers.fixed(dE00, 2) + " (about 1 can barely be seen), ΔE76 "
                            + Numbers.fixed(dE76, 2) + ", between L*a*b* " + Colours.text(first) + " and "
                            + Colours.text(second));
        }
        return Main.DONE;
    }
}
