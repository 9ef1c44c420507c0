package pigmentbook.cli;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import pigmentbook.book.Mold;
import pigmentbook.book.NearIds;
import pigmentbook.book.Recipe;
import pigmentbook.store.BookFolder;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.Opened;
import pigmentbook.store.Problem;

/** Which book, and what every command needs of it. */
final class BookOptions {

    private static final long SHOW_PROGRESS_AFTER_MS = 500;
    private static final int SHOW_PROGRESS_EVERY = 1000;

    private final Context context;

    @Option(names = "--book", paramLabel = "DIR", description = "The book's folder.")
    private @Nullable Path folder;

    BookOptions(Context context) {
        this.context = context;
    }

    Context context() {
        return context;
    }

    /** Returns the book's folder. */
    Path folder() {
        String named = context.env().getOrDefault("PIGMENT_BOOK", "");
        return folder != null
                ? context.here().resolve(folder)
                : context.here().resolve(named.isEmpty() ? Path.of("recipes") : Path.of(named));
    }

    /** Opens the book; tells on standard error how far it is where that takes long and a person looks on. */
    Opened open() throws BookUnavailableException {
        if (!context.terminal()) {
            return new BookFolder(folder()).open();
        }
        long start = context.clock().millis();
        java.util.concurrent.atomic.AtomicBoolean shown = new java.util.concurrent.atomic.AtomicBoolean();
        Opened opened = new BookFolder(folder()).open(files -> {
            if (files % SHOW_PROGRESS_EVERY == 0 && context.clock().millis() - start > SHOW_PROGRESS_AFTER_MS) {
                shown.set(true);
                context.err().print("\r" + files + " files read");
            }
        });
        if (shown.get()) {
            context.err().print("\r                         \r");
        }
        return opened;
    }

    /** Tells on standard error that files of the book could not be read. */
    void tellProblems(Opened opened) {
        List<Problem> problems = opened.problems();
        if (!problems.isEmpty()) {
            context.err()
                    .println(
                            problems.size() == 1
                                    ? "1 file of the book could not be read; \"pigment-book check\" tells why."
                                    : problems.size()
                                            + " files of the book could not be read; \"pigment-book check\" tells why.");
        }
    }

    /**
     * Returns a recipe.
     *
     * @throws RequestException if there is none, naming the nearest ones or what is wrong with its file
     */
    Recipe recipe(Opened opened, String id) {
        Recipe recipe = opened.book().recipes().get(id);
        if (recipe == null) {
            throw unknown(
                    opened, "recipe", id, id + ".json", opened.book().recipes().keySet());
        }
        return recipe;
    }

    /**
     * Returns a mold.
     *
     * @throws RequestException if there is none, naming the nearest ones or what is wrong with its file
     */
    Mold mold(Opened opened, String id) {
        Mold mold = opened.book().molds().get(id);
        if (mold == null) {
            throw unknown(
                    opened,
                    "mold",
                    id,
                    "molds/" + id + ".json",
                    opened.book().molds().keySet());
        }
        return mold;
    }

    /** Returns what to say of an id that the book lacks. */
    RequestException unknown(Opened opened, String what, String id, String file, java.util.Set<String> known) {
        Problem problem = opened.problemOf(file);
        if (problem != null) {
            return new RequestException(CheckCommand.shown(problem));
        }
        String cut = id.length() > 64 ? id.substring(0, 64) + "…" : id;
        return new RequestException("There is no " + what + " \"" + cut.replaceAll("\\p{Cntrl}", "·")
                + "\" in the book." + NearIds.hint(id, known));
    }
}
