package pigmentbook.cli;

import java.awt.Desktop;
import java.io.IOException;
import java.net.URI;
import java.time.Duration;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.web.LiveBook;
import pigmentbook.web.PortTakenException;
import pigmentbook.web.WebServer;

/** Shows the book in the browser of this computer. */
@Command(
        name = "open",
        mixinStandardHelpOptions = true,
        description = "Show the book in the browser, on this computer alone, until Ctrl-C.",
        footer = {
            "",
            "Examples:",
            "  pigment-book open",
            "  pigment-book open --port 8123 --no-browser",
            "  pigment-book --book ~/studio open",
            "  pigment-book open --share"
        })
final class OpenCommand implements Callable<Integer> {

    private static final int MOST_PORT = 65_535;

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Option(names = "--port", paramLabel = "N", description = "Listen here; default: 7717, else the next free one.")
    private @Nullable Integer port;

    @Option(names = "--no-browser", description = "Only tell the address.")
    private boolean noBrowser;

    @Option(
            names = "--share",
            description = "Give a helper's phone a link to the bench and the sheets, for four hours; it is told too.")
    private boolean share;

    @Option(
            names = "--share-address",
            paramLabel = "ADDRESS",
            description = "Share on this address; default: this computer's own on its network.")
    private @Nullable String shareAddress;

    @Override
    public Integer call() throws Exception {
        if (port != null && (port < 0 || port > MOST_PORT)) {
            throw new ParameterException(spec.commandLine(), "--port takes a number from 0 to " + MOST_PORT);
        }
        return serve(book, port, noBrowser, share, shareAddress);
    }

    /** Serves the book until the process is ended. */
    static int serve(
            BookOptions book, @Nullable Integer port, boolean noBrowser, boolean share, @Nullable String shareAddress)
            throws Exception {
        Context context = book.context();
        LiveBook live = new LiveBook(book.folder());
        WebServer server = started(context, live, port, shareAddress);
        try {
            live.awaitOpened();
        } catch (BookUnavailableException e) {
            server.close();
            throw e;
        }
        CountDownLatch ended = new CountDownLatch(1);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> {
            server.close();
            ended.countDown();
        }));
        context.out().println(server.url());
        if (share) {
            shared(context, server);
        }
        context.out().flush();
        if (!noBrowser) {
            browse(server.url());
        }
        ended.await();
        return Main.DONE;
    }

    private static void shared(Context context, WebServer server) {
        try {
            context.out()
                    .println("Bench for a helper, for four hours: "
                            + server.sharing().share("helper", Duration.ofHours(4)));
        } catch (IllegalStateException e) {
            context.err().println(e.getMessage() + " The bench is not shared.");
        }
    }

    private static WebServer started(
            Context context, LiveBook live, @Nullable Integer port, @Nullable String shareAddress) {
        int first = port == null ? WebServer.USUAL_PORT : port;
        try {
            return WebServer.start(live, first, context.clock(), shareAddress);
        } catch (PortTakenException e) {
            if (port != null) {
                throw new RequestException(e.getMessage() + " Name another with --port.");
            }
            context.err().println(e.getMessage() + " Taking a free one.");
            try {
                return WebServer.start(live, 0, context.clock(), shareAddress);
            } catch (PortTakenException none) {
                throw new RequestException("No port is free on this computer. End another program and try again.");
            }
        }
    }

    /** Opens the browser where the system lets a program do that; else the address on the first line is enough. */
    private static void browse(String url) {
        try {
            if (Desktop.isDesktopSupported() && Desktop.getDesktop().isSupported(Desktop.Action.BROWSE)) {
                Desktop.getDesktop().browse(URI.create(url));
            } else {
                new ProcessBuilder("xdg-open", url).start();
            }
        } catch (IOException | UnsupportedOperationException e) {
            return;
        }
    }
}
