package pigmentbook.cli;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import pigmentbook.book.Item;
import pigmentbook.mix.MixRequest;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;
import pigmentbook.quantity.WeighingStep;

/** What is wanted of a mix. */
final class MixOptions {

    @Option(names = "--mold", paramLabel = "ID", description = "As much as this mold takes.")
    private @Nullable String mold;

    @Option(names = "--fill", paramLabel = "DEPTH", description = "Fill the mold to this height.")
    private @Nullable String fill;

    @Option(names = "--volume", paramLabel = "V", description = "As much as fills this volume.")
    private @Nullable String volume;

    @Option(names = "--total", paramLabel = "MASS", description = "So much weighed in all.")
    private @Nullable String total;

    @Option(names = "--resin", paramLabel = "MASS", description = "So much part A and part B, pigments on top.")
    private @Nullable String resin;

    @Option(
            names = "--use",
            paramLabel = "ITEM=MASS",
            description = "As much as this mass of one item makes: \"part A=500 g\", \"amber-paste=12 g\".")
    private @Nullable String use;

    @Option(names = "--shelf", description = "As much as the shelf allows.")
    private boolean shelf;

    @Option(names = "--layers", paramLabel = "N", description = "So many layers, equally deep.")
    private @Nullable Integer layers;

    @Option(
            names = "--layer-depths",
            paramLabel = "D,D,…",
            description = "The depth of each layer from below: 6mm,6mm. A semicolon parts them too.")
    private @Nullable String layerDepths;

    @Option(names = "--allowance", paramLabel = "P", description = "Added to a mix by volume.")
    private @Nullable String allowance;

    @Option(names = "--cup", paramLabel = "MASS", description = "The most that goes into one cup.")
    private @Nullable String cup;

    @Option(names = "--cup-residue", paramLabel = "MASS", description = "What stays in each cup.")
    private @Nullable String cupResidue;

    @Option(names = "--step", paramLabel = "MASS", description = "The step of the scale for part A and part B.")
    private @Nullable String step;

    @Option(names = "--fine-step", paramLabel = "MASS", description = "The step of the scale for pigments.")
    private @Nullable String fineStep;

    @Option(names = "--room-temperature", paramLabel = "T", description = "The room: \"24 C\", \"72 F\".")
    private @Nullable String roomTemperature;

    @Option(names = "--humidity", paramLabel = "P", description = "The room's relative humidity.")
    private @Nullable String humidity;

    @Option(
            names = "--lot",
            paramLabel = "LOT",
            description = "Take this lot, whatever its stock or age. May be repeated.")
    private List<String> lots = new ArrayList<>();

    @Option(names = "--on", paramLabel = "DATE", description = "The day used for expiry: 2026-03-31. Default: today.")
    private @Nullable String on;

    /**
     * Returns the request.
     *
     * @throws ParameterException if no size or more than one is given
     * @throws RequestException if an amount can't be read
     */
    MixRequest request(Context context, picocli.CommandLine command) {
        MixRequest.Size size = size(command);
        return new MixRequest(
                size,
                layers,
                depths(),
                amount("--allowance", allowance, Percent::parse),
                amount("--cup", cup, Mass::parse),
                amount("--cup-residue", cupResidue, Mass::parse),
                amount("--step", step, WeighingStep::parse),
                amount("--fine-step", fineStep, WeighingStep::parse),
                amount("--room-temperature", roomTemperature, Temperature::parse),
                amount("--humidity", humidity, Percent::parse),
                List.copyOf(lots),
                on == null ? LocalDate.now(context.clock()) : day(on));
    }

    private MixRequest.Size size(picocli.CommandLine command) {
        int given = (mold == null ? 0 : 1)
                + (volume == null ? 0 : 1)
                + (total == null ? 0 : 1)
                + (resin == null ? 0 : 1)
                + (use == null ? 0 : 1)
                + (shelf ? 1 : 0);
        String all = "--mold, --volume, --total, --resin, --use or --shelf";
        if (given == 0) {
            throw new ParameterException(command, "How much? Give one of " + all);
        }
        if (given > 1) {
            throw new ParameterException(command, "Only one figure can lead; give one of " + all);
        }
        if (fill != null && mold == null) {
            throw new ParameterException(command, "--fill goes with --mold");
        }
        if (mold != null) {
            return new MixRequest.ForMold(mold, amount("--fill", fill, Length::parse));
        }
        if (volume != null) {
            return new MixRequest.ForVolume(need("--volume", volume, Volume::parse));
        }
        if (total != null) {
            return new MixRequest.ForTotal(need("--total", total, Mass::parse));
        }
        if (resin != null) {
            return new MixRequest.ForResin(need("--resin", resin, Mass::parse));
        }
        return use == null ? new MixRequest.ForShelf() : item(command, use);
    }

    private static MixRequest.Size item(picocli.CommandLine command, String use) {
        int equals = use.lastIndexOf('=');
        if (equals <= 0) {
            throw new ParameterException(command, "--use takes an item and its mass, such as \"part A=500 g\"");
        }
        return new MixRequest.ForItem(
                Item.of(use.substring(0, equals).strip()),
                need("--use", use.substring(equals + 1).strip(), Mass::parse));
    }

    /** Splits at semicolons; at commas only where no semicolon stands and no decimal comma is meant. */
    private List<Length> depths() {
        if (layerDepths == null) {
            return List.of();
        }
        String[] parts = layerDepths.contains(";") ? layerDepths.split(";", -1) : layerDepths.split(",", -1);
        List<Length> depths = new ArrayList<>();
        for (String part : parts) {
            String text = part.strip();
            if (!layerDepths.contains(";") && text.matches("[0-9]+")) {
                throw new RequestException("--layer-depths: \"" + layerDepths
                        + "\" can be read two ways. Give each depth its unit, and part them by ; where a comma is the decimal"
                        + " mark.");
            }
            depths.add(need("--layer-depths", text, Length::parse));
        }
        return depths;
    }

    static LocalDate day(String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new RequestException("--on is \"" + text + "\"; a day such as 2026-03-31 was expected.");
        }
    }

    static <T> @Nullable T amount(String option, @Nullable String text, Function<String, T> parse) {
        return text == null ? null : need(option, text, parse);
    }

    private static <T> T need(String option, String text, Function<String, T> parse) {
        try {
            return parse.apply(text);
        } catch (BadAmountException e) {
            throw new RequestException(option + ": " + e.getMessage());
        }
    }

    /** Returns what the files of this mix are called after the recipe. */
    String fileName() {
        if (mold != null) {
            return mold;
        }
        return volume != null ? "volume" : total != null ? "total" : resin != null ? "resin" : shelf ? "shelf" : "use";
    }
}
