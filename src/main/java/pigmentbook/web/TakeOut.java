package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import pigmentbook.quantity.Numbers;
import pigmentbook.sheet.BookTables;
import pigmentbook.sheet.SheetWriters;
import pigmentbook.sheet.TableWriter;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.Ids;
import pigmentbook.store.Opened;
import pigmentbook.store.Pack;
import pigmentbook.store.Table;

/** Takes the book, one mix of it, or its tables out as a file; and the page on which that is done. */
public final class TakeOut {

    private static final double BYTES_PER_MB = 1e6;

    private TakeOut() {}

    /** Writes a file that is taken out. */
    private interface Content {
        void write(OutputStream out) throws IOException;
    }

    /** Writes tables as a workbook. */
    private interface Workbook {
        void write(List<Table> tables, OutputStream out) throws IOException;
    }

    static void addTo(JavalinConfig config, LiveBook live, Clock clock) {
        config.routes.get(
                "/bring-and-take",
                context -> Pages.show(context, "bring.jte", Map.of("most", String.valueOf(Handed.MOST_BYTES))));
        config.routes.get("/bring-and-take/would", context -> would(context, live));
        config.routes.get("/bring-and-take/book.zip", context -> {
            Opened opened = live.now();
            Pack pack = Pack.whole(opened.folder(), null);
            send(context, "application/zip", stem(opened, clock) + ".zip", pack::write);
        });
        workbook(config, live, clock, SheetWriters.Format.XLSX, TableWriter::xlsx);
        workbook(config, live, clock, SheetWriters.Format.ODS, TableWriter::ods);
        config.routes.get("/recipes/{id}/pack", context -> mix(context, live));
    }

    private static void workbook(
            JavalinConfig config, LiveBook live, Clock clock, SheetWriters.Format format, Workbook workbook) {
        config.routes.get("/bring-and-take/workbook." + format.extension(), context -> {
            List<Table> tables = BookTables.of(live.now().book());
            String name = stem(live.now(), clock) + "." + format.extension();
            send(context, format.mediaType(), name, out -> workbook.write(tables, out));
        });
    }

    /**
     * One mix: for a pour that is named, what it takes to mix that again; else the recipe with all that belongs to it.
     */
    private static void mix(Context context, LiveBook live) throws IOException {
        Opened opened = live.now();
        String recipe =
                RecipePage.recipe(opened.book(), context.pathParam("id")).id();
        String pour = context.queryParam("pour");
        if (pour == null || pour.isEmpty()) {
            send(context, "application/zip", recipe + ".zip", Pack.of(opened, recipe)::write);
            return;
        }
        pigmentbook.book.Pour poured = opened.book().pours().get(pour);
        if (poured == null || !poured.recipeId().equals(recipe)) {
            throw new NotThereException("This recipe has no such pour.");
        }
        send(context, "application/zip", poured.id() + ".zip", Pack.of(opened, poured.id())::write);
    }

    private static void would(Context context, LiveBook live) throws BookUnavailableException {
        Pack.Would would = Pack.whole(live.now().folder(), null).would();
        String size = Numbers.fixed(would.bytes() / BYTES_PER_MB, 1);
        Pages.show(context, "would.jte", Map.of("files", would.files(), "size", size, "aside", would.setAside()));
    }

    private static String stem(Opened opened, Clock clock) {
        String name = Ids.of(opened.book().settings().name());
        return (name.isEmpty() ? "book" : name) + "-" + LocalDate.now(clock);
    }

    /** Written whole before the first byte is sent, so that a failure is told and never a file cut short. */
    private static void send(Context context, String type, String name, Content content) throws IOException {
        Path file = Files.createTempFile("taken-out", ".tmp");
        boolean whole = false;
        try {
            try (OutputStream out = Files.newOutputStream(file)) {
                content.write(out);
            }
            context.contentType(type)
                    .header("Content-Disposition", "attachment; filename=\"" + name + "\"")
                    .result(Files.newInputStream(file, StandardOpenOption.DELETE_ON_CLOSE));
            whole = true;
        } finally {
            if (!whole) {
                Files.deleteIfExists(file);
            }
        }
    }
}
