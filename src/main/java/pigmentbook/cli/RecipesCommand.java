package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import pigmentbook.book.Book;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.store.Opened;

/** Lists the recipes. */
@Command(
        name = "recipes",
        mixinStandardHelpOptions = true,
        description = "List the recipes.",
        footer = {
            "",
            "Examples:",
            "  pigment-book recipes",
            "  pigment-book recipes --tag see-through --with copper-mica",
            "  pigment-book recipes --format json"
        })
final class RecipesCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Option(names = "--tag", paramLabel = "T", description = "Only those with this tag.")
    private @Nullable String tag;

    @Option(names = "--with", paramLabel = "PIGMENT", description = "Only those that take this pigment.")
    private @Nullable String with;

    @Override
    public Integer call() throws Exception {
        Opened opened = book.open();
        if (with != null && !opened.book().pigments().containsKey(with)) {
            throw book.unknown(
                    opened,
                    "pigment",
                    with,
                    "shelf/pigments/" + with + ".json",
                    opened.book().pigments().keySet());
        }
        List<Recipe> found = opened.book().recipes().values().stream()
                .filter(recipe -> tag == null || hasTag(recipe, tag))
                .filter(recipe -> with == null || takes(recipe, with))
                .toList();
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartArray();
                for (Recipe recipe : found) {
                    json.writeStartObject();
                    summary(json, opened.book(), recipe);
                    json.writeEndObject();
                }
                json.writeEndArray();
            });
        } else {
            book.context().out().print(text(opened.book(), found));
        }
        book.tellProblems(opened);
        return Main.DONE;
    }

    private static boolean hasTag(Recipe recipe, String tag) {
        return recipe.tags().stream().anyMatch(each -> each.equalsIgnoreCase(tag));
    }

    private static boolean takes(Recipe recipe, String pigment) {
        return recipe.current().pigments().stream()
                .anyMatch(each -> each.pigmentId().equals(pigment.toLowerCase(Locale.ROOT)));
    }

    /** Writes what a list shows of a recipe. */
    static void summary(JsonGenerator json, Book book, Recipe recipe) throws IOException {
        Recipe.Revision current = recipe.current();
        json.writeStringField("id", recipe.id());
        json.writeStringField("name", recipe.name());
        Json.texts(json, "tags", recipe.tags());
        json.writeNumberField("revision", current.number());
        json.writeStringField("resin", current.resinId());
        Json.texts(
                json,
                "pigments",
                current.pigments().stream()
                        .map(Recipe.PigmentLoading::pigmentId)
                        .toList());
        LocalDateTime made = lastMade(book, recipe.id());
        Json.text(json, "last_made", made == null ? null : made.toLocalDate());
        Integer rating = rating(book, recipe.id());
        if (rating == null) {
            json.writeNullField("rating");
        } else {
            json.writeNumberField("rating", rating);
        }
    }

    /** Returns when the recipe was last poured, or null. */
    static @Nullable LocalDateTime lastMade(Book book, String recipe) {
        LocalDateTime last = null;
        for (Pour pour : book.poursOf(recipe)) {
            if (pour.started() != null && (last == null || pour.started().isAfter(last))) {
                last = pour.started();
            }
        }
        return last;
    }

    /** Returns the rating of the latest pour that has one, or null. */
    static @Nullable Integer rating(Book book, String recipe) {
        LocalDateTime last = LocalDateTime.MIN;
        Integer rating = null;
        for (Pour pour : book.poursOf(recipe)) {
            LocalDateTime at = pour.started() == null ? LocalDateTime.MIN : pour.started();
            if (pour.result() != null && pour.result().rating() != null && !at.isBefore(last)) {
                last = at;
                rating = pour.result().rating();
            }
        }
        return rating;
    }

    private static String text(Book book, List<Recipe> recipes) {
        if (recipes.isEmpty()) {
            return "No recipe fits.\n";
        }
        List<List<String>> rows = new ArrayList<>();
        for (Recipe recipe : recipes) {
            LocalDateTime made = lastMade(book, recipe.id());
            Integer rating = rating(book, recipe.id());
            rows.add(List.of(
                    recipe.id(),
                    recipe.name(),
                    String.valueOf(recipe.current().number()),
                    recipe.current().resinId(),
                    made == null ? "" : made.toLocalDate().toString(),
                    rating == null ? "" : rating + " of 5",
                    String.join(", ", recipe.tags())));
        }
        List<Lines.Side> sides = new ArrayList<>(java.util.Collections.nCopies(7, Lines.Side.LEFT));
        return new Lines(false)
                .table(List.of("Id", "Name", "Rev.", "Resin", "Last made", "Came out", "Tags"), sides, rows)
                .toString();
    }
}
