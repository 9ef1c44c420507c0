package pigmentbook.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.mix.WeighedLots;
import pigmentbook.quantity.Amount;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;

/** Makes a draft of a pour from what a person wrote on a mix sheet. Nothing is guessed: what can't be told is asked. */
public final class ReadBack {

    /** An office program keeps 15 digits, so a total that it saved again may differ behind them. */
    private static final double SAME = 1e-9;

    private static final int FIRST_YEAR = 2000;
    private static final int LAST_YEAR = 2100;
    private static final double MOST_HUMIDITY = 100;

    /** The day, the recipe's id, and what makes the sheet's id its own. */
    private static final Pattern SHEET_ID = Pattern.compile("\\d{4}-\\d{2}-\\d{2}-(.+)-[a-z0-9]+");

    private static final Pattern BY_A_CUP = Pattern.compile("by_\\d+_\\d+");

    /** Cells that are no entries: the program wrote them, and they are locked. */
    private static final Set<String> OURS = Set.of(CellNames.ID, CellNames.RECIPE, CellNames.REVISION, CellNames.PLAN);

    private final Entries entries;
    private final Book book;
    private final @Nullable Plan plan;
    private final List<Entries.Problem> problems;
    private final ObjectNode pour = JsonNodeFactory.instance.objectNode();

    /**
     * What was read.
     *
     * @param pour the pour as the book's files write one, without an id; its field {@code mix_id} is the sheet's
     * @param differences every entry that was filled in or changed, in the order of the sheet
     * @param problems what a person has to put right before the pour can be kept
     * @param notes what to look at: comments on cells, and lots that are not what the sheet counts on
     * @param keptAs the pour that this sheet is kept as already, or null
     */
    public record Draft(
            ObjectNode pour,
            List<Difference> differences,
            List<Entries.Problem> problems,
            List<Entries.Problem> notes,
            @Nullable String keptAs) {

        /** Returns why it can't be kept yet, a line each, all that can be told at once; empty where it can be. */
        public List<String> hindrances() {
            List<String> lines = new ArrayList<>();
            if (keptAs != null) {
                lines.add("The sheet " + mixId() + " is kept already, as the pour " + keptAs
                        + ". Correct that pour instead.");
            }
            problems.forEach(each -> lines.add(each.cell() + ": " + each.text()));
            if (differences.isEmpty()) {
                lines.add("Nothing is filled in on this sheet.");
            }
            if (started() == null
                    && problems.stream().noneMatch(each -> each.cell().equals(CellNames.STARTED))) {
                lines.add(CellNames.STARTED + ": The sheet does not say when the work began, and a pour is filed under"
                        + " its day. Write day and time into \"Started\", such as 2026-03-31 10:15.");
            }
            return lines;
        }

        /** Returns the day and time it began, or null where the sheet does not say. */
        public @Nullable String started() {
            return pour.path("started").isTextual() ? pour.path("started").textValue() : null;
        }

        /** Returns the sheet's own id. */
        public String mixId() {
            return pour.path("mix_id").asText();
        }
    }

    /**
     * An entry that is not as the sheet was made.
     *
     * @param cell the defined name
     * @param was what the sheet said when it was made, or null where it was empty
     * @param is what it says now, or null where it is empty
     */
    public record Difference(
            String cell, @Nullable String was, @Nullable String is) {}

    private ReadBack(Entries entries, Book book) {
        this.entries = entries;
        this.book = book;
        this.plan = Plan.read(entries.at(CellNames.PLAN));
        this.problems = new ArrayList<>(entries.problems());
    }

    /** Returns the draft of the pour that the entries of a sheet tell of. */
    public static Draft of(Entries entries, Book book) {
        ReadBack back = new ReadBack(entries, book);
        back.head();
        back.weighed();
        back.end();
        List<Difference> differences = back.differences();
        Pour kept = book.pourOfSheet(entries.at(CellNames.ID));
        return new Draft(
                back.pour,
                differences,
                List.copyOf(back.problems),
                back.notes(differences, kept != null),
                kept == null ? null : kept.id());
    }

