package pigmentbook.cli;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Recipe;
import pigmentbook.colour.Srgb;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Opened;
import pigmentbook.tint.Limits;
import pigmentbook.tint.Loading;
import pigmentbook.tint.Loadings;
import pigmentbook.tint.Look;
import pigmentbook.tint.Tints;

/** Foretells how a recipe looks. */
@Command(
        name = "look",
        mixinStandardHelpOptions = true,
        description = "Foretell how a recipe looks at a depth over a backing, and how sure that is.",
        footer = {
            "",
            "Examples:",
            "  pigment-book look ember --depth \"12 mm\" --backing white",
            "  pigment-book look ember@3 --depth \"1/2 in\" --backing 70,6,20 --format json"
        })
final class LookCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Mixin
    private LookOptions options = new LookOptions();

    @Parameters(paramLabel = "RECIPE[@REVISION]", description = "The recipe; without a revision the current one.")
    @SuppressWarnings("NullAway.Init")
    private String recipe;

    @Override
    public Integer call() throws Exception {
        double depthMm = options.depthMm();
        Opened opened = book.open();
        int at = recipe.indexOf('@');
        Recipe found = book.recipe(opened, at < 0 ? recipe : recipe.substring(0, at));
        Recipe.Revision revision = at < 0 ? found.current() : MixCommand.revision(found, recipe.substring(at + 1));
        List<Loading> loadings = Loadings.of(opened.book(), revision);
        Look look = Tints.fit(opened.book(), Optional.empty())
                .look(
                        loadings,
                        revision.resinId(),
                        depthMm,
                        options.backing(opened.book().settings()));
        String srgb = Srgb.hex(look.lab());
        boolean inGamut = Srgb.shows(look.lab());
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeFieldName("lab");
                Colours.write(json, look.lab());
                json.writeStringField("srgb", srgb);
                json.writeBooleanField("in_gamut", inGamut);
                json.writeNumberField("spread_dE00", look.spreadDe00());
                json.writeEndObject();
            });
        } else {
            Lines lines = new Lines(false);
            lines.head(found.name() + ", revision " + revision.number() + ", " + options.words());
            lines.text("L*a*b* " + Colours.text(look.lab()) + ", " + srgb
                    + (inGamut ? "" : " (stronger than a screen shows)"));
            lines.text("Nine of ten fresh readings would lie within ΔE00 " + Numbers.fixed(look.spreadDe00(), 1)
                    + " of that.");
            Limits.of(opened.book(), loadings).forEach(lines::text);
            book.context().out().print(lines);
        }
        book.tellProblems(opened);
        return Main.DONE;
    }
}
