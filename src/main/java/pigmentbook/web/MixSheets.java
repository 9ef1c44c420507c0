package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.Clock;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.mix.Mix;
import pigmentbook.sheet.MixSheet;
import pigmentbook.sheet.Paper;
import pigmentbook.sheet.SheetIds;
import pigmentbook.sheet.SheetInfo;
import pigmentbook.sheet.SheetWriters;

/** The sheets of a mix, as files or as pages to print; a helper's phone may see them too. */
final class MixSheets {

    private MixSheets() {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.get(
                "/recipes/{id}/sheet/{format}",
                context -> one(context, book.now().book(), clock));
        config.routes.get(
                "/recipes/{id}/chips", context -> chips(context, book.now().book(), clock));
    }

    private static void one(Context context, Book book, Clock clock) throws IOException {
        Recipe recipe = RecipePage.recipe(book, context.pathParam("id"));
        SheetWriters.Format format;
        try {
            format = SheetWriters.Format.valueOf(context.pathParam("format").toUpperCase(Locale.ROOT));
        } catch (IllegalArgumentException e) {
            throw new NotThereException("A sheet comes as xlsx, ods, csv or html.");
        }
        Mix mix = MixPage.mix(context, book, clock, recipe);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        SheetWriters.write(format, sheet(mix, clock), out);
        if (format == SheetWriters.Format.HTML) {
            show(context, out);
        } else {
            String mold = mix.mold() == null ? "mix" : mix.mold().id();
            context.contentType(format.mediaType())
                    .header(
                            "Content-Disposition",
                            "attachment; filename=\"" + recipe.id() + "-" + mold + "." + format.extension() + "\"")
                    .result(out.toByteArray());
        }
    }

    /** Shows a sheet for each chip of a recipe of sample chips, to be printed in one go. */
    private static void chips(Context context, Book book, Clock clock) throws IOException {
        Recipe recipe = RecipePage.recipe(book, context.pathParam("id"));
        if (!recipe.tags().contains(ColourCards.CHIPS)) {
            throw new NotThereException(recipe.name() + " is no recipe of sample chips.");
        }
        List<MixSheet> sheets = new ArrayList<>();
        for (Recipe.Revision each : recipe.revisions()) {
            sheets.add(sheet(MixPage.mix(context, book, clock, recipe, each), clock));
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        SheetWriters.writePages(sheets, out);
        show(context, out);
    }

    private static MixSheet sheet(Mix mix, Clock clock) {
        return MixSheet.of(
                mix,
                new SheetInfo(
                        SheetIds.next(clock, mix.recipe().id()),
                        LocalDateTime.now(clock).withNano(0),
                        "",
                        Paper.A4));
    }

    private static void show(Context context, ByteArrayOutputStream page) {
        context.contentType(SheetWriters.Format.HTML.mediaType())
                .header(
                        "Content-Security-Policy",
                        "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'")
                .result(page.toByteArray());
    }
}
