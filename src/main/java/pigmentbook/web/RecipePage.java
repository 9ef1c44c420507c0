package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.mix.Mix;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.mix.MixRequest;
import pigmentbook.mix.Mixer;
import pigmentbook.mix.Poured;
import pigmentbook.mix.WasAndWill;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Percent;
import pigmentbook.store.BookWriter;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** One recipe: what was read of it, its formula, its revisions side by side, its pours and how they came out. */
public final class RecipePage {

    private RecipePage() {}

    /** One row of the formula: a pigment, a part, or a sum. Texts in cells are HTML of figures or escaped text. */
    public record Line(
            String id,
            String name,
            String percent,
            String wrong,
            String other,
            String grams,
            boolean leads,
            String cost,
            String barWidth,
            String share) {}

    /** A resin to choose. */
    public record ResinChoice(String id, String name, boolean chosen) {}

    /** A field of the form that a cell of the sheet stands for. */
    public record Field(String name, String value, String lead) {}

    /** One pigment in every revision: its percents, newest first, and whether each differs from the one before. */
    public record Across(String name, List<String> percents, List<Boolean> changed) {}

    /** The head of a revision's column. */
    public record Column(int number, String date, String why, String cameOut) {}

    /** One reading. */
    public record Read(String hex, String depth, String backing, String pour, String lab) {}

