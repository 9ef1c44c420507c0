package pigmentbook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.ConflictException;
import pigmentbook.store.SaveFailedException;
import pigmentbook.tint.TintRefusedException;

/** The one way in which a button's or a form's act is answered: with the address to go to, else with what is wrong. */
final class Acts {

    private Acts() {}

    /** Something done to the book, after which a page is shown. */
    interface Act {

        /** Does it and returns the address of the page to show. */
        String run() throws SaveFailedException, ConflictException, BookUnavailableException, IOException;
    }

    static void done(Context context, Act act) throws BookUnavailableException {
        context.contentType("text/plain; charset=utf-8");
        try {
            context.result(act.run());
        } catch (SaveFailedException | BadAmountException | MixRefusedException | TintRefusedException e) {
            told(context, HttpStatus.UNPROCESSABLE_CONTENT, e);
        } catch (ConflictException e) {
            told(context, HttpStatus.CONFLICT, e);
        } catch (IOException e) {
            context.status(HttpStatus.BAD_REQUEST).result("This could not be read. Nothing was changed.");
        }
    }

    private static void told(Context context, HttpStatus status, Exception e) {
        context.status(status).result(String.valueOf(e.getMessage()));
    }

    /** Returns what a field of a form says, cut where it is longer than can be meant; empty where it is missing. */
    static String text(Context context, String name, int most) {
        String text = context.formParam(name);
        return text == null ? "" : text.length() > most ? text.substring(0, most) : text.strip();
    }
}
