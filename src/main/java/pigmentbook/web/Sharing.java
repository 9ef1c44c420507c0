package pigmentbook.web;

import io.javalin.http.Context;

/** Sharing the bench with a helper's phone. */
final class Sharing {

    private static final String SHARED = "shared";

    private Sharing() {}

    /** Returns whether a request came by a link that was given to a helper. */
    static boolean isShared(Context context) {
        return context.attribute(SHARED) != null;
    }
}
