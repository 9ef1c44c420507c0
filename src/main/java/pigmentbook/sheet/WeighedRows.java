package pigmentbook.sheet;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Mass;

/** The weigh rows of a sheet as the weighings of a pour. */
final class WeighedRows {

    /** A tenth of a milligram, to which a bench rounds what it adds up. */
    private static final double SAME_GRAMS = 1.5e-4;

    private final Entries entries;
    private final @Nullable Plan plan;
    private final Book book;
    private final List<Entries.Problem> problems;
    private final Map<String, Plan.Planned> planned;

    /** What each lot gave to a row, where its cells can't say it; by record id. */
    private final Map<String, List<Entries.Weighing>> byLot = new HashMap<>();

    private final @Nullable Double totalGrams;
    private final @Nullable Double shownSum;

    WeighedRows(Entries entries, @Nullable Plan plan, Book book, List<Entries.Problem> problems) {
        this.entries = entries;
        this.plan = plan;
        this.book = book;
        this.problems = problems;
        this.planned = plan == null ? Map.of() : of(plan);
        this.totalGrams = total();
        this.shownSum = plan == null ? shownSum() : null;
        for (Entries.Weighing each : entries.weighings()) {
            if (!each.isThrown()) {
                byLot.computeIfAbsent(each.row().record(), record -> new ArrayList<>())
                        .add(each);
            }
        }
    }

    /** Returns the rows that a plan has by their record ids, in the order of work. */
    static Map<String, Plan.Planned> of(Plan plan) {
        Map<String, Plan.Planned> rows = new LinkedHashMap<>();
        for (int l = 0; l < plan.layers().size(); l++) {
            List<List<Plan.Planned>> cups = plan.layers().get(l).cups();
            for (int c = 0; c < cups.size(); c++) {
                for (Plan.Planned each : cups.get(c)) {
                    rows.put(CellNames.record(l + 1, c + 1, each.item()), each);
                }
            }
        }
        return rows;
    }

    private void problem(String cell, String text) {
        problems.add(new Entries.Problem(cell, text));
    }

    /** Returns the total that the sheet says now; null where it says none, which is told if it should. */
    private @Nullable Double total() {
        if (!entries.cells().containsKey(CellNames.TOTAL)) {
            return null;
        }
        String text = entries.at(CellNames.TOTAL);
        if (text.isEmpty()) {
            problem(CellNames.TOTAL, "The total is empty, so no target follows from it. Write the total in g.");
            return null;
        }
        try {
            double grams = Typed.amount(text, "g", Mass::parse).grams();
            if (grams > 0) {
                return grams;
            }
            problem(CellNames.TOTAL, "The total is 0; the grams of everything weighed were expected.");
        } catch (BadAmountException e) {
            problem(CellNames.TOTAL, String.valueOf(e.getMessage()));
        }
        return null;
    }

    /** Returns the weighings of each cup of each layer, in the order of work. */
    Map<Integer, Map<Integer, ArrayNode>> byLayerAndCup(Recipe.@Nullable Revision revision) {
        Map<Integer, Map<Integer, ArrayNode>> layers = new TreeMap<>();
        for (RowName row : rows()) {
            layers.computeIfAbsent(row.layer(), layer -> new TreeMap<>())
                    .computeIfAbsent(row.cup(), cup -> JsonNodeFactory.instance.arrayNode())
                    .addAll(weighed(row, revision));
        }
        return layers;
    }

    private List<RowName> rows() {
        Set<String> records = new LinkedHashSet<>(planned.keySet());
        entries.cells().keySet().forEach(name -> {
            RowName row = RowName.ofName(name);
            if (row != null) {
                records.add(row.record());
            }
        });
        records.addAll(byLot.keySet());
        List<RowName> rows = new ArrayList<>();
        for (String record : records) {
            RowName row = RowName.ofRecord(record);
            if (row != null) {
                rows.add(row);
            }
        }
        return rows;
    }

    /** Returns what was in cups that were thrown away. */
    ArrayNode thrown(Recipe.@Nullable Revision revision) {
        ArrayNode thrown = JsonNodeFactory.instance.arrayNode();
        for (Entries.Weighing each : entries.weighings()) {
            if (each.isThrown()) {
                thrown.add(ofLot(each, null, revision));
            }
        }
        return thrown;
    }

    /** Returns a row's weighings: one, or one a lot, of which the first has the target. */
    private List<ObjectNode> weighed(RowName row, Recipe.@Nullable Revision revision) {
        String actual = row.cell("actual_g");
        if (!entries.cells().containsKey(actual)
                && problems.stream().noneMatch(each -> each.cell().equals(actual))) {
            problem(
                    actual,
                    "The row of " + row.record() + " is not on the sheet any more. Write its record id beside an empty"
                            + " row, with 0 for what was weighed if none was.");
        }
        if (row.item().isPigment() && !book.pigments().containsKey(row.item().id())) {
            problem(
                    actual,
                    "There is no pigment " + Shown.quoted(row.item().id()) + " in the book."
                            + NearIds.hint(row.item().id(), book.pigments().keySet())
                            + " Correct the record id, or add the pigment.");
        }
        Double target = targetGrams(row);
        List<ObjectNode> lots = new ArrayList<>();
        for (Entries.Weighing each : byLot.getOrDefault(row.record(), List.of())) {
            lots.add(ofLot(each, lots.isEmpty() ? target : null, revision));
        }
        if (lots.isEmpty()) {
            String lot = lot(row, entries.at(row.cell("lot")), revision);
            return List.of(weighing(row, lot, target, actual(actual, entries.at(actual))));
        }
        if (entries.cells().containsKey(actual)) {
            requireSum(row, lots);
        }
        return lots;
    }

