package pigmentbook.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Pour;
import pigmentbook.mix.AsPoured;
import pigmentbook.mix.Mix;
import pigmentbook.mix.MixRequest;
import pigmentbook.store.BookWriter;
import pigmentbook.store.ConflictException;
import pigmentbook.store.KeptPour;
import pigmentbook.store.Opened;
import pigmentbook.store.SaveFailedException;

/** Works a pour out again, as it was really weighed. */
@Command(
        name = "again",
        mixinStandardHelpOptions = true,
        description = {
            "Make a pour again: its percents as really weighed, worked out for a new size from today's lots.",
            "The resin keeps its own ratio. What is not the same as then is told."
        },
        footer = {
            "",
            "Examples:",
            "  pigment-book again 2026-03-02-ember-1 --mold lamp-panel",
            "  pigment-book again 2026-03-02-ember-1 --layer 1 --total \"500 g\"",
            "  pigment-book again 2026-03-02-ember-1 --mold lamp-panel --keep --why \"the one that was liked\""
        })
final class AgainCommand extends MixAnswer {

    @Parameters(paramLabel = "POUR", description = "The pour; a recipe's pours are listed by \"recipe\".")
    @SuppressWarnings("NullAway.Init")
    private String pour;

    @Option(names = "--layer", paramLabel = "N", description = "Only this layer of the pour, from 1 at the floor.")
    private @Nullable Integer layer;

    @Option(names = "--keep", description = "Keep it as a new revision of its recipe too, with a link to the pour.")
    private boolean keep;

    @Option(names = "--why", paramLabel = "TEXT", description = "Why it is kept.")
    private @Nullable String why;

    @Override
    Mix mix(Opened opened, MixRequest request) {
        Pour found = opened.book().pours().get(pour);
        if (found == null) {
            throw book.unknown(
                    opened,
                    "pour",
                    pour,
                    "pours/" + pour.substring(0, Math.min(4, pour.length())) + "/" + pour + ".json",
                    opened.book().pours().keySet());
        }
        AsPoured asPoured = AsPoured.of(opened.book(), found, layer);
        Mix mix = asPoured.mix(opened.book(), request);
        if (keep) {
            keep(opened, asPoured, request);
        }
        return mix;
    }

    private void keep(Opened opened, AsPoured asPoured, MixRequest request) {
        try {
            int number = KeptPour.keep(new BookWriter(opened.folder()), asPoured, why == null ? "" : why, request.on());
            book.context()
                    .err()
                    .println("Kept as revision " + number + " of "
                            + asPoured.recipe().id() + ".");
        } catch (SaveFailedException | ConflictException e) {
            throw new RequestException(String.valueOf(e.getMessage()));
        }
    }
}
