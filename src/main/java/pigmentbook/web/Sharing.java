package pigmentbook.web;

import io.javalin.http.Context;

/** Sharing the bench with a helper's phone. */
public final class Sharing {

    private static final String SHARED = "shared";

    private Sharing() {}

    /** A link as it is shown. */
    public record Shown(String name) {}

    static java.util.List<Shown> links() {
        return java.util.List.of();
    }

    /** Returns whether a request came by a link that was given to a helper. */
    static boolean isShared(Context context) {
        return context.attribute(SHARED) != null;
    }
}