    private void problem(String cell, String text) {
        problems.add(new Entries.Problem(cell, text));
    }

    private void head() {
        Recipe recipe = recipe();
        pour.put("recipe", recipe == null ? null : recipe.id());
        Integer revision = Typed.whole(entries.at(CellNames.REVISION), 1, Integer.MAX_VALUE);
        pour.put("revision", revision);
        if (revision == null) {
            problem(CellNames.REVISION, "The revision's number is missing. Write the one that was mixed.");
        } else if (recipe != null && recipe.revision(revision) == null) {
            problem(
                    CellNames.REVISION,
                    "The recipe " + recipe.id() + " has no revision " + revision + "; its last one is "
                            + recipe.current().number() + ".");
        }
        String mold = plan == null ? null : plan.moldId();
        pour.put("mold", book.molds().containsKey(mold) ? mold : null);
        pour.put("kind", "piece");
        pour.put("started", started());
        pour.put("by", by());
        pour.put("temperature", amount(CellNames.TEMPERATURE, "C", Temperature::parse));
        pour.put("humidity", humidity());
    }

    /** Returns the recipe that the sheet's plan names, else its id, else its name, where just one has that name. */
    private @Nullable Recipe recipe() {
        String name = entries.at(CellNames.RECIPE);
        Matcher id = SHEET_ID.matcher(entries.at(CellNames.ID));
        List<String> ids = new ArrayList<>();
        if (plan != null) {
            ids.add(plan.recipeId());
        }
        if (id.matches()) {
            ids.add(id.group(1));
        }
        ids.add(name);
        for (String each : ids) {
            Recipe recipe = book.recipes().get(each);
            if (recipe != null) {
                return recipe;
            }
        }
        List<Recipe> named = book.recipes().values().stream()
                .filter(each -> each.name().equals(name))
                .toList();
        if (named.size() == 1) {
            return named.get(0);
        }
        problem(
                CellNames.RECIPE,
                named.isEmpty()
                        ? "There is no recipe " + Shown.quoted(ids.get(0)) + " in the book."
                                + NearIds.hint(ids.get(0), book.recipes().keySet()) + " Add it, or read this into the"
                                + " book that the sheet came from."
                        : named.size() + " recipes are named " + Shown.quoted(name)
                                + "; write the id of the right one in its place.");
        return null;
    }

    private @Nullable String started() {
        String text = entries.at(CellNames.STARTED);
        if (text.isEmpty()) {
            return null;
        }
        LocalDateTime moment = Moments.read(text);
        if (moment == null || moment.getYear() < FIRST_YEAR || moment.getYear() > LAST_YEAR) {
            problem(
                    CellNames.STARTED,
                    Shown.quoted(text) + " is no day with its time; such as 2026-03-31 10:15 was expected.");
            return null;
        }
        return Moments.written(moment);
    }

    /** Everybody who put their name to the work, each once: who made it, then who weighed the cups. */
    private String by() {
        Set<String> names = new LinkedHashSet<>();
        names.add(entries.at(CellNames.MADE_BY));
        entries.cells().keySet().stream()
                .filter(name -> BY_A_CUP.matcher(name).matches())
                .forEach(name -> names.add(entries.at(name)));
        names.remove("");
        return String.join(", ", names);
    }

    private @Nullable String humidity() {
        return amount(CellNames.HUMIDITY, "%", text -> {
            Percent percent = Percent.parse(text);
            if (percent.percent() > MOST_HUMIDITY) {
                throw new BadAmountException(
                        Shown.quoted(text) + " is more than air can hold; 0 % to 100 % was expected.");
            }
            return percent;
        });
    }

    /** Returns an amount as the pour writes it; null where the cell is empty, or can't be read, which is told. */
    private @Nullable String amount(String cell, String unit, Function<String, ? extends Amount> parse) {
        String text = entries.at(cell);
        if (text.isEmpty()) {
            return null;
        }
        try {
            return Typed.written(text, unit, parse);
        } catch (BadAmountException e) {
            problem(cell, String.valueOf(e.getMessage()));
            return null;
        }
    }

