package pigmentbook.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import pigmentbook.book.Book;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Opened;
import pigmentbook.tint.PigmentTint;
import pigmentbook.tint.SetAside;
import pigmentbook.tint.Tints;

/** Tells how well the colour of each pigment is known. */
@Command(
        name = "tint",
        mixinStandardHelpOptions = true,
        description = "Tell how well each pigment's colour is known, and which chip to pour and read next.",
        footer = {"", "Examples:", "  pigment-book tint", "  pigment-book tint --format json"})
final class TintCommand implements Callable<Integer> {

    private static final int SHOWN = 5;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Override
    public Integer call() throws Exception {
        Opened opened = book.open();
        Tints tints = Tints.fit(opened.book(), Optional.empty());
        List<PigmentTint> pigments = tints.pigments();
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartArray();
                for (PigmentTint each : pigments) {
                    json.writeStartObject();
                    json.writeStringField("pigment", each.id());
                    json.writeNumberField("readings", each.readings());
                    json.writeNumberField("median_dE00", each.medianDe00());
                    json.writeNumberField("worst_dE00", each.worstDe00());
                    json.writeNumberField("spread_dE00", each.spreadDe00());
                    json.writeObjectFieldStart("next");
                    json.writeNumberField("percent", each.next().percent());
                    json.writeNumberField("depth_mm", each.next().depthMm());
                    json.writeStringField("backing", each.next().backing());
                    json.writeEndObject();
                    json.writeEndObject();
                }
                json.writeEndArray();
            });
        } else {
            book.context().out().print(text(opened.book(), pigments));
        }
        tellSetAside(tints.setAside());
        book.tellProblems(opened);
        return Main.DONE;
    }

    private static String text(Book book, List<PigmentTint> pigments) {
        Lines lines = new Lines(false);
        TreeSet<String> unread = new TreeSet<>(book.pigments().keySet());
        List<List<String>> rows = new ArrayList<>();
        for (PigmentTint each : pigments) {
            unread.remove(each.id());
            rows.add(List.of(
                    each.id(),
                    String.valueOf(each.readings()),
                    Numbers.fixed(each.medianDe00(), 2),
                    Numbers.fixed(each.worstDe00(), 2),
                    Numbers.fixed(each.spreadDe00(), 2),
                    Numbers.fixed(each.next().percent(), 3) + " %, "
                            + Numbers.plain(each.next().depthMm()) + " mm, "
                            + each.next().backing()));
        }
        if (rows.isEmpty()) {
            lines.text("No pigment has a reading yet. Pour chips of single pigments, a quarter and twice the usual"
                    + " loading, 3 mm deep, and read them over white and black.");
        } else {
            lines.table(
                    List.of("Pigment", "Readings", "Off, ΔE00", "Worst", "Spread", "Read next"),
                    List.of(
                            Lines.Side.LEFT,
                            Lines.Side.RIGHT,
                            Lines.Side.RIGHT,
                            Lines.Side.RIGHT,
                            Lines.Side.RIGHT,
                            Lines.Side.LEFT),
                    rows);
            lines.text("Off: how far the theory passes by the readings, in the median and at worst. Spread: nine of"
                    + " ten fresh readings of the pigment alone would lie within it.");
        }
        // A concentrate's colour is that of the pigment it holds.
        unread.removeIf(id -> {
            pigmentbook.book.Pigment pigment = book.pigments().get(id);
            return pigment != null && pigment.contains() != null;
        });
        if (!unread.isEmpty() && !rows.isEmpty()) {
            lines.hanging("No reading yet: ", String.join(", ", unread));
        }
        return lines.toString();
    }

    private void tellSetAside(List<SetAside> setAside) {
        for (SetAside each : setAside.subList(0, Math.min(SHOWN, setAside.size()))) {
            book.context()
                    .err()
                    .println("Set aside: reading " + each.reading() + " of " + each.pourId() + ", " + each.why() + ".");
        }
        if (setAside.size() > SHOWN) {
            book.context().err().println("and " + (setAside.size() - SHOWN) + " readings more.");
        }
    }
}
