package pigmentbook.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import pigmentbook.book.Recipe;
import pigmentbook.store.BookFolder;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.web.LiveBook;
import pigmentbook.web.PortTakenException;
import pigmentbook.web.WebServer;

/**
 * Goes through what people do most, once and for nobody, so that the virtual machine can keep what it prepared for it
 * and later starts are quick. It reads the book it is given and writes nothing.
 */
final class Rehearsal {

    private Rehearsal() {}

    /** Rehearses with the book whose folder is named. */
    public static void main(String[] args) throws IOException, BookUnavailableException, PortTakenException {
        Path folder = Path.of(args[0]);
        PrintStream nobody = new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
        Context context = new Context(nobody, nobody, Map.of(), Clock.system(ZoneId.systemDefault()), folder, false);
        LiveBook book = new LiveBook(folder);
        book.awaitOpened();
        Recipe recipe = new BookFolder(folder)
                .open()
                .book()
                .recipes()
                .values()
                .iterator()
                .next();
        Main.run(context, "--book", folder.toString(), "mix", recipe.id(), "--total", "500 g", "--format", "json");
        try (WebServer server = WebServer.start(book, 0, context.clock())) {
            String page = "recipes/" + recipe.id();
            for (String path :
                    List.of("recipes", page, page + "/mix", page + "/sheet/xlsx", "molds", "shelf", "tints", "bench")) {
                try (InputStream answer =
                        URI.create(server.url() + path).toURL().openStream()) {
                    answer.transferTo(OutputStream.nullOutputStream());
                }
            }
        }
    }
}
