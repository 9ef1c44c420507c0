package pigmentbook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Recipe;
import pigmentbook.mix.MixRequest;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;

/**
 * A recipe's formula as it is typed: a percent for each pigment, what the percents are of, the resin, and the one
 * amount that sets the size. What can't be read keeps what was typed, with the reason, and leaves the saved value in
 * force.
 *
 * @param base the revision it starts from
 * @param percents the percents as typed, by pigment, in the order of work; empty for a pigment that is left out
 * @param wrong why an entry can't be taken, by the entry's field
 * @param resin the resin's id
 * @param percentOf what the percents are of
 * @param lead which amount sets the size: {@code total}, {@code resin} or an item's id
 * @param size that amount as typed
 * @param added a pigment that is chosen but has no percent yet, or empty
 * @param addedPercent a percent whose pigment is not chosen yet, or empty
 */
record Formula(
        Recipe.Revision base,
        Map<String, String> percents,
        Map<String, String> wrong,
        String resin,
        Recipe.PercentOf percentOf,
        String lead,
        String size,
        String added,
        String addedPercent) {

    private static final String PERCENT_OF_ONE = "percent-";
    private static final int MOST_TEXT = 60;

    /** Reads a formula from a form's fields; a field that is not there stands as the base has it. */
    static Formula of(Context context, Book book, Recipe.Revision base, String usualSize) {
        Map<String, String> fields = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> fields.put(name, clean(values.get(0))));
        context.formParamMap().forEach((name, values) -> fields.put(name, clean(values.get(0))));
        Map<String, String> percents = new LinkedHashMap<>();
        Map<String, String> wrong = new LinkedHashMap<>();
        for (Recipe.PigmentLoading loading : base.pigments()) {
            percents.put(loading.pigmentId(), loading.percent().written());
        }
        fields.forEach((name, text) -> {
            if (name.startsWith(PERCENT_OF_ONE)) {
                percents.put(name.substring(PERCENT_OF_ONE.length()), withUnit(text, "%"));
            }
        });
        String added = fields.getOrDefault("added", "");
        String addedPercent = withUnit(fields.getOrDefault("added-percent", ""), "%");
        if (!added.isEmpty() && percents.containsKey(added)) {
            wrong.put("added", "The recipe has " + added + " already. Change its percent above.");
        } else if (!added.isEmpty() && !addedPercent.isEmpty()) {
            percents.put(added, addedPercent);
        }
        percents.forEach((pigment, text) -> {
            String reason = wrong(book, pigment, text);
            if (!reason.isEmpty()) {
                wrong.put(PERCENT_OF_ONE + pigment, reason);
            }
        });
        String resin = fields.getOrDefault("resin", base.resinId());
        String lead = fields.getOrDefault("lead", "total");
        String size = fields.getOrDefault("size-" + lead, usualSize);
        return new Formula(
                base,
                percents,
                wrong,
                book.resins().containsKey(resin) ? resin : base.resinId(),
                fields.getOrDefault("of", base.percentOf().words()).equals(Recipe.PercentOf.PART_A.words())
                        ? Recipe.PercentOf.PART_A
                        : Recipe.PercentOf.MIXED_RESIN,
                lead,
                size,
                percents.containsKey(added) ? "" : added,
                percents.containsKey(added) ? "" : addedPercent);
    }

    private static String clean(@Nullable String text) {
        return text == null ? "" : Acts.cut(text, MOST_TEXT);
    }

    /** The head of a field names its unit, so a bare number means it. */
    static String withUnit(String text, String unit) {
        boolean bare = !text.isEmpty() && text.chars().allMatch(c -> (c >= '0' && c <= '9') || c == '.' || c == ',');
        return bare ? text + " " + unit : text;
    }

    private static String wrong(Book book, String pigment, String text) {
        if (!book.pigments().containsKey(pigment)) {
            return "There is no pigment \"" + pigment + "\" on the shelf.";
        }
        if (!text.isEmpty()) {
            try {
                Percent.parse(text);
            } catch (BadAmountException e) {
                return String.valueOf(e.getMessage());
            }
        }
        return "";
    }

    /** Returns the formula as a revision that can be mixed; entries that can't be read stand as in the base. */
    Recipe.Revision revision() {
        List<Recipe.PigmentLoading> pigments = new ArrayList<>();
        percents.forEach((pigment, text) -> {
            if (wrong.containsKey(PERCENT_OF_ONE + pigment)) {
                base.pigments().stream()
                        .filter(loading -> loading.pigmentId().equals(pigment))
                        .forEach(pigments::add);
            } else if (!text.isEmpty()) {
                pigments.add(new Recipe.PigmentLoading(pigment, Percent.parse(text)));
            }
        });
        return new Recipe.Revision(base.number(), base.date(), resin, percentOf, pigments, base.why());
    }

    /**
     * Returns the size to mix.
     *
     * @throws BadAmountException if the amount that leads can't be read
     */
    MixRequest.Size mixSize() {
        Mass mass = Mass.parse(withUnit(size, "g"));
        return switch (lead) {
            case "total" -> new MixRequest.ForTotal(mass);
            case "resin" -> new MixRequest.ForResin(mass);
            default -> new MixRequest.ForItem(Item.of(lead), mass);
        };
    }

    /**
     * Returns the first thing that can't be saved.
     *
     * @throws BadAmountException if there is one; it is named
     */
    void requireRight() {
        wrong.forEach((field, reason) -> {
            throw new BadAmountException(
                    field.startsWith(PERCENT_OF_ONE) && !reason.startsWith("There is no")
                            ? field.substring(PERCENT_OF_ONE.length()) + ": " + reason
                            : reason);
        });
    }
}
