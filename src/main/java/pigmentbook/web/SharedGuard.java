package pigmentbook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/**
 * Lets a helper's phone in by its link and nobody else: the link's token is kept in a cookie that no script can read, a
 * wrong one is answered ever more slowly, and a change must come from a page of this address.
 */
final class SharedGuard {

    private static final String COOKIE = "bench";
    private static final long FIRST_WAIT_MS = 100;
    private static final long LONGEST_WAIT_MS = 3_000;
    private static final int MOST_DOUBLINGS = 5;

    private final Sharing sharing;
    private final String host;
    private final Guard guard = new Guard();
    private final AtomicInteger wrong = new AtomicInteger();
    private volatile int port;

    SharedGuard(Sharing sharing, String host) {
        this.sharing = sharing;
        this.host = host;
    }

    void port(int port) {
        this.port = port;
    }

    String base() {
        return "http://" + host + ":" + port;
    }

    /** Returns the token that the pages of this address send back with a change. */
    String token() {
        return guard.token();
    }

    void check(Context context) {
        Guard.headers(context);
        if (!(host + ":" + port).equals(context.header("Host"))) {
            Guard.stop(context, HttpStatus.MISDIRECTED_REQUEST, "This address is not the bench's.");
            return;
        }
        String path = context.path();
        boolean link = path.startsWith("/share/");
        String token = link ? path.substring("/share/".length()) : context.cookie(COOKIE);
        String name = sharing.use(token);
        if (name == null) {
            slow(token);
            Guard.stop(
                    context,
                    HttpStatus.FORBIDDEN,
                    "This link is not one of the bench's, or its time is over. Ask for a new one.");
            return;
        }
        Sharing.mark(context, name);
        if (link) {
            context.header("Set-Cookie", COOKIE + "=" + token + "; Path=/; HttpOnly; SameSite=Strict; Max-Age=86400");
        } else if (WebServer.changes(context.method().name())) {
            String origin = context.header("Origin");
            boolean foreign = origin != null && !origin.equals(base());
            if (foreign || !guard.isToken(context.header(Guard.TOKEN))) {
                Guard.stop(context, HttpStatus.FORBIDDEN, "Only the bench's own pages may change it.");
            }
        }
    }

    /**
     * Guessing gets slower with each try; a phone whose link just ended, which sends the same again, waits no longer.
     */
    private void slow(@Nullable String token) {
        if (token == null) {
            return;
        }
        int tries = Math.min(MOST_DOUBLINGS, wrong.getAndIncrement());
        try {
            Thread.sleep(Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS << tries));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
