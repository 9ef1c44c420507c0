package pigmentbook.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.PhotoRefusedException;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.sheet.BadTableException;
import pigmentbook.sheet.NoMixSheetException;
import pigmentbook.store.BadPackException;
import pigmentbook.store.BenchLog;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.ConflictException;
import pigmentbook.store.ImportRefusedException;
import pigmentbook.store.SaveFailedException;
import pigmentbook.tint.TintRefusedException;

/**
 * The one way in which a request that can't be met is answered, for every server of the book: who asked for a page is
 * shown a page, who asked for a change is told in plain text, and never with nothing.
 */
final class Refusals {

    /** The header that names where in a record a value is still missing, so that the page asks for it there. */
    private static final String MISSING = "X-Missing";

    private static final String CANNOT_BE_MET = "This can't be met";

    private Refusals() {}

    static void addTo(JavalinConfig config) {
        config.routes.exception(HttpResponseException.class, (e, context) -> unserved(context, e));
        on(config, NotThereException.class, HttpStatus.NOT_FOUND, "Nothing lies here");
        config.routes.exception(SheetEdits.BadRequest.class, (e, context) -> {
            missing(context, e.missing());
            answer(context, HttpStatus.BAD_REQUEST, "This could not be read", String.valueOf(e.getMessage()));
        });
        on(config, ConflictException.class, HttpStatus.CONFLICT, "This was changed meanwhile");
        on(config, BenchLog.OtherPhone.class, HttpStatus.CONFLICT, "This was changed meanwhile");
        on(config, BookUnavailableException.class, HttpStatus.SERVICE_UNAVAILABLE, "The book can't be reached");
        config.routes.exception(SaveFailedException.class, (e, context) -> {
            missing(context, e.missing());
            answer(context, HttpStatus.UNPROCESSABLE_CONTENT, CANNOT_BE_MET, String.valueOf(e.getMessage()));
        });
        cannotBeMet(config, BadAmountException.class);
        cannotBeMet(config, MixRefusedException.class);
        cannotBeMet(config, TintRefusedException.class);
        cannotBeMet(config, PhotoRefusedException.class);
        cannotBeMet(config, BadTableException.class);
        cannotBeMet(config, NoMixSheetException.class);
        cannotBeMet(config, BadPackException.class);
        cannotBeMet(config, ImportRefusedException.class);
        config.routes.exception(
                JsonProcessingException.class,
                (e, context) -> tell(context, HttpStatus.BAD_REQUEST, "This is no JSON. Nothing was changed."));
        config.routes.exception(IOException.class, (e, context) -> {
            if (WebServer.changes(context.method().name())) {
                tell(context, HttpStatus.BAD_REQUEST, "This could not be read. Nothing was changed.");
            } else {
                broken(context, e);
            }
        });
        config.routes.exception(Exception.class, (e, context) -> broken(context, e));
    }

    /** Answers in plain text. */
    static void tell(Context context, HttpStatus status, String text) {
        context.status(status).contentType("text/plain; charset=utf-8").result(text);
    }

    private static <E extends Exception> void cannotBeMet(JavalinConfig config, Class<E> kind) {
        on(config, kind, HttpStatus.UNPROCESSABLE_CONTENT, CANNOT_BE_MET);
    }

    private static <E extends Exception> void on(JavalinConfig config, Class<E> kind, HttpStatus status, String title) {
        config.routes.exception(kind, (e, context) -> answer(context, status, title, String.valueOf(e.getMessage())));
    }

    private static void missing(Context context, @Nullable String path) {
        if (path != null) {
            context.header(MISSING, path);
        }
    }

    private static void broken(Context context, Exception e) {
        answer(
                context,
                HttpStatus.INTERNAL_SERVER_ERROR,
                "Something went wrong",
                "The program could not answer (" + e.getClass().getSimpleName() + "); nothing was changed.");
    }

    /** What the server itself turns away: an address that is none, or too much at once. */
    private static void unserved(Context context, HttpResponseException e) {
        HttpStatus status = HttpStatus.forStatus(e.getStatus());
        String title = status == HttpStatus.NOT_FOUND ? "Nothing lies here" : CANNOT_BE_MET;
        answer(
                context,
                status,
                title,
                switch (status) {
                    case NOT_FOUND -> "This page is not in the book. Go back to the recipes and choose from there.";
                    case CONTENT_TOO_LARGE ->
                        "This is more than the 1 MB that is taken at once. Send less at a time. Nothing was changed.";
                    default -> String.valueOf(e.getMessage());
                });
    }

    private static void answer(Context context, HttpStatus status, String title, String text) {
        if (WebServer.changes(context.method().name())) {
            tell(context, status, text);
        } else {
            context.status(status).contentType("text/html; charset=utf-8").result(Pages.told(title, text));
        }
    }
}
