package pigmentbook.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import pigmentbook.book.Recipe;
import pigmentbook.mix.Mix;
import pigmentbook.mix.MixRequest;
import pigmentbook.mix.Mixer;
import pigmentbook.store.Opened;

/** Works a recipe out for a mold, a volume or a mass. */
@Command(
        name = "mix",
        mixinStandardHelpOptions = true,
        description = "Work a recipe out: layers, cups, grams, lots, times, what to beware of.",
        footer = {
            "",
            "Examples:",
            "  pigment-book mix ember --mold lamp-panel",
            "  pigment-book mix ember@3 --mold lamp-panel --fill \"3/8 in\" --layers 2",
            "  pigment-book mix ember --use \"part A=500 g\"",
            "  pigment-book mix ember --mold lamp-panel-large --to exports",
            "  pigment-book mix ember --shelf --format json"
        })
final class MixCommand extends MixAnswer {

    @Parameters(paramLabel = "RECIPE[@REVISION]", description = "The recipe; without a revision the current one.")
    @SuppressWarnings("NullAway.Init")
    private String recipe;

    @Override
    Mix mix(Opened opened, MixRequest request) {
        int at = recipe.indexOf('@');
        Recipe found = book.recipe(opened, at < 0 ? recipe : recipe.substring(0, at));
        return Mixer.mix(
                opened.book(), found, at < 0 ? found.current() : revision(found, recipe.substring(at + 1)), request);
    }

    static Recipe.Revision revision(Recipe recipe, String number) {
        StringBuilder there = new StringBuilder();
        for (Recipe.Revision revision : recipe.revisions()) {
            if (String.valueOf(revision.number()).equals(number)) {
                return revision;
            }
            there.append(there.length() == 0 ? "" : ", ").append(revision.number());
        }
        throw new RequestException(
                "The recipe " + recipe.id() + " has no revision \"" + number + "\"; it has " + there + ".");
    }
}
