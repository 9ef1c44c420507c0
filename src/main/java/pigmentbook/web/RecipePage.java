package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.MixRatio;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** One recipe: what was read of it, its formula, its revisions side by side, its pours and how they came out. */
public final class RecipePage {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

    private RecipePage() {}

    /** One pigment of the formula. */
    public record Line(String id, String name, String percent, String barWidth, String share) {}

    /** A pigment that the formula does not have yet. */
    public record Other(String id, String name) {}

    /** One pigment in every revision: its percents, newest first. */
    public record Across(String name, List<String> percents) {}

    /** The head of a revision's column. */
    public record Column(int number, String date, String why) {}

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
            String hex) {}

    static void addTo(JavalinConfig config, LiveBook book, java.time.Clock clock) {
        config.routes.get("/recipes/{id}", context -> show(context, book, context.pathParam("id")));
    }

    static Recipe recipe(Book book, String id) {
        Recipe recipe = book.recipes().get(id);
        if (recipe == null) {
            throw new NotThereException("There is no recipe of that name in the book."
                    + NearIds.hint(id, book.recipes().keySet()));
        }
        return recipe;
    }

    private static void show(Context context, LiveBook live, String id) throws SaveFailedException {
        Book book = live.now().book();
        Recipe recipe = recipe(book, id);
        Recipe.Revision current = recipe.current();
        Resin resin = book.resins().get(current.resinId());
        Map<String, Object> values = new HashMap<>();
        values.put("id", recipe.id());
        values.put("name", recipe.name());
        values.put("about", about(recipe, resin));
        values.put("notes", recipe.notes());
        values.put("percentOf", current.percentOf().words());
        values.put("lines", lines(book, current));
        values.put("others", others(book, current));
        values.put("away", recipe.tags().contains(RecipeActs.PUT_AWAY));
        values.put("base", live.writer().read(Kind.RECIPE, recipe.id()).version());
        values.put("next", current.number() + 1);
        values.put("columns", columns(recipe));
        values.put("across", across(book, recipe));
        values.put("steps", recipe.steps());
        values.put("reads", reads(book, recipe));
        values.put("made", made(book, recipe));
        Pour latest = latest(book, recipe);
        values.put("mold", latest == null || latest.moldId() == null ? "" : latest.moldId());
        Pages.show(context, "recipe.jte", values);
    }

    private static @Nullable Pour latest(Book book, Recipe recipe) {
        List<Pour> pours = book.poursOf(recipe.id());
        return pours.isEmpty() ? null : pours.get(pours.size() - 1);
    }

    private static String about(Recipe recipe, @Nullable Resin resin) {
        Recipe.Revision current = recipe.current();
        MixRatio ratio = resin == null ? null : resin.ratio();
        return "Revision " + current.number()
                + (current.date() == null ? "" : " of " + current.date().format(DAY)) + ". "
                + (resin == null ? current.resinId() : resin.name())
                + (ratio == null
                        ? ""
                        : ", " + ratio.ratio().written()
                                + (ratio.by() == MixRatio.By.WEIGHT ? " by weight" : " by volume"))
                + "."
                + (recipe.tags().isEmpty() ? "" : " Tags: " + String.join(", ", recipe.tags()) + ".");
    }

    private static String name(Book book, String pigment) {
        Pigment known = book.pigments().get(pigment);
        return known == null ? pigment : known.name();
    }

    private static List<Line> lines(Book book, Recipe.Revision revision) {
        List<Line> lines = new ArrayList<>();
        for (Recipe.PigmentLoading loading : revision.pigments()) {
            Pigment pigment = book.pigments().get(loading.pigmentId());
            double percent = loading.percent().percent();
            double top = pigment == null || pigment.topLoading() == null
                    ? 0
                    : pigment.topLoading().percent();
            lines.add(new Line(
                    loading.pigmentId(),
                    name(book, loading.pigmentId()),
                    loading.percent().written(),
                    top == 0 ? "0" : Figures.plain(Math.min(100, 100 * percent / top), 1),
                    top == 0 || pigment == null || pigment.topLoading() == null
                            ? "no top loading stated"
                            : Figures.plain(100 * percent / top, 0) + " % of "
                                    + pigment.topLoading().written()));
        }
        return lines;
    }

    private static List<Other> others(Book book, Recipe.Revision revision) {
        return book.pigments().values().stream()
                .filter(each -> revision.pigments().stream()
                        .noneMatch(loading -> loading.pigmentId().equals(each.id())))
                .map(each -> new Other(each.id(), each.name()))
                .toList();
    }

    private static List<Column> columns(Recipe recipe) {
        List<Column> columns = new ArrayList<>();
        for (int i = recipe.revisions().size() - 1; i >= 0; i--) {
            Recipe.Revision revision = recipe.revisions().get(i);
            columns.add(new Column(
                    revision.number(),
                    revision.date() == null ? "" : revision.date().format(DAY),
                    revision.why()));
        }
        return columns;
    }

    private static List<Across> across(Book book, Recipe recipe) {
        Map<String, List<String>> byPigment = new LinkedHashMap<>();
        int columns = recipe.revisions().size();
        for (int i = columns - 1; i >= 0; i--) {
            for (Recipe.PigmentLoading loading : recipe.revisions().get(i).pigments()) {
                List<String> row = byPigment.computeIfAbsent(
                        loading.pigmentId(), id -> new ArrayList<>(java.util.Collections.nCopies(columns, "")));
                row.set(columns - 1 - i, Figures.of(loading.percent().percent(), 2));
            }
        }
        return byPigment.entrySet().stream()
                .map(entry -> new Across(name(book, entry.getKey()), entry.getValue()))
                .toList();
    }

    private static List<Read> reads(Book book, Recipe recipe) {
        List<Read> reads = new ArrayList<>();
        List<Pour> pours = book.poursOf(recipe.id());
        for (int i = pours.size() - 1; i >= 0; i--) {
            for (Pour.Reading reading : pours.get(i).readings()) {
                reads.add(new Read(
                        Figures.hex(reading.lab()),
                        reading.depth() == null
                                ? "depth not noted"
                                : reading.depth().written(),
                        Figures.backing(reading.backing()),
                        pours.get(i).id(),
                        "L* " + Figures.plain(reading.lab().l(), 1) + ", a* "
                                + Figures.plain(reading.lab().a(), 1) + ", b* "
                                + Figures.plain(reading.lab().b(), 1)));
            }
        }
        return reads;
    }

    private static List<Made> made(Book book, Recipe recipe) {
        List<Made> made = new ArrayList<>();
        List<Pour> pours = book.poursOf(recipe.id());
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
                    pour.started() == null ? "" : pour.started().format(DAY),
                    result == null || result.rating() == null ? "" : result.rating() + " of 5",
                    result == null ? "" : String.join(", ", result.faults()),
                    result == null ? "" : result.text(),
                    result == null ? "" : result.next(),
                    pour.readings().isEmpty()
                            ? ""
                            : Figures.hex(pour.readings().get(0).lab())));
        }
        return made;
    }
}
