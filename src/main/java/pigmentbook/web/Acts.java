package pigmentbook.web;

import io.javalin.http.Context;
import java.io.IOException;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.ConflictException;
import pigmentbook.store.SaveFailedException;

/** The one way in which a button's or a form's act is answered: with the address to go to. */
final class Acts {

    private Acts() {}

    /** Something done to the book, after which a page is shown. */
    interface Act {

        /** Does it and returns the address of the page to show. */
        String run() throws SaveFailedException, ConflictException, BookUnavailableException, IOException;
    }

    static void done(Context context, Act act)
            throws SaveFailedException, ConflictException, BookUnavailableException, IOException {
        context.contentType("text/plain; charset=utf-8").result(act.run());
    }

    /** Returns what an address asks for under a name, cut where it is longer than can be meant; else what is usual. */
    static String asked(Context context, String name, String usual, int most) {
        String text = context.queryParam(name);
        return text == null ? usual : cut(text, most);
    }

    /** Returns what a field of a form says, cut where it is longer than can be meant; empty where it is missing. */
    static String text(Context context, String name, int most) {
        String text = context.formParam(name);
        return text == null ? "" : cut(text, most);
    }

    /** Returns a text without spaces around it, cut where it is longer than can be meant. */
    static String cut(String text, int most) {
        String stripped = text.strip();
        return stripped.length() > most ? stripped.substring(0, most) : stripped;
    }
}
