package pigmentbook.cli;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.sheet.ReadBack;

/** What was read back, for a person. */
final class ReadBackText {

    private static final List<Lines.Side> WEIGHED =
            List.of(Lines.Side.LEFT, Lines.Side.LEFT, Lines.Side.RIGHT, Lines.Side.RIGHT);
    private static final List<Lines.Side> LEFT = List.of(Lines.Side.LEFT, Lines.Side.LEFT, Lines.Side.LEFT);

    private final Book book;
    private final ReadBack.Draft draft;
    private final JsonNode pour;
    private final Lines lines;
    private int notWeighed;

    ReadBackText(Book book, ReadBack.Draft draft, boolean colour) {
        this.book = book;
        this.draft = draft;
        this.pour = draft.pour();
        this.lines = new Lines(colour);
    }

    /**
     * Returns the text.
     *
     * @param sheet the sheet's file
     * @param kept the file of the pour, or null where it was not kept
     */
    String text(String sheet, @Nullable String kept) {
        head();
        weighed();
        differences();
        problems();
        notes();
        next(sheet, kept);
        return lines.toString();
    }

    private void head() {
        Recipe recipe = book.recipes().get(pour.path("recipe").asText());
        lines.head((recipe == null ? "An unknown recipe" : recipe.name()) + ", revision "
                + or(pour.path("revision"), "unknown")
                + (pour.path("mold").isTextual() ? ", for " + pour.path("mold").asText() : ""));
        lines.text("Sheet " + draft.mixId() + ".");
        lines.text("Started " + or(pour.path("started"), "not written down") + ", by "
                + (pour.path("by").asText().isEmpty()
                        ? "nobody named"
                        : plain(pour.path("by").asText())) + ", room "
                + or(pour.path("temperature"), "not written down") + ", humidity "
                + or(pour.path("humidity"), "not written down") + ", left "
                + or(pour.path("left"), "not written down") + ", result "
                + or(pour.path("result").path("rating"), "not written down") + ".");
    }

    private static String or(JsonNode value, String otherwise) {
        return value.isNull() || value.isMissingNode() ? otherwise : plain(value.asText());
    }

    /** Returns a text on one line, without marks that can't be seen. */
    private static String plain(String text) {
        return text.replaceAll("\\s+", " ").replaceAll("[\\p{Cc}\\p{Cf}\\p{Cs}]", "·");
    }

    private void weighed() {
        int layer = 0;
        for (JsonNode each : pour.path("layers")) {
            layer++;
            int cup = 0;
            for (JsonNode one : each.path("cups")) {
                cup++;
                List<List<String>> rows = new ArrayList<>();
                for (JsonNode weighed : one.path("weighed")) {
                    boolean missing = weighed.path("actual").isNull();
                    notWeighed += missing ? 1 : 0;
                    rows.add(List.of(
                            weighed.path("item").asText(),
                            or(weighed.path("lot"), "none"),
                            grams(weighed.path("target"), "none"),
                            grams(weighed.path("actual"), "not written down")));
                }
                lines.blank().text("Layer " + layer + ", cup " + cup);
                lines.table(List.of("Item", "Lot", "Target, g", "As weighed, g"), WEIGHED, rows);
            }
        }
    }

    /** Returns a mass in g to two decimals, so that points stand beneath each other. */
    private static String grams(JsonNode mass, String otherwise) {
        return mass.isTextual() ? Numbers.fixed(Mass.parse(mass.textValue()).grams(), 2) : otherwise;
    }

    private void notes() {
        if (!draft.notes().isEmpty()) {
            lines.blank().text("To look at; nothing here changes an amount, and comments are kept as words.");
            draft.notes().forEach(each -> lines.hanging(each.cell() + ": ", plain(each.text())));
        }
    }

    private void differences() {
        if (draft.differences().isEmpty()) {
            lines.blank().text("Nothing is filled in: the sheet is as it was made.");
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        for (ReadBack.Difference each : draft.differences()) {
            rows.add(List.of(each.cell(), shown(each.was()), shown(each.is())));
        }
        lines.blank().text("Filled in or changed");
        lines.table(List.of("Cell", "Was", "Is"), LEFT, rows);
    }

    private static String shown(@Nullable String text) {
        return text == null ? "(empty)" : plain(text);
    }

    private void problems() {
        if (!draft.differences().isEmpty() && !draft.hindrances().isEmpty()) {
            lines.blank().text("To put right");
            draft.hindrances().forEach(each -> lines.hanging("  ", each));
        }
    }

    private void next(String sheet, @Nullable String kept) {
        lines.blank();
        if (notWeighed > 0) {
            lines.text((notWeighed == 1 ? "One weight is" : notWeighed + " weights are")
                    + " not written down: there the target counts as weighed.");
        }
        if (kept != null) {
            lines.text("Kept: " + kept);
        } else if (draft.keptAs() != null) {
            lines.text("This sheet is kept already, as the pour " + draft.keptAs() + ".");
        } else if (!draft.hindrances().isEmpty()) {
            lines.text("Put it right on the sheet, save it there, and read it back again.");
        } else {
            lines.text("Nothing is kept yet. To keep it: pigment-book read-back " + plain(sheet) + " --save");
        }
    }
}
