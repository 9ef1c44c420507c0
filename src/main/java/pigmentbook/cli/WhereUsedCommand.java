package pigmentbook.cli;

import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.store.Opened;

/** Shows where a lot went. */
@Command(
        name = "where-used",
        mixinStandardHelpOptions = true,
        description = "Show the pours and the recipes that a lot went into.",
        footer = {"", "Examples:", "  pigment-book where-used A-2409", "  pigment-book where-used CM-03 --format json"})
final class WhereUsedCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "LOT", description = "The lot.")
    @SuppressWarnings("NullAway.Init")
    private String lot;

    @Override
    public Integer call() throws Exception {
        Opened opened = book.open();
        Lot found = StockCommand.lot(book, opened, lot);
        Book.Whereabouts whereabouts = opened.book().whereUsed(found);
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeStringField("lot", found.id());
                Json.texts(json, "pours", whereabouts.pourIds());
                Json.texts(json, "recipes", whereabouts.recipeIds());
                json.writeEndObject();
            });
        } else {
            Lines lines = new Lines(false);
            lines.hanging("Pours:   ", named(whereabouts.pourIds()));
            lines.hanging("Recipes: ", named(whereabouts.recipeIds()));
            if (!whereabouts.lotIds().isEmpty()) {
                lines.hanging("By way of lot: ", named(whereabouts.lotIds()));
            }
            book.context().out().print(lines);
        }
        return Main.DONE;
    }

    private static String named(List<String> ids) {
        return ids.isEmpty() ? "none" : String.join(", ", ids);
    }
}
