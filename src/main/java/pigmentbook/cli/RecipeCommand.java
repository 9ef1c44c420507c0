package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Book;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.store.Opened;

/** Shows one recipe. */
@Command(
        name = "recipe",
        mixinStandardHelpOptions = true,
        description = "Show a recipe: its revisions and its pours.",
        footer = {"", "Examples:", "  pigment-book recipe ember", "  pigment-book recipe ember --format json"})
final class RecipeCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "ID", description = "The recipe.")
    @SuppressWarnings("NullAway.Init")
    private String id;

    @Override
    public Integer call() throws Exception {
        Opened opened = book.open();
        Recipe recipe = book.recipe(opened, id);
        if (answer.json()) {
            Json.write(book.context().out(), json -> json(json, opened.book(), recipe));
        } else {
            book.context().out().print(text(opened.book(), recipe));
        }
        return Main.DONE;
    }

    private static void json(JsonGenerator json, Book book, Recipe recipe) throws IOException {
        json.writeStartObject();
        RecipesCommand.summary(json, book, recipe);
        json.writeArrayFieldStart("revisions");
        for (Recipe.Revision revision : recipe.revisions()) {
            json.writeStartObject();
            json.writeNumberField("number", revision.number());
            Json.text(json, "date", revision.date());
            json.writeStringField("resin", revision.resinId());
            json.writeStringField("percentOf", revision.percentOf().words());
            json.writeArrayFieldStart("pigments");
            for (Recipe.PigmentLoading loading : revision.pigments()) {
                json.writeStartObject();
                json.writeStringField("pigment", loading.pigmentId());
                json.writeStringField("percent", loading.percent().written());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeStringField("why", revision.why());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("steps");
        for (Recipe.Step step : recipe.steps()) {
            json.writeStartObject();
            json.writeStringField("text", step.text());
            json.writeStringField("when", step.when());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("pours");
        for (Pour pour : book.poursOf(recipe.id())) {
            json.writeStartObject();
            json.writeStringField("id", pour.id());
            json.writeNumberField("revision", pour.revision());
            Json.text(json, "mold", pour.moldId());
            Json.text(json, "started", pour.started());
            Integer rating = pour.result() == null ? null : pour.result().rating();
            if (rating == null) {
                json.writeNullField("rating");
            } else {
                json.writeNumberField("rating", rating);
            }
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeStringField("notes", recipe.notes());
        json.writeEndObject();
    }

    private static String text(Book book, Recipe recipe) {
        Lines lines = new Lines(false);
        lines.head(recipe.name() + (recipe.tags().isEmpty() ? "" : " (" + String.join(", ", recipe.tags()) + ")"));
        for (int i = recipe.revisions().size() - 1; i >= 0; i--) {
            Recipe.Revision revision = recipe.revisions().get(i);
            lines.blank()
                    .text("Revision " + revision.number() + (revision.date() == null ? "" : ", " + revision.date())
                            + ": "
                            + revision.resinId() + ", percent of "
                            + revision.percentOf().words()
                            + (revision.why().isEmpty() ? "" : ". " + revision.why()));
            List<List<String>> rows = new ArrayList<>();
            for (Recipe.PigmentLoading loading : revision.pigments()) {
                rows.add(List.of("  " + loading.pigmentId(), loading.percent().written()));
            }
            if (rows.isEmpty()) {
                lines.text("  clear, no pigment");
            } else {
                lines.table(List.of("  Pigment", "Loading"), List.of(Lines.Side.LEFT, Lines.Side.RIGHT), rows);
            }
        }
        if (!recipe.steps().isEmpty()) {
            lines.blank().head("Steps");
            int number = 1;
            for (Recipe.Step step : recipe.steps()) {
                lines.hanging(number++ + ". ", step.text() + (step.when().isEmpty() ? "" : " (" + step.when() + ")"));
            }
        }
        pours(lines, book.poursOf(recipe.id()));
        if (!recipe.notes().isEmpty()) {
            lines.blank().text(recipe.notes());
        }
        return lines.toString();
    }

    private static void pours(Lines lines, List<Pour> pours) {
        if (pours.isEmpty()) {
            lines.blank().text("Never poured.");
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        for (Pour pour : pours) {
            Pour.Result result = pour.result();
            rows.add(List.of(
                    pour.id(),
                    String.valueOf(pour.revision()),
                    pour.moldId() == null ? "" : pour.moldId(),
                    result == null || result.rating() == null ? "" : result.rating() + " of 5",
                    result == null ? "" : String.join(", ", result.faults())));
        }
        lines.blank().head("Pours");
        lines.table(
                List.of("Pour", "Rev.", "Mold", "Came out", "Faults"),
                java.util.Collections.nCopies(5, Lines.Side.LEFT),
                rows);
    }
}
