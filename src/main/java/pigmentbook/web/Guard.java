package pigmentbook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * Keeps other web pages out: a request must name this computer as its host (else 421), and one that changes something
 * must carry this process's token and no foreign origin (else 403). Checked before anything else is looked at.
 */
final class Guard {

    /** The header that carries the token. */
    static final String TOKEN = "X-Book-Token";

    private static final int TOKEN_BYTES = 24;

    private final String token;
    private volatile int port;

    Guard() {
        byte[] random = new byte[TOKEN_BYTES];
        new SecureRandom().nextBytes(random);
        token = HexFormat.of().formatHex(random);
    }

    /** Returns the token that the book's own pages send back. */
    String token() {
        return token;
    }

    void port(int port) {
        this.port = port;
    }

    void check(Context context) {
        headers(context);
        String host = context.header("Host");
        if (host == null || !isOurs(host)) {
            stop(context, HttpStatus.MISDIRECTED_REQUEST, "This address is not the book's.");
        } else if (WebServer.changes(context.method().name())) {
            String origin = context.header("Origin");
            boolean foreign = origin != null && !(origin.startsWith("http://") && isOurs(origin.substring(7)));
            if (foreign || !isToken(context.header(TOKEN))) {
                stop(context, HttpStatus.FORBIDDEN, "Only the book's own pages may change it.");
            }
        }
    }

    private boolean isOurs(String host) {
        return host.equals("127.0.0.1:" + port) || host.equals("localhost:" + port);
    }

    boolean isToken(@Nullable String given) {
        return given != null
                && MessageDigest.isEqual(
                        given.getBytes(StandardCharsets.UTF_8), token.getBytes(StandardCharsets.UTF_8));
    }

    static void stop(Context context, HttpStatus status, String text) {
        Refusals.tell(context, status, text);
        context.skipRemainingHandlers();
    }

    static void headers(Context context) {
        context.header(
                "Content-Security-Policy",
                "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self';"
                        + " form-action 'self'; base-uri 'none'; frame-ancestors 'none'");
        context.header("Referrer-Policy", "same-origin");
        context.header("X-Content-Type-Options", "nosniff");
        context.header("Cross-Origin-Resource-Policy", "same-origin");
        context.header("Cache-Control", "no-store");
    }
}