    private ObjectNode ofLot(Entries.Weighing each, @Nullable Double target, Recipe.@Nullable Revision revision) {
        String actual = actual(each.row().cell("actual_g"), each.grams());
        return weighing(each.row(), lot(each.row(), each.lot(), revision), target, actual);
    }

    private static ObjectNode weighing(
            RowName row, @Nullable String lot, @Nullable Double target, @Nullable String actual) {
        ObjectNode weighed = JsonNodeFactory.instance.objectNode();
        weighed.put("item", row.item().id());
        weighed.put("lot", lot);
        weighed.put("target", target == null ? null : Typed.grams(target));
        weighed.put("actual", actual);
        return weighed;
    }

    /** What the lots gave has to be what the row says was weighed: else one of the two was changed afterwards. */
    private void requireSum(RowName row, List<ObjectNode> lots) {
        String cell = row.cell("actual_g");
        double sum = 0;
        for (ObjectNode each : lots) {
            if (!each.path("actual").isTextual()) {
                problem(
                        cell,
                        "What the lot " + each.path("lot").asText(Pour.UNKNOWN_LOT)
                                + " gave to this row is missing. Write its grams.");
                return;
            }
            sum += Mass.parse(each.path("actual").asText()).grams();
        }
        String said = actual(cell, entries.at(cell));
        if (said == null || Math.abs(sum - Mass.parse(said).grams()) > SAME_GRAMS) {
            problem(
                    cell,
                    "The lots of this row give " + Typed.grams(sum) + " together, but it says "
                            + Shown.quoted(entries.at(cell)) + ". Correct one of the two.");
        }
    }

    private @Nullable String actual(String cell, String text) {
        if (text.isEmpty()) {
            return null;
        }
        try {
            return Typed.grams(Typed.amount(text, "g", Mass::parse).grams());
        } catch (BadAmountException e) {
            problem(cell, String.valueOf(e.getMessage()));
            return null;
        }
    }

    /**
     * The row's share of the total that the sheet says now. The sheet's own targets count only where it has no plan,
     * and then as shares too: an office program may have saved them without working them out anew.
     */
    private @Nullable Double targetGrams(RowName row) {
        Plan.Planned each = planned.get(row.record());
        if (plan != null) {
            return each == null ? null : scaled(each.grams(), plan.totalGrams());
        }
        Double shown = shownTarget(row);
        return shown == null || shownSum == null ? shown : scaled(shown, shownSum);
    }

    private @Nullable Double scaled(double grams, double ofTotal) {
        boolean live = entries.cells().containsKey(CellNames.TOTAL);
        return !live ? (Double) grams : totalGrams == null ? null : (Double) (grams * totalGrams / ofTotal);
    }

    private @Nullable Double shownTarget(RowName row) {
        try {
            String text = entries.at(row.cell("target_g"));
            return text.isEmpty()
                    ? null
                    : (Double) Typed.amount(text, "g", Mass::parse).grams();
        } catch (BadAmountException e) {
            return null; // the target is the sheet's, not the person's: there is nothing for them to put right
        }
    }

    /** Returns the sum of all targets that the sheet shows; null where a row shows none, or they are nothing. */
    private @Nullable Double shownSum() {
        double sum = 0;
        for (RowName row : rows()) {
            Double shown = shownTarget(row);
            if (shown == null) {
                return null;
            }
            sum += shown;
        }
        return sum > 0 ? (Double) sum : null;
    }

    private @Nullable String lot(RowName row, String text, Recipe.@Nullable Revision revision) {
        String cell = row.cell("lot");
        if (text.isEmpty()) {
            return null;
        }
        if (text.equalsIgnoreCase(Pour.UNKNOWN_LOT)) {
            return Pour.UNKNOWN_LOT;
        }
        Lot lot = book.lots().get(text);
        if (lot == null) {
            problem(
                    cell,
                    "There is no lot " + Shown.quoted(text) + " in the book."
                            + NearIds.hint(text, book.lots().keySet())
                            + " Write the lot that was used, or \"unknown\".");
        } else if (!lot.item().equals(row.item()) || isOfAnotherResin(lot, revision)) {
            problem(
                    cell,
                    "The lot " + lot.id() + " is " + lot.of() + (lot.part() == null ? "" : ", part " + lot.part())
                            + ", but " + row.item().id()
                            + " was weighed. Write the lot that was used, or \"unknown\".");
        }
        return text;
    }

    private static boolean isOfAnotherResin(Lot lot, Recipe.@Nullable Revision revision) {
        return revision != null && lot.part() != null && !lot.of().equals(revision.resinId());
    }
}
