package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;

/** Turning sharing on and off, from this computer's own page. */
final class SharingActs {

    private static final int MOST_TEXT = 60;

    private SharingActs() {}

    static void addTo(JavalinConfig config, Sharing sharing) {
        config.routes.post("/share", context -> {
            try {
                sharing.share(text(context, "name"), Duration.ofHours(hours(context)));
                context.contentType("text/plain; charset=utf-8").result("/bench#h-share");
            } catch (IllegalStateException e) {
                Refusals.tell(context, HttpStatus.UNPROCESSABLE_CONTENT, String.valueOf(e.getMessage()));
            }
        });
        config.routes.post("/share/{number}/end", context -> {
            String number = context.pathParam("number");
            sharing.end(number.matches("[0-9]{1,3}") ? Integer.parseInt(number) : -1);
            context.contentType("text/plain; charset=utf-8").result("/bench#h-share");
        });
    }

    private static String text(Context context, String name) {
        return Acts.text(context, name, MOST_TEXT);
    }

    private static int hours(Context context) {
        String hours = text(context, "hours");
        return hours.matches("[0-9]{1,2}") ? Math.max(1, Integer.parseInt(hours)) : 4;
    }
}
