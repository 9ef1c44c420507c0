package pigmentbook.cli;

import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.Opened;
import pigmentbook.store.Pack;
import pigmentbook.store.SetAside;

/** Packs the book into one file. */
@Command(
        name = "pack",
        mixinStandardHelpOptions = true,
        description = {
            "Pack the whole book, or what one recipe or pour needs, into one zip file,",
            "byte for byte. Photos and papers go along; names that begin with a dot don't."
        },
        footer = {
            "",
            "Examples:",
            "  pigment-book pack workshop.zip",
            "  pigment-book pack workshop.zip --replace",
            "  pigment-book pack ember.zip --recipe ember",
            "  pigment-book pack repeat.zip --mix 2026-11-18-ember-1"
        })
final class PackCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "FILE", description = "The zip file to write.")
    @SuppressWarnings("NullAway.Init")
    private Path file;

    @ArgGroup
    private @Nullable Part part;

    @Option(names = "--replace", description = "Write over FILE if it is there.")
    private boolean replace;

    /** What of the book. */
    static final class Part {
        @Option(
                names = "--recipe",
                paramLabel = "ID",
                description = "One recipe with its resins, pigments, their lots, its pours and their molds.")
        private @Nullable String recipe;

        @Option(
                names = "--mix",
                paramLabel = "POUR-or-RECIPE",
                description = "What it takes to mix that again: for a pour its recipe, lots and mold.")
        private @Nullable String mix;
    }

    @Override
    public Integer call() throws Exception {
        Path to = book.context().here().resolve(file);
        Exports.requireFree(to, replace);
        Pack pack = part == null ? Pack.whole(book.folder(), to) : chosen(part);
        AtomicReference<Pack.@Nullable Packed> written = new AtomicReference<>();
        Exports.writeWhole(to, replace, out -> written.set(pack.write(out)));
        Pack.Packed packed = written.get();
        if (packed == null) {
            throw new IllegalStateException("a pack that was written says what is in it");
        }
        tell(to, packed);
        return Main.DONE;
    }

    private Pack chosen(Part part) throws BookUnavailableException {
        Opened opened = book.open();
        if (part.recipe != null) {
            return Pack.of(opened, book.recipe(opened, part.recipe).id());
        }
        String id = String.valueOf(part.mix);
        Set<String> known = new TreeSet<>(opened.book().recipes().keySet());
        known.addAll(opened.book().pours().keySet());
        if (!known.contains(id)) {
            throw book.unknown(opened, "recipe or pour", id, id + ".json", known);
        }
        return Pack.of(opened, id);
    }

    private void tell(Path to, Pack.Packed packed) {
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeStringField("file", to.toString());
                Json.texts(json, "packed", packed.files());
                UnpackCommand.setAside(json, packed.setAside());
                json.writeEndObject();
            });
            return;
        }
        Lines lines = new Lines(false);
        lines.text(packed.files().size() + " files packed into " + to.getFileName() + ".");
        for (SetAside each : packed.setAside()) {
            lines.hanging("Set aside: ", each.file() + ". " + each.why());
        }
        book.context().out().print(lines);
    }
}
