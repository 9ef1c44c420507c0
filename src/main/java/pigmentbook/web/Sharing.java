package pigmentbook.web;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/**
 * Sharing the bench with a helper's phone: off until it is turned on, for a time, by links that each have a name and
 * can be ended. A second server listens on one address of the network and knows the bench and the sheets only; the book
 * itself stays on 127.0.0.1.
 */
public final class Sharing implements AutoCloseable {

    private static final String SHARED = "shared";
    private static final int TOKEN_BYTES = 18;
    private static final int MOST_LINKS = 20;
    private static final Duration LONGEST = Duration.ofHours(24);

    private final Clock clock;
    private final @Nullable String address;
    private final Routes routes;
    private final SecureRandom random = new SecureRandom();
    private final List<Link> links = new CopyOnWriteArrayList<>();
    private int given;
    private @Nullable Javalin server;
    private volatile @Nullable SharedGuard guard;

    /** Adds the routes that a helper may use. */
    interface Routes {
        void addTo(io.javalin.config.JavalinConfig config, Sharing sharing);
    }

    /**
     * Makes it ready, turned off.
     *
     * @param address the address to listen on, or null for this computer's own on its network
     */
    Sharing(Clock clock, @Nullable String address, Routes routes) {
        this.clock = clock;
        this.address = address;
        this.routes = routes;
    }

    /** A link that was given away. */
    private static final class Link {
        private final int number;
        private final String name;
        private final String token;
        private final Instant until;
        private final AtomicInteger uses = new AtomicInteger();
        private volatile @Nullable Instant seen;

        private Link(int number, String name, String token, Instant until) {
            this.number = number;
            this.name = name;
            this.token = token;
            this.until = until;
        }
    }

    /** A link as the page shows it. */
    public record Shown(int number, String name, String url, String qr, String until, String seen) {}

    /** Returns whether a request came by a link that was given to a helper. */
    static boolean isShared(Context context) {
        return context.attribute(SHARED) != null;
    }

    /**
     * Turns it on for one more helper.
     *
     * @param name whose link it is
     * @param time how long it holds, at most a day
     * @return the link
     * @throws IllegalStateException if this computer is on no network, or has given too many links away
     */
    public synchronized String share(String name, Duration time) {
        links.removeIf(link -> clock.instant().isAfter(link.until));
        if (links.size() >= MOST_LINKS) {
            throw new IllegalStateException("There are " + MOST_LINKS + " links already. End one first.");
        }
        byte[] bytes = new byte[TOKEN_BYTES];
        random.nextBytes(bytes);
        String token = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
        Duration held = time.compareTo(LONGEST) > 0 ? LONGEST : time;
        String base = started();
        Link link = new Link(
                ++given,
                name.isBlank() ? "helper" : name.strip(),
                token,
                clock.instant().plus(held));
        links.add(link);
        return base + "/share/" + token;
    }

    private String started() {
        if (server == null) {
            String host = address == null ? ownAddress() : address;
            SharedGuard fresh = new SharedGuard(this, host);
            Javalin made = Javalin.create(config -> {
                WebServer.basics(config, host, 0);
                config.routes.before(fresh::check);
                config.routes.get("/share/{token}", context -> context.redirect("/bench"));
                routes.addTo(config, this);
            });
            made.start();
            fresh.port(made.port());
            server = made;
            guard = fresh;
        }
        return guard == null ? "" : guard.base();
    }

    /**
     * Ends a link; its phone can do nothing more. Without any link nothing listens on the network any more.
     *
     * @param number the link's own number, which no other link ever has: a page that was shown earlier ends no other
     */
    public synchronized void end(int number) {
        links.removeIf(link -> link.number == number);
        if (links.isEmpty()) {
            close();
        }
    }

    /** Returns the token that the shared pages send back with a change. */
    String token() {
        SharedGuard own = guard;
        return own == null ? "" : own.token();
    }

    /** Returns whose link a token is, or null where it is none, or ended, or its time is over. */
    @Nullable
    String use(@Nullable String token) {
        if (token == null) {
            return null;
        }
        byte[] given = token.getBytes(StandardCharsets.UTF_8);
        String name = null;
        for (Link link : links) {
            boolean same = MessageDigest.isEqual(given, link.token.getBytes(StandardCharsets.UTF_8));
            if (same && !clock.instant().isAfter(link.until)) {
                name = link.name;
                link.seen = clock.instant();
                link.uses.incrementAndGet();
            }
        }
        return name;
    }

    /** Marks a request as a helper's. */
    static void mark(Context context, String name) {
        context.attribute(SHARED, name);
    }

    /** Returns the links there are. */
    synchronized List<Shown> links() {
        List<Shown> shown = new ArrayList<>();
        String base = guard == null ? "" : guard.base();
        for (Link link : links) {
            Instant seen = link.seen;
            String url = base + "/share/" + link.token;
            boolean over = clock.instant().isAfter(link.until);
            shown.add(new Shown(
                    link.number,
                    link.name,
                    url,
                    qr(url),
                    over ? "over" : "until " + time(link.until, clock.getZone()),
                    seen == null
                            ? "not used yet"
                            : "last used " + time(seen, clock.getZone()) + ", " + link.uses + " times"));
        }
        return shown;
    }

    private static String time(Instant instant, ZoneId zone) {
        String text = instant.atZone(zone).toLocalDateTime().toString();
        return text.substring(0, Math.min(16, text.length())).replace('T', ' ');
    }

    /** Draws a link as a QR code (ISO/IEC 18004), as SVG; dark on light in every theme, for a camera needs that. */
    static String qr(String url) {
        try {
            BitMatrix matrix = new QRCodeWriter().encode(url, BarcodeFormat.QR_CODE, 0, 0);
            StringBuilder path = new StringBuilder();
            for (int y = 0; y < matrix.getHeight(); y++) {
                for (int x = 0; x < matrix.getWidth(); x++) {
                    if (matrix.get(x, y)) {
                        path.append('M').append(x).append(' ').append(y).append("h1v1h-1z");
                    }
                }
            }
            return "<svg class=\"qr\" viewBox=\"0 0 " + matrix.getWidth() + " " + matrix.getHeight()
                    + "\" role=\"img\" aria-label=\"QR code of the link\"><rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>"
                    + "<path fill=\"#000000\" d=\"" + path + "\"/></svg>";
        } catch (WriterException e) {
            return "";
        }
    }

    /** Returns this computer's own address on its network. */
    private static String ownAddress() {
        try {
            for (NetworkInterface each : Collections.list(NetworkInterface.getNetworkInterfaces())) {
                if (each.isUp() && !each.isLoopback()) {
                    for (InetAddress own : Collections.list(each.getInetAddresses())) {
                        if (own instanceof Inet4Address && own.isSiteLocalAddress()) {
                            return own.getHostAddress();
                        }
                    }
                }
            }
        } catch (SocketException e) {
            throw new IllegalStateException("This computer does not tell its networks, so nothing can be shared.", e);
        }
        throw new IllegalStateException(
                "This computer is on no network that a phone could reach. Join the workshop's network, or take the sheet on"
                        + " paper.");
    }

    @Override
    public synchronized void close() {
        links.clear();
        Javalin running = server;
        server = null;
        guard = null;
        if (running != null) {
            running.stop();
        }
    }
}
