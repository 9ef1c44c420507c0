package pigmentbook.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Mold;
import pigmentbook.mold.Cavity;
import pigmentbook.mold.Shape;
import pigmentbook.mold.Slice;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Opened;

/** Shows what a mold holds. */
@Command(
        name = "mold",
        mixinStandardHelpOptions = true,
        description = "Show what one mold holds between two heights.",
        footer = {
            "",
            "Examples:",
            "  pigment-book mold lamp-panel",
            "  pigment-book mold lamp-panel --from \"1/4 in\" --fill \"1/2 in\"",
            "  pigment-book mold lamp-panel --count-inserts no --format json"
        })
final class MoldCommand implements Callable<Integer> {

    private static final double RULES_DIFFER = 0.03;

    /** Yes or no. */
    enum YesNo {
        yes,
        no
    }

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "ID", description = "The mold.")
    @SuppressWarnings("NullAway.Init")
    private String id;

    @Option(names = "--fill", paramLabel = "D", description = "Up to this height; default: the mold's own fill.")
    private @Nullable String fill;

    @Option(names = "--from", paramLabel = "D", description = "From this height; default: the floor.")
    private @Nullable String from;

    @Option(
            names = "--count-inserts",
            paramLabel = "yes|no",
            defaultValue = "yes",
            description = "Whether inserts take resin's place.")
    private YesNo countInserts = YesNo.yes;

    /** What is told of a mold; null where there is none. */
    private record Told(
            Slice slice,
            @Nullable Double areaMm2,
            @Nullable Double trapezoidMl,
            @Nullable Double simpsonMl) {}

    @Override
    public Integer call() throws Exception {
        Opened opened = book.open();
        Mold mold = book.mold(opened, id);
        Told told = told(mold);
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeNumberField("volume_mL", told.slice.volumeMl());
                json.writeNumberField("displaced_mL", told.slice.displacedMl());
                json.writeNumberField("room_mL", told.slice.roomMl());
                Json.number(json, "area_mm2", told.areaMm2);
                Json.number(json, "trapezoid_mL", told.trapezoidMl);
                Json.number(json, "simpson_mL", told.simpsonMl);
                json.writeEndObject();
            });
        } else {
            book.context().out().print(text(mold, told));
        }
        return Main.DONE;
    }

    private Told told(Mold mold) {
        Cavity cavity = mold.cavity();
        boolean count = countInserts == YesNo.yes;
        Length depth = cavity.shape().depth();
        Length own = cavity.fillOrDepth();
        if (depth == null || own == null) {
            if (fill != null || from != null) {
                throw new RequestException("The mold " + mold.id()
                        + " is known by its volume alone, so it has no heights. Leave --fill and --from out.");
            }
            return new Told(cavity.whole(count), null, null, null);
        }
        Length top = fill == null ? own : height("--fill", fill);
        Length bottom = from == null ? Length.ofMm(0) : height("--from", from);
        if (top.exactMm().compareTo(depth.exactMm()) > 0) {
            throw new RequestException("A fill of \"" + top.written() + "\" is above the mold " + mold.id()
                    + ", which is \"" + depth.written() + "\" deep. Give a height up to that.");
        }
        if (bottom.exactMm().compareTo(top.exactMm()) > 0) {
            throw new RequestException("From \"" + bottom.written() + "\" to \"" + top.written()
                    + "\" goes downwards; give the lower height to --from.");
        }
        Slice slice = cavity.between(bottom.mm(), top.mm(), count);
        Double trapezoid = null;
        Double simpson = null;
        if (cavity.shape() instanceof Shape.Stations stations) {
            trapezoid = slice.volumeMl();
            simpson = (stations.simpsonMm3To(top.mm()) - stations.simpsonMm3To(bottom.mm())) / 1000;
        }
        return new Told(slice, cavity.areaMm2At(top.mm()), trapezoid, simpson);
    }

    private static Length height(String option, String text) {
        Length height = MixOptions.amount(option, text, Length::parse);
        if (height == null) {
            throw new IllegalStateException("an option that is given has an amount");
        }
        return height;
    }

    private static String text(Mold mold, Told told) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of("Volume, mL", Numbers.fixed(told.slice.volumeMl(), 2)));
        rows.add(List.of("Inserts, mL", Numbers.fixed(told.slice.displacedMl(), 2)));
        rows.add(List.of("Room for resin, mL", Numbers.fixed(told.slice.roomMl(), 2)));
        if (told.areaMm2 != null) {
            rows.add(List.of("Area at the fill, mm²", Numbers.fixed(told.areaMm2, 0)));
        }
        if (told.trapezoidMl != null && told.simpsonMl != null) {
            rows.add(List.of("By trapezoids, mL", Numbers.fixed(told.trapezoidMl, 2)));
            rows.add(List.of("By Simpson's rule, mL", Numbers.fixed(told.simpsonMl, 2)));
        }
        Lines lines = new Lines(false);
        lines.head(mold.name() + ", one mold" + (mold.count() > 1 ? " of " + mold.count() : ""));
        lines.table(List.of("", ""), List.of(Lines.Side.LEFT, Lines.Side.RIGHT), rows);
        if (told.trapezoidMl != null
                && told.simpsonMl != null
                && Math.abs(told.simpsonMl / told.trapezoidMl - 1) > RULES_DIFFER) {
            lines.text("The two rules differ by more than 3 %: the stations are too far apart; measure more of them.");
        }
        return lines.toString();
    }
}
