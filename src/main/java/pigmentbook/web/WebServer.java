package pigmentbook.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.util.JavalinException;
import java.time.Clock;
import java.util.Set;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.atomic.AtomicBoolean;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.jspecify.annotations.Nullable;
import pigmentbook.sheet.SheetWriters;

/**
 * Serves the book to a browser on this computer, and to nobody else: it listens on 127.0.0.1, answers only to that
 * name, and takes a change only from its own pages.
 */
public final class WebServer implements AutoCloseable {

    /** The port that is tried first. */
    public static final int USUAL_PORT = 7717;

    private static final int MOST_THREADS = 16;
    private static final int LEAST_THREADS = 4;
    private static final int IDLE_MS = 60_000;
    private static final long MOST_REQUEST_BYTES = 1024 * 1024;
    private static final long STOP_MS = 2000;
    private static final Set<String> CHANGING = Set.of("POST", "PUT", "PATCH", "DELETE");

    private final Javalin javalin;
    private final Sharing sharing;

    private WebServer(Javalin javalin, Sharing sharing) {
        this.javalin = javalin;
        this.sharing = sharing;
    }

    /**
     * Starts serving.
     *
     * @param book the book
     * @param port the port, or 0 for any free one
     * @param clock what day and time it is
     * @throws PortTakenException if the port is taken
     */
    public static WebServer start(LiveBook book, int port, Clock clock) throws PortTakenException {
        return start(book, port, clock, null);
    }

    /**
     * Starts serving.
     *
     * @param shareOn the address on which the bench is shared once that is turned on, or null for this computer's own
     * @throws PortTakenException if the port is taken
     */
    public static WebServer start(LiveBook book, int port, Clock clock, @Nullable String shareOn)
            throws PortTakenException {
        Guard guard = new Guard();
        Sharing sharing = new Sharing(clock, shareOn, (config, own) -> {
            Assets.addTo(config);
            config.routes.get(
                    "/token", context -> context.contentType("text/plain").result(own.token()));
            config.routes.get("/", context -> context.redirect("/bench"));
            config.routes.get("/bench", context -> PourPage.list(context, book, clock, own));
            BenchPage.addForHelpersTo(config, book, clock);
            MixSheets.addTo(config, book, clock);
            Refusals.addTo(config);
        });
        Javalin javalin = Javalin.create(config -> configure(config, port, guard, book, clock, sharing));
        try {
            javalin.start();
        } catch (RuntimeException e) {
            javalin.stop();
            throw new PortTakenException(port);
        }
        guard.port(javalin.port());
        return new WebServer(javalin, sharing);
    }

    private static void configure(
            JavalinConfig config, int port, Guard guard, LiveBook book, Clock clock, Sharing sharing) {
        basics(config, "127.0.0.1", port);
        config.routes.before(guard::check);
        // The xlsx library is loaded once a first page was shown, so that neither waits for the other.
        AtomicBoolean shown = new AtomicBoolean();
        config.routes.after("/recipes*", context -> {
            if (shown.compareAndSet(false, true)) {
                SheetWriters.prepare(SheetWriters.Format.XLSX);
                Thread calm = new Thread(Memory::giveBackWhenIdle, "give memory back");
                calm.setDaemon(true);
                calm.start();
            }
        });
        config.routes.get("/", context -> context.redirect("/recipes"));
        Assets.addTo(config);
        // Only a page of this origin can read the answer, so only it can send the token back.
        config.routes.get("/token", context -> context.contentType("text/plain").result(guard.token()));
        LiveTints tints = new LiveTints();
        RecipesPage.addTo(config, book, tints, clock);
        RecipeActs.addTo(config, book, clock);
        SheetEdits.addTo(config, book, clock);
        RecipePage.addTo(config, book, tints, clock);
        NewRevision.addTo(config, book, clock);
        MixPage.addTo(config, book, tints, clock);
        BenchPage.addTo(config, book, clock);
        PourPage.addTo(config, book, tints, clock, sharing);
        PhotoReadings.addTo(config);
        SharingActs.addTo(config, sharing);
        ReadBackPage.addTo(config, book);
        BringIn.addTo(config, book, clock);
        TakeOut.addTo(config, book, clock);
        Looks.addTo(config, book, tints);
        TintsPage.addTo(config, book, tints, clock);
        MatchPage.addTo(config, book, tints, clock);
        MoldsPage.addTo(config, book);
        ShelfPage.addTo(config, book, clock);
        StudioPage.addTo(config, book);
        LotPage.addTo(config, book, clock);
        Refusals.addTo(config);
    }

    /** What holds for every server of the book: where it listens, how much it takes, how it stops. */
    static void basics(JavalinConfig config, String host, int port) {
        config.startup.showJavalinBanner = false;
        config.jetty.host = host;
        config.jetty.port = port;
        // The queue the pool would make for itself asks the machine for its cache lines through JMX, which takes a
        // tenth of the whole start.
        config.jetty.threadPool =
                new QueuedThreadPool(MOST_THREADS, LEAST_THREADS, IDLE_MS, new LinkedBlockingQueue<>());
        config.jetty.multipartConfig.maxTotalRequestSize(MOST_REQUEST_BYTES, io.javalin.config.SizeUnit.BYTES);
        config.jetty.modifyServer(server -> server.setStopTimeout(STOP_MS));
        config.http.maxRequestSize = MOST_REQUEST_BYTES;
    }

    /** Returns what shares the bench with helpers. */
    public Sharing sharing() {
        return sharing;
    }

    /** Returns the address to open. */
    public String url() {
        return "http://127.0.0.1:" + javalin.port() + "/";
    }

    @Override
    public void close() {
        sharing.close();
        try {
            javalin.stop();
        } catch (JavalinException e) {
            // A request that is still open is not waited for any longer; all else is stopped.
            System.getLogger(WebServer.class.getName()).log(System.Logger.Level.DEBUG, "stopped in haste", e);
        }
    }

    /** Returns whether a method changes something. */
    static boolean changes(String method) {
        return CHANGING.contains(method);
    }
}
