package pigmentbook.tint;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;
import pigmentbook.store.BookFolder;
import pigmentbook.store.BookWriter;
import pigmentbook.store.Kind;

/**
 * Writes the readings of the demo book: every colour in it is simulated and none was measured. Each made-up pigment has
 * a smooth spectrum of absorption and scattering at 41 wavelengths (below); a reading is the layer of Kubelka and Munk
 * over its backing, seen through Saunderson's face, under the CIE 1931 observer and D65, with a scatter of 0.15 in each
 * of L*, a*, b* for a colour meter and 0.5 for a photo. The chips of each pigment, 3 mm over white and black, are made
 * too.
 *
 * <p>Run it after the demo's pours or pigments change; the same book gives the same readings.
 */
public final class DemoReadings {

    private static final double K2 = 0.55;
    private static final double METER = 0.15;
    private static final double PHOTO = 0.5;
    private static final int[] CHIPS = {2, 3};

    /** Absorption and scattering for each percent and millimetre, by wavelength in nm. */
    private record Spectrum(DoubleUnaryOperator k, DoubleUnaryOperator s) {}

    private static final Map<String, Spectrum> SPECTRA = new LinkedHashMap<>();

    static {
        SPECTRA.put("amber-paste", new Spectrum(nm -> 0.002 + 0.30 * below(nm, 520, 20), nm -> 0.012 * 550 / nm));
        SPECTRA.put("copper-mica", new Spectrum(nm -> 0.004 + 0.09 * below(nm, 575, 26), nm -> 0.06));
        SPECTRA.put("rust-paste", new Spectrum(nm -> 0.003 + 0.20 * below(nm, 578, 18), nm -> 0.03 * 600 / nm));
        SPECTRA.put("smoke-paste", new Spectrum(nm -> 0.10 * Math.pow(550 / nm, 0.5), nm -> 0.006));
        SPECTRA.put("honey-dye", new Spectrum(nm -> 0.008 + 0.9 * below(nm, 488, 18), nm -> 0.003));
        SPECTRA.put("ivory-paste", new Spectrum(nm -> 0.008 + 0.04 * below(nm, 450, 22), nm -> 1.1 * 550 / nm));
        SPECTRA.put("brick-powder", new Spectrum(nm -> 0.02 + 0.7 * below(nm, 580, 16), nm -> 0.40));
        SPECTRA.put("ochre-powder", new Spectrum(nm -> 0.03 + 0.7 * below(nm, 522, 17), nm -> 0.50));
        SPECTRA.put(
                "plum-ink", new Spectrum(nm -> 0.03 + 0.7 * hump(nm, 548, 42) + 0.35 * hump(nm, 430, 40), nm -> 0.004));
        SPECTRA.put("soot-powder", new Spectrum(nm -> 4.2 * Math.pow(550 / nm, 0.5), nm -> 0.05));
        SPECTRA.put("gold-mica", new Spectrum(nm -> 0.02 + 0.12 * below(nm, 505, 22), nm -> 0.28));
        SPECTRA.put("bark-meal", new Spectrum(nm -> 0.05 + 0.25 * below(nm, 562, 48), nm -> 0.12));
        SPECTRA.put("dusk-glow", new Spectrum(nm -> 0.02 + 0.05 * hump(nm, 415, 30), nm -> 0.55));
        SPECTRA.put("soot-in-a", new Spectrum(nm -> 0.42 * Math.pow(550 / nm, 0.5), nm -> 0.005));
    }

    private DemoReadings() {}

    private static double below(double nm, double edge, double width) {
        return 1 / (1 + Math.exp((nm - edge) / width));
    }

    private static double hump(double nm, double at, double width) {
        return Math.exp(-(nm - at) * (nm - at) / (2 * width * width));
    }

    /** Writes the readings into the demo book. */
    public static void main(String[] args) throws Exception {
        Path folder = Path.of("recipes");
        BookWriter writer = new BookWriter(folder);
        Book book = new BookFolder(folder).open().book();
        for (String id : SPECTRA.keySet()) {
            if (!id.equals("soot-in-a") && !book.recipes().containsKey("chips-" + id)) {
                chips(writer, book, id);
            }
        }
        book = new BookFolder(folder).open().book();
        for (Pour pour : book.pours().values()) {
            read(writer, book, pour);
        }
    }

    private static void read(BookWriter writer, Book book, Pour pour) throws Exception {
        List<Loading> loadings = Loadings.of(book, pour);
        writer.change(Kind.POUR, pour.id(), record -> {
            for (int i = 0; i < pour.readings().size(); i++) {
                Pour.Reading reading = pour.readings().get(i);
                if (reading.depth() != null && reading.backing() != null) {
                    Lab lab = look(book, loadings, reading.depth().mm(), reading.backing());
                    double scatter = reading.how().startsWith("photo") ? PHOTO : METER;
                    Random random = new Random(31L * pour.id().hashCode() + i);
                    ((ObjectNode) record.path("readings").get(i))
                            .putArray("lab")
                            .add(rounded(lab.l() + scatter * random.nextGaussian()))
                            .add(rounded(lab.a() + scatter * random.nextGaussian()))
                            .add(rounded(lab.b() + scatter * random.nextGaussian()));
                }
            }
            return record;
        });
    }

    private static double rounded(double value) {
        return Math.rint(value * 10) / 10;
    }