    private void weighed() {
        WeighedRows rows = new WeighedRows(entries, plan, book, problems);
        ArrayNode layers = pour.putArray("layers");
        rows.byLayerAndCup(revision()).forEach((layer, cups) -> {
            ObjectNode one = layers.addObject();
            one.put("depth", depth(layer));
            texts(one, layer, Map.of("poured", "poured", "poured_by", "by"));
            ArrayNode all = one.putArray("cups");
            cups.forEach((cup, weighed) -> {
                ObjectNode each = all.addObject();
                String by = entries.at(CellNames.of(CellNames.BY, layer, cup));
                if (!by.isEmpty()) {
                    each.put("by", by);
                }
                each.set("weighed", weighed);
                times(each, layer, cup);
            });
        });
        ArrayNode thrown = rows.thrown(revision());
        if (!thrown.isEmpty()) {
            pour.set("thrown", thrown);
        }
    }

    private Recipe.@Nullable Revision revision() {
        Recipe recipe = book.recipes().get(pour.path("recipe").asText());
        return recipe == null ? null : recipe.revision(pour.path("revision").asInt());
    }

    private @Nullable String depth(int layer) {
        Double mm = plan == null || layer > plan.layers().size()
                ? null
                : plan.layers().get(layer - 1).depthMm();
        return mm == null ? null : Length.ofMm(mm).written();
    }

    private void texts(ObjectNode into, int layer, Map<String, String> fields) {
        new TreeMap<>(fields).forEach((what, field) -> {
            String text = entries.at(CellNames.of(what, layer));
            if (!text.isEmpty()) {
                into.put(field, text);
            }
        });
    }

    /** What was written down of a cup's times stays as it was written: a time, a day, a remark. */
    private void times(ObjectNode cup, int layer, int number) {
        ObjectNode times = JsonNodeFactory.instance.objectNode();
        for (String what : CellNames.TIMES) {
            String text = entries.at(CellNames.of(what, layer, number));
            if (!text.isEmpty()) {
                times.put(camelCase(what), text);
            }
        }
        if (!times.isEmpty()) {
            cup.set("times", times);
        }
    }

    private static String camelCase(String name) {
        StringBuilder camel = new StringBuilder();
        for (int i = 0; i < name.length(); i++) {
            boolean line = i > 0 && name.charAt(i - 1) == '_';
            if (name.charAt(i) != '_') {
                camel.append(line ? Character.toUpperCase(name.charAt(i)) : name.charAt(i));
            }
        }
        return camel.toString();
    }

    private void end() {
        pour.put("left", amount(CellNames.LEFT, "g", Mass::parse));
        ObjectNode result = pour.putObject("result");
        result.put("rating", rating());
        result.putArray("faults");
        result.put("text", entries.cells().getOrDefault(CellNames.RESULT, "").strip());
        result.put("next", "");
        pour.putArray("readings");
        pour.putArray("photos");
        String level = amount(CellNames.LEVEL, "mm", Length::parse);
        if (level != null) {
            pour.put("level", level);
        }
        for (String name : List.of(CellNames.DEVIATION, CellNames.MADE_BY, CellNames.CHECKED_BY)) {
            if (!entries.at(name).isEmpty()) {
                pour.put(camelCase(name), entries.at(name));
            }
        }
        checks();
        if (!entries.notes().isEmpty()) {
            ArrayNode comments = pour.putArray("comments");
            entries.notes()
                    .forEach(each ->
                            comments.addObject().put("cell", each.cell()).put("text", each.text()));
        }
        pour.put("mix_id", entries.at(CellNames.ID));
    }

    private @Nullable Integer rating() {
        String text = entries.at(CellNames.RATING);
        Integer rating = text.isEmpty() ? null : Typed.whole(text, 1, 5);
        if (rating == null && !text.isEmpty()) {
            problem(CellNames.RATING, Shown.quoted(text) + " is no result; a whole number from 1 to 5 was expected.");
        }
        return rating;
    }

