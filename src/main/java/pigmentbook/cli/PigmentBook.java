package pigmentbook.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;

/** The program itself, without a command. */
@Command(
        name = "pigment-book",
        mixinStandardHelpOptions = true,
        versionProvider = PigmentBook.Version.class,
        synopsisSubcommandLabel = "COMMAND",
        description =
                "The book of a studio that casts pigmented epoxy with wood. Without a command it opens in the browser.",
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
final class PigmentBook implements Callable<Integer> {

    @picocli.CommandLine.Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    /** Without a command the page opens. */
    @Override
    public Integer call() throws Exception {
        return OpenCommand.serve(book, null, false, false, null);
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