    private static Lab look(Book book, List<Loading> loadings, double depthMm, Backing backing) {
        double[] bands =
                Bands.reflectance(Xyz.of(java.util.Objects.requireNonNull(BookReadings.lab(book.settings(), backing))));
        double[] seen = new double[Observer.COUNT];
        for (int i = 0; i < Observer.COUNT; i++) {
            double nm = Observer.nm(i);
            double blue = (780 - nm) / 400;
            double k = 0.0008 + 0.003 * blue * blue;
            double s = 0.0004 + 0.0004 * blue;
            for (Loading each : loadings) {
                Spectrum spectrum = java.util.Objects.requireNonNull(SPECTRA.get(each.pigmentId()), each.pigmentId());
                k += each.percent() * spectrum.k().applyAsDouble(nm);
                s += each.percent() * spectrum.s().applyAsDouble(nm);
            }
            double inside = layer(k, s, depthMm, between(bands, nm));
            seen[i] = (1 - 0.04652) * (1 - K2) * inside / (1 - K2 * inside);
        }
        return Observer.lab(seen);
    }

    /** Kubelka 1948, in his own form. */
    private static double layer(double k, double s, double x, double backing) {
        double a = 1 + k / s;
        double b = Math.sqrt(a * a - 1);
        double coth = 1 / Math.tanh(b * s * x);
        return (1 - backing * (a - b * coth)) / (a - backing + b * coth);
    }

    /** The reflectance between the middles of the bands. */
    private static double between(double[] bands, double nm) {
        double at = Math.max(0, Math.min(bands.length - 1, (nm - 400) / 37.5 - 0.5));
        int low = (int) Math.min(bands.length - 2, Math.floor(at));
        return bands[low] + (at - low) * (bands[low + 1] - bands[low]);
    }

    private static void chips(BookWriter writer, Book book, String id) throws Exception {
        Pigment pigment = java.util.Objects.requireNonNull(book.pigments().get(id), id);
        double top = pigment.topLoading() == null ? 5 : pigment.topLoading().percent();
        double[] percents = {top / 40, top / 10, top / 3, top};
        String recipeId = "chips-" + id;
        ObjectNode recipe = JsonNodeFactory.instance.objectNode();
        recipe.put("id", recipeId).put("name", "Chips of " + pigment.name());
        recipe.putArray("tags").add("chips");
        ArrayNode revisions = recipe.putArray("revisions");
        for (int i = 0; i < percents.length; i++) {
            ObjectNode revision = revisions.addObject();
            revision.put("number", i + 1).put("date", "2026-02-02").put("resin", "slow-cast");
            revision.put("percentOf", "mixed resin");
            revision.putArray("pigments").addObject().put("pigment", id).put("percent", shown(percents[i]) + " %");
            revision.put("why", "chip " + (i + 1) + " of " + percents.length);
        }
        recipe.putArray("steps");
        recipe.putNull("look").put("notes", "Sample chips with simulated readings, to learn what the pigment does.");
        writer.create(Kind.RECIPE, recipeId, recipe);
        for (int number : CHIPS) {
            pour(writer, recipeId, number, id, percents[number - 1], pigment);
        }
    }

    private static String shown(double percent) {
        return pigmentbook.quantity.Numbers.plain(Math.rint(percent * 1e4) / 1e4);
    }

    private static void pour(
            BookWriter writer, String recipe, int revision, String pigment, double percent, Pigment product)
            throws Exception {
        LocalDate day = LocalDate.of(2026, 2, 2).plusDays(revision);
        String id = day + "-" + recipe + "-1";
        double resin = 40;
        double grams = Math.rint(percent / 100 * resin * 1e3) / 1e3;
        Pigment.Carrier carrier = product.carrier();
        double carried =
                carrier != null && carrier.isPartA() ? grams * carrier.share().fraction() : 0;
        // 2 : 1 by volume at 1.15 and 0.96 g/mL.
        double partA = Math.rint((resin * 2.3 / 3.26 - carried) * 100) / 100;
        double partB = Math.rint(resin * 0.96 / 3.26 * 100) / 100;
        ObjectNode pour = JsonNodeFactory.instance.objectNode();
        pour.put("id", id).put("recipe", recipe).put("revision", revision).putNull("mold");
        pour.put("kind", "sample").put("started", day + "T09:30").put("by", "Jonas");
        pour.put("temperature", "21 C").putNull("humidity");
        ArrayNode weighed = pour.putArray("layers")
                .addObject()
                .put("depth", "3 mm")
                .putArray("cups")
                .addObject()
                .putArray("weighed");
        weigh(weighed, "part A", partA);
        weigh(weighed, pigment, grams);
        weigh(weighed, "part B", partB);
        pour.putNull("left").putNull("result");
        ArrayNode readings = pour.putArray("readings");
        for (String backing : List.of("white", "black")) {
            ObjectNode reading = readings.addObject();
            reading.putArray("lab").add(50).add(0).add(0);
            reading.put("depth", "3 mm").put("backing", backing);
            reading.put("how", "colour meter, gloss left out")
                    .put("date", day.plusDays(7).toString());
        }
        pour.putArray("photos");
        writer.create(Kind.POUR, id, pour);
    }

    private static void weigh(ArrayNode weighed, String item, double grams) {
        String text = pigmentbook.quantity.Numbers.plain(grams) + " g";
        weighed.addObject()
                .put("item", item)
                .put("lot", "unknown")
                .put("target", text)
                .put("actual", text);
    }
}