    /** The marks in the boxes before mixing, by their number on the sheet. */
    private void checks() {
        ObjectNode checks = JsonNodeFactory.instance.objectNode();
        entries.cells().keySet().stream()
                .filter(name -> name.startsWith("check_") && !entries.at(name).isEmpty())
                .forEach(name -> checks.put(name.substring("check_".length()), entries.at(name)));
        if (!checks.isEmpty()) {
            pour.set("checks", checks);
        }
    }

    private List<Difference> differences() {
        List<Difference> differences = new ArrayList<>();
        Map<String, String> planned = planned();
        entries.cells().forEach((name, text) -> {
            RowName row = RowName.ofName(name);
            boolean ours =
                    OURS.contains(name) || (row != null && !name.startsWith("lot_") && !name.startsWith("actual_g_"));
            String was = planned.getOrDefault(name, "");
            if (!ours && !same(name, was, text.strip())) {
                differences.add(new Difference(name, orNull(was), orNull(text.strip())));
            }
        });
        return List.copyOf(differences);
    }

    /** What a person should look at and nobody can put right for them. A pour in the book has taken its grams. */
    private List<Entries.Problem> notes(List<Difference> differences, boolean taken) {
        List<Entries.Problem> notes = new ArrayList<>(entries.notes());
        for (Difference each : differences) {
            Lot was = each.was() == null ? null : book.lots().get(each.was());
            Lot is = each.is() == null ? null : book.lots().get(each.is());
            if (was != null && is != null && was.strengthFactor() != is.strengthFactor()) {
                notes.add(new Entries.Problem(each.cell(), WeighedLots.anotherStrength(was, is)));
            }
        }
        weighedByLot().forEach((id, grams) -> {
            Lot lot = book.lots().get(id);
            if (lot != null && !taken && WeighedLots.isMoreThanLeft(book, lot, grams)) {
                notes.add(new Entries.Problem(firstCellOf(id), WeighedLots.moreThanLeft(book, lot, grams)));
            }
        });
        return List.copyOf(notes);
    }

    /** What the sheet takes of each lot, in g, thrown cups too. */
    private Map<String, Double> weighedByLot() {
        Map<String, Double> grams = new TreeMap<>();
        pour.findValues("weighed").forEach(rows -> rows.forEach(row -> add(grams, row)));
        pour.path("thrown").forEach(row -> add(grams, row));
        return grams;
    }

    private static void add(Map<String, Double> grams, JsonNode row) {
        if (row.path("lot").isTextual() && row.path("actual").isTextual()) {
            grams.merge(
                    row.path("lot").textValue(),
                    Mass.parse(row.path("actual").textValue()).grams(),
                    Double::sum);
        }
    }

    private String firstCellOf(String lot) {
        return entries.weighings().stream()
                .filter(each -> each.lot().equals(lot))
                .map(each -> each.row().cell("lot"))
                .findFirst()
                .or(() -> entries.cells().keySet().stream()
                        .filter(name ->
                                name.startsWith("lot_") && entries.at(name).equals(lot))
                        .findFirst())
                .orElse(CellNames.PLAN);
    }

    private static @Nullable String orNull(String text) {
        return text.isEmpty() ? null : text;
    }

    /** What the sheet was made with where a person may write: the total and the lots. */
    private Map<String, String> planned() {
        Map<String, String> planned = new TreeMap<>();
        if (plan != null) {
            planned.put(CellNames.TOTAL, Numbers.plain(plan.totalGrams()));
            WeighedRows.of(plan).forEach((record, each) -> {
                String lot = each.lot();
                RowName row = RowName.ofRecord(record);
                if (lot != null && row != null) {
                    planned.put(row.cell("lot"), lot);
                }
            });
        }
        return planned;
    }

    private boolean same(String name, String was, String is) {
        if (name.equals(CellNames.TOTAL) && plan == null) {
            return true; // nobody knows what it was
        }
        if (name.equals(CellNames.TOTAL) && !is.isEmpty()) {
            try {
                double total = Typed.amount(is, "g", Mass::parse).grams();
                return Math.abs(total - Double.parseDouble(was)) <= SAME * total;
            } catch (BadAmountException e) {
                return false;
            }
        }
        return was.equals(is);
    }
}