    /** One pour. */
    public record Made(
            String id,
            int revision,
            String mold,
            String day,
            String rating,
            String faults,
            String text,
            String next,
            String hex,
            int photos,
            boolean weighed) {}

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints, Clock clock) {
        config.routes.get(
                "/recipes/{id}", context -> show(context, book, tints, context.pathParam("id"), LocalDate.now(clock)));
    }

    static Recipe recipe(Book book, String id) {
        Recipe recipe = book.recipes().get(id);
        if (recipe == null) {
            throw new NotThereException("There is no recipe of that name in the book."
                    + NearIds.hint(id, book.recipes().keySet()));
        }
        return recipe;
    }

    private static void show(Context context, LiveBook live, LiveTints tints, String id, LocalDate today)
            throws SaveFailedException {
        Book book = live.now().book();
        Recipe recipe = recipe(book, id);
        BookWriter.Current file = live.writer().read(Kind.RECIPE, recipe.id());
        Recipe.Revision base = revision(context, recipe);
        Formula formula = Formula.of(context, book, base, usualSize(book, recipe));
        Resin resin = book.resins().get(formula.resin());
        Map<String, Object> values = new HashMap<>();
        values.put("id", recipe.id());
        values.put("name", recipe.name());
        values.put("about", about(recipe, book.resins().get(recipe.current().resinId())));
        values.put("percentOf", formula.percentOf().words());
        values.put("away", recipe.tags().contains(RecipeActs.PUT_AWAY));
        values.put("base", file.version());
        values.put("revision", base.number());
        values.put("older", base.number() != recipe.current().number());
        values.put("next", recipe.current().number() + 1);
        values.put(
                "resins",
                book.resins().values().stream()
                        .map(each -> new ResinChoice(
                                each.id(), each.name(), each.id().equals(formula.resin())))
                        .toList());
        values.put("others", String.join("|", others(book, formula)));
        values.put("changes", changes(book, formula, recipe));
        formula(values, book, recipe, formula, today);
        Looks.fill(values, book, tints, formula.revision());
        values.put("fields", fields(formula));
        values.put("columns", columns(book, recipe));
        values.put("across", across(book, recipe));
        values.put("own", RecipeCells.own(file.record()));
        values.put("steps", RecipeCells.steps(file.record()));
        values.put("reads", reads(book, recipe));
        values.put("made", made(book, recipe));
        values.put(
                "top",
                resin == null || resin.topLoading() == null
                        ? ""
                        : resin.topLoading().written());
        Pages.show(context, "recipe.jte", values);
    }

    /** Returns the revision that is asked for, or the current one. */
    static Recipe.Revision revision(Context context, Recipe recipe) {
        String asked =
                context.queryParam("revision") == null ? context.formParam("revision") : context.queryParam("revision");
        if (asked == null || asked.isEmpty()) {
            return recipe.current();
        }
        return recipe.revisions().stream()
                .filter(each -> String.valueOf(each.number()).equals(asked))
                .findFirst()
                .orElseThrow(() -> new NotThereException("The recipe " + recipe.name() + " has no such revision."));
    }

    /** Returns a size to begin with. */
    private static String usualSize(Book book, Recipe recipe) {
        return Figures.plain(WasAndWill.usualGrams(book, recipe.id()), 1) + " g";
    }

    /** Works the formula out at the size shown. */
    private static void formula(
            Map<String, Object> values, Book book, Recipe recipe, Formula formula, LocalDate today) {
        Mix mix = null;
        String problem = "";
        String wrongSize = "";
        try {
            mix = Mixer.mix(book, recipe, formula.revision(), MixRequest.of(formula.mixSize(), today));
        } catch (BadAmountException e) {
            wrongSize = String.valueOf(e.getMessage());
        } catch (MixRefusedException e) {
            problem = String.valueOf(e.getMessage());
        }
        List<Line> lines = new ArrayList<>();
        for (Map.Entry<String, String> entry : formula.percents().entrySet()) {
            lines.add(pigmentLine(book, formula, mix, entry.getKey(), entry.getValue(), wrongSize));
        }
        values.put("lines", lines);
        values.put(
                "sums",
                List.of(
                        sum(formula, mix, "part A", "Part A", wrongSize),
                        sum(formula, mix, "part B", "Part B", wrongSize),
                        sum(formula, mix, "resin", "Mixed resin", wrongSize),
                        sum(formula, mix, "total", "Total", wrongSize)));
        values.put("added", formula.added());
        values.put("addedPercent", formula.addedPercent());
        values.put("addedWrong", formula.wrong().getOrDefault("added", ""));
        values.put("problem", problem);
        values.put(
                "currency",
                mix == null || mix.totals().cost() == null
                        ? SheetEdits.usualCurrency(book)
                        : mix.totals().cost().currency());
        double sum = mix == null
                ? 0
                : 100
                        * mix.shares().pigments().stream()
                                .mapToDouble(Mix.PigmentShare::fractionOfResin)
                                .sum();
        values.put("sumPercent", mix == null ? "" : Figures.plain(sum, 2) + " % of mixed resin in all");
        values.put("cautions", mix == null ? List.of() : MixPage.cautions(mix, false));
        values.put("standing", mix == null ? List.of() : MixPage.cautions(mix, true));
    }

    private static Line pigmentLine(
            Book book, Formula formula, @Nullable Mix mix, String id, String percent, String wrongSize) {
        Pigment pigment = book.pigments().get(id);
        Percent top = pigment == null ? null : pigment.topLoading();
        Mix.PigmentShare share = null;
        if (mix != null) {
            for (Mix.PigmentShare each : mix.shares().pigments()) {
                share = each.item().id().equals(id) ? each : share;
            }
        }
        boolean leads = formula.lead().equals(id);
        String other = "";
        String width = "0";
        String words = percent.isEmpty() ? "left out" : top == null ? "no top loading stated" : "";
        if (mix != null && share != null) {
            // The other way of stating the same loading: of part A, or of mixed resin.
            other = Figures.of(
                    100
                            * share.fractionOfResin()
                            / (formula.percentOf() == Recipe.PercentOf.PART_A
                                    ? 1
                                    : mix.shares().partA()),
                    2);
            if (top != null && top.percent() > 0) {
                double of = 100 * 100 * share.fractionOfResin() / top.percent();
                width = Figures.plain(Math.min(100, of), 1);
                words = Figures.plain(of, 0) + " % of " + top.written();
            }
        }
        return new Line(
                id,
                name(book, id),
                percent,
                formula.wrong().getOrDefault("percent-" + id, leads ? wrongSize : ""),
                other,
                leads
                        ? Pen.escaped(formula.size())
                        : mix == null ? "" : Figures.of(mix.totals().grams(Item.of(id)), 2),
                leads,
                cost(mix, Item.of(id)),
                width,
                words);
    }

    private static String cost(@Nullable Mix mix, Item item) {
        Mix.Cost cost = mix == null ? null : mix.totals().itemCosts().get(item);
        return cost == null ? "" : Figures.of(cost.amount(), 2);
    }

    private static Line sum(Formula formula, @Nullable Mix mix, String id, String name, String wrongSize) {
        boolean leads = formula.lead().equals(id);
        String grams = "";
        String cost = "";
        if (mix != null) {
            Mix.Totals totals = mix.totals();
            Mix.Cost whole = totals.cost();
            switch (id) {
                case "total" -> {
                    grams = Figures.of(totals.totalGrams(), 1);
                    cost = whole == null ? "" : Figures.of(whole.amount(), 2);
                }
                case "resin" -> grams = Figures.of(totals.mixedResinGrams(), 1);
                default -> {
                    grams = Figures.of(totals.grams(Item.of(id)), 1);
                    cost = cost(mix, Item.of(id));
                }
            }
        }
        return new Line(
                id,
                name,
                "",
                leads ? wrongSize : "",
                "",
                leads ? Pen.escaped(formula.size()) : grams,
                leads,
                cost,
                "0",
                "");
    }

    /** Returns the form's fields that the sheet's cells stand for, so that the form says what the sheet shows. */
    private static List<Field> fields(Formula formula) {
        List<Field> fields = new ArrayList<>();
        formula.percents().forEach((id, percent) -> fields.add(new Field("percent-" + id, percent, "")));
        List<String> sizes = new ArrayList<>(formula.percents().keySet());
        sizes.addAll(List.of("part A", "part B", "resin", "total"));
        for (String id : sizes) {
            fields.add(new Field("size-" + id, id.equals(formula.lead()) ? formula.size() : "", id));
        }
        fields.add(new Field("added", formula.added(), ""));
        fields.add(new Field("added-percent", formula.addedPercent(), ""));
        return fields;
    }

    private static List<String> others(Book book, Formula formula) {
        List<String> others = new ArrayList<>(List.of(""));
        book.pigments().keySet().stream()
                .filter(id -> !formula.percents().containsKey(id))
                .forEach(others::add);
        return others;
    }

    /** Returns what saving would change, in words; empty where nothing is. */
    private static List<String> changes(Book book, Formula formula, Recipe recipe) {
        List<String> changes = new ArrayList<>();
        if (formula.base().number() != recipe.current().number()) {
            changes.add("revision " + formula.base().number() + " becomes the current one again");
        }
        Map<String, String> before = new LinkedHashMap<>();
        formula.base()
                .pigments()
                .forEach(loading ->
                        before.put(loading.pigmentId(), loading.percent().written()));
        formula.percents().forEach((id, percent) -> {
            String was = before.getOrDefault(id, "");
            if (!was.equals(percent)) {
                changes.add(name(book, id) + " " + (was.isEmpty() ? "new" : was) + " → "
                        + (percent.isEmpty() ? "left out" : percent));
            }
        });
        if (!formula.resin().equals(formula.base().resinId())) {
            changes.add("resin " + formula.base().resinId() + " → " + formula.resin());
        }
        if (formula.percentOf() != formula.base().percentOf()) {
            changes.add("percents of " + formula.percentOf().words());
        }
        return changes;
    }

    private static String about(Recipe recipe, @Nullable Resin resin) {
        Recipe.Revision current = recipe.current();
        MixRatio ratio = resin == null ? null : resin.ratio();
        return "Revision " + current.number()
                + (current.date() == null ? "" : " of " + Figures.day(current.date())) + ". "
                + (resin == null ? current.resinId() : resin.name())
                + (ratio == null ? "" : ", " + ratio.written())
                + "."
                + (recipe.tags().isEmpty() ? "" : " Tags: " + String.join(", ", recipe.tags()) + ".");
    }

    private static String name(Book book, String pigment) {
        Pigment known = book.pigments().get(pigment);
        return known == null ? pigment : known.name();
    }

    private static List<Column> columns(Book book, Recipe recipe) {
        List<Column> columns = new ArrayList<>();
        for (int i = recipe.revisions().size() - 1; i >= 0; i--) {
            Recipe.Revision revision = recipe.revisions().get(i);
            StringBuilder cameOut = new StringBuilder();
            for (Pour pour : book.madeOf(recipe.id())) {
                Pour.Result result = pour.result();
                if (pour.revision() == revision.number() && result != null && result.rating() != null) {
                    cameOut.append(cameOut.length() == 0 ? "" : "; ")
                            .append(result.rating())
                            .append(" of 5")
                            .append(result.faults().isEmpty() ? "" : ", " + String.join(", ", result.faults()));
                }
            }
            columns.add(new Column(
                    revision.number(),
                    revision.date() == null ? "" : Figures.day(revision.date()),
                    revision.why(),
                    cameOut.toString()));
        }
        return columns;
    }

    private static List<Across> across(Book book, Recipe recipe) {
        Map<String, List<String>> byPigment = new LinkedHashMap<>();
        int columns = recipe.revisions().size();
        for (int i = columns - 1; i >= 0; i--) {
            for (Recipe.PigmentLoading loading : recipe.revisions().get(i).pigments()) {
                List<String> row = byPigment.computeIfAbsent(
                        loading.pigmentId(), id -> new ArrayList<>(Collections.nCopies(columns, "")));
                row.set(columns - 1 - i, Figures.of(loading.percent().percent(), 2));
            }
        }
        List<Across> rows = new ArrayList<>();
        byPigment.forEach((id, percents) -> {
            List<Boolean> changed = new ArrayList<>();
            for (int i = 0; i < columns; i++) {
                changed.add(i + 1 < columns && !percents.get(i).equals(percents.get(i + 1)));
            }
            rows.add(new Across(name(book, id), percents, changed));
        });
        return rows;
    }

    private static List<Read> reads(Book book, Recipe recipe) {
        List<Read> reads = new ArrayList<>();
        List<Pour> pours = book.madeOf(recipe.id());
        for (int i = pours.size() - 1; i >= 0; i--) {
            for (Pour.Reading reading : pours.get(i).readings()) {
                reads.add(new Read(
                        Figures.hex(reading.lab()),
                        reading.depth() == null
                                ? "depth not noted"
                                : reading.depth().written(),
                        Figures.backing(reading.backing()),
                        pours.get(i).id(),
                        Looks.shown(reading.lab())));
            }
        }
        return reads;
    }

    private static List<Made> made(Book book, Recipe recipe) {
        List<Made> made = new ArrayList<>();
        List<Pour> pours = book.madeOf(recipe.id());
        for (int i = pours.size() - 1; i >= 0; i--) {
            Pour pour = pours.get(i);
            Pour.Result result = pour.result();
            String mold = pour.moldId() == null || !book.molds().containsKey(pour.moldId())
                    ? ""
                    : java.util.Objects.requireNonNull(book.molds().get(pour.moldId()))
                            .name();
            made.add(new Made(
                    pour.id(),
                    pour.revision(),
                    mold,
                    pour.started() == null ? "" : Figures.day(pour.started()),
                    result == null || result.rating() == null ? "" : result.rating() + " of 5",
                    result == null ? "" : String.join(", ", result.faults()),
                    result == null ? "" : result.text(),
                    result == null ? "" : result.next(),
                    pour.readings().isEmpty()
                            ? ""
                            : Figures.hex(pour.readings().get(0).lab()),
                    pour.photos().size(),
                    !Poured.of(book, pour).rows().isEmpty()));
        }
        return made;
    }
}
