package pigmentbook.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The program itself, without a command. */
@Command(
        name = "pigment-book",
        mixinStandardHelpOptions = true,
        versionProvider = PigmentBook.Version.class,
        synopsisSubcommandLabel = "COMMAND",
        description = "The book of a studio that casts pigmented epoxy with wood.",
        footer = {
            "",
            "The book is the folder named by --book, else by PIGMENT_BOOK, else \"recipes\"",
            "under the current folder.",
            "",
            "Examples:",
            "  pigment-book recipes --tag warm",
            "  pigment-book mix ember --mold lamp-panel",
            "  pigment-book mix ember --mold lamp-panel-large --to exports",
            "  pigment-book mix --help",
            "",
            "The product's SDS and TDS and local rules come first."
        })
final class PigmentBook implements Runnable {

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @picocli.CommandLine.Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Override
    public void run() {
        spec.commandLine().usage(book.context().out());
    }

    /** Tells the program's version. */
    static final class Version implements IVersionProvider {
        @Override
        public String[] getVersion() {
            String version = PigmentBook.class.getPackage().getImplementationVersion();
            return new String[] {"pigment-book " + (version == null ? "(not packaged)" : version)};
        }
    }
}
