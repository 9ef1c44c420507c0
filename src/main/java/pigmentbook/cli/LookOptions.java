package pigmentbook.cli;

import java.util.Map;
import picocli.CommandLine.Option;
import pigmentbook.book.Backing;
import pigmentbook.book.Settings;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Length;

/** How a colour is looked at. */
final class LookOptions {

    @Option(names = "--depth", required = true, paramLabel = "D", description = "The depth of the resin: \"12 mm\".")
    @SuppressWarnings("NullAway.Init")
    private String depth;

    @Option(
            names = "--backing",
            required = true,
            paramLabel = "B",
            description = "What lies behind: white, black, wood, or its colour as L,a,b.")
    @SuppressWarnings("NullAway.Init")
    private String backing;

    double depthMm() {
        Length length = MixOptions.amount("--depth", depth, Length::parse);
        if (length == null || !(length.mm() > 0)) {
            throw new RequestException("--depth: \"" + depth + "\" is no depth to look through; give one above 0.");
        }
        return length.mm();
    }

    Backing backing(Settings settings) {
        Map<String, Lab> named = settings.backings();
        String name = backing.strip();
        if (named.containsKey(name) || Settings.BACKINGS.containsKey(name)) {
            return new Backing(name, null);
        }
        try {
            return new Backing(null, ColourText.parse(name));
        } catch (BadAmountException e) {
            throw new RequestException("--backing: \"" + Lines.cut(name, 40).replaceAll("\\p{Cntrl}", "·")
                    + "\" is no backing; white, black, wood or a colour such as 70,6,20 was expected.");
        }
    }

    String words() {
        return depth + " deep over " + backing;
    }
}
