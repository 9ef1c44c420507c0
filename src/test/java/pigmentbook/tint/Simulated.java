package pigmentbook.tint;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Range;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Ratio;

/**
 * A made-up studio whose pigments have whole spectra, 41 wavelengths of smooth curves drawn by chance, so that what a
 * mix really looks like is known. The layer is Kubelka's, in his own coth form, the face Saunderson's.
 */
final class Simulated {

    static final String[] BACKINGS = {"white", "black", "wood"};

    final Random random;
    final double[][] k;
    final double[][] s;
    final double[] usual;
    final double[] top;
    final double[][] backing;
    final Lab[] backingLab;
    final double[] resinK = new double[Observer.COUNT];
    final double[] resinS = new double[Observer.COUNT];
    private final double k2;
    private final double sharp;

    /** How far the truth is from the theory: 0 for none. See {@link #look}. */
    double strange;

    /** How many readings are another chip's. */
    double wrong;

    /** How far what is weighed is off, as a fraction. */
    double weighing;

    /** Only this part of what is strange: 0 all of it, 1 what pigments do to each other in a mix, 2 the rest. */
    int only;

    /** What a chip really looks like where that is of other making; see {@link Unruly}. */
    @Nullable
    Function<Chip, Lab> truth;

    /** A mix and how it is looked at. */
    record Chip(int[] pigments, double[] percents, double depthMm, int backing) {

        List<Loading> loadings() {
            List<Loading> loadings = new ArrayList<>();
            for (int i = 0; i < pigments.length; i++) {
                loadings.add(new Loading(id(pigments[i]), percents[i]));
            }
            return loadings;
        }
    }

    /** A chip and its colour as it was read. */
    record Read(Chip chip, Lab lab) {}

    Simulated(long seed, int pigments) {
        this(seed, pigments, 1);
    }

    /** With wider or narrower humps and edges than usual. */
    Simulated(long seed, int pigments, double sharp) {
        this.sharp = sharp;
        random = new Random(seed);
        k = new double[pigments][Observer.COUNT];
        s = new double[pigments][Observer.COUNT];
        usual = new double[pigments];
        top = new double[pigments];
        for (int p = 0; p < pigments; p++) {
            drawPigment(p);
        }
        for (int i = 0; i < Observer.COUNT; i++) {
            double blue = (780 - Observer.nm(i)) / 400;
            resinK[i] = 0.0008 + 0.003 * blue * blue;
            resinS[i] = 0.0004 + 0.0004 * blue;
        }
        k2 = 0.5 + 0.12 * random.nextDouble();
        backing = new double[][] {new double[Observer.COUNT], new double[Observer.COUNT], new double[Observer.COUNT]};
        for (int i = 0; i < Observer.COUNT; i++) {
            double nm = Observer.nm(i);
            backing[0][i] = 0.885 - 0.12 * Math.exp(-(nm - 380) / 30);
            backing[1][i] = 0.036 + 0.002 * Math.sin(nm / 60);
            backing[2][i] = 0.20 + 0.40 / (1 + Math.exp(-(nm - 560) / 70));
        }
        backingLab = new Lab[] {Observer.lab(backing[0]), Observer.lab(backing[1]), Observer.lab(backing[2])};
    }

    /**
     * Absorption: one to three humps or edges over a floor; scattering: a power of the wavelength. By kind of pigment.
     */
    private void drawPigment(int p) {
        int kind = p % 4; // dye, paste, white or pale, strong powder
        double strength = kind == 0 ? 2 : kind == 1 ? 0.6 : kind == 2 ? 0.05 : 1.5;
        strength *= Math.exp(0.4 * random.nextGaussian());
        double floor = 0.01 + 0.05 * random.nextDouble();
        int humps = 1 + random.nextInt(3);
        double[] at = new double[humps];
        double[] wide = new double[humps];
        double[] high = new double[humps];
        for (int h = 0; h < humps; h++) {
            at[h] = 390 + 260 * random.nextDouble();
            wide[h] = sharp * (35 + 60 * random.nextDouble());
            high[h] = 0.3 + 0.7 * random.nextDouble();
        }
        boolean edge = random.nextBoolean();
        double edgeAt = 470 + 120 * random.nextDouble();
        double edgeWide = sharp * (10 + 15 * random.nextDouble());
        double scatter = kind == 0 ? 0.004 : kind == 1 ? 0.25 : kind == 2 ? 1.2 : 0.2;
        scatter *= Math.exp(0.4 * random.nextGaussian());
        double power = -1.5 * random.nextDouble();
        for (int i = 0; i < Observer.COUNT; i++) {
            double nm = Observer.nm(i);
            double sum = floor;
            for (int h = 0; h < humps; h++) {
                sum += high[h] * Math.exp(-(nm - at[h]) * (nm - at[h]) / (2 * wide[h] * wide[h]));
            }
            if (edge) {
                sum += 0.8 / (1 + Math.exp((nm - edgeAt) / edgeWide));
            }
            k[p][i] = strength * sum;
            s[p][i] = scatter * Math.pow(nm / 550, power);
        }
        usual[p] = kind == 0 ? 0.15 : kind == 3 ? 0.3 : 1;
        top[p] = 4 * usual[p];
    }

    static String id(int pigment) {
        return "pigment-" + (char) ('a' + pigment / 26) + (char) ('a' + pigment % 26);
    }

    /**
     * The true colour. With {@link #strange} above 0 the truth leaves the theory: what scatters gets less effective
     * where it is crowded, pigments of one mix draw each other out or in, and the layer is uneven in depth.
     */
    Lab look(Chip chip) {
        if (truth != null) {
            return truth.apply(chip);
        }
        double[] seen = new double[Observer.COUNT];
        double crowd = 0;
        double pull = 0;
        for (int p = 0; p < chip.pigments.length; p++) {
            crowd += chip.percents[p] / top[chip.pigments[p]];
            for (int q = 0; q < p; q++) {
                double both = Math.sin(17.0 * (1 + chip.pigments[p]) * (1 + chip.pigments[q]));
                pull += both * Math.min(1, 2 * Math.min(share(chip, p), share(chip, q)));
            }
        }
        double alone = only == 1 ? 0 : strange;
        double scattering = 1 / (1 + alone * crowd);
        double absorbing = only == 2 ? 1 : Math.exp(0.3 * strange * pull);
        double bare = 0.12 * alone / (1 + 6 * crowd);
        for (int i = 0; i < Observer.COUNT; i++) {
            double kMix = resinK[i];
            double sMix = resinS[i];
            for (int p = 0; p < chip.pigments.length; p++) {
                kMix += absorbing * chip.percents[p] * k[chip.pigments[p]][i];
                sMix += scattering * chip.percents[p] * s[chip.pigments[p]][i];
            }
            double rg = backing[chip.backing][i];
            double thin = layer(kMix, sMix, chip.depthMm * (1 - 0.6 * alone), rg);
            double thick = layer(kMix, sMix, chip.depthMm * (1 + 0.6 * alone), rg);
            double inside = bare * rg + (1 - bare) * (thin + thick) / 2;
            seen[i] = (1 - 0.04652) * (1 - k2) * inside / (1 - k2 * inside);
        }
        return Observer.lab(seen);
    }

    double share(Chip chip, int p) {
        double sum = 0;
        for (int q = 0; q < chip.pigments.length; q++) {
            sum += chip.percents[q] / top[chip.pigments[q]];
        }
        return chip.percents[p] / top[chip.pigments[p]] / sum;
    }

    private static double layer(double k, double s, double x, double rg) {
        double a = 1 + k / s;
        double b = Math.sqrt(a * a - 1);
        double coth = 1 / Math.tanh(b * s * x);
        return (1 - rg * (a - b * coth)) / (a - rg + b * coth);
    }

    Read read(Chip chip, double scatter) {
        double[] really = chip.percents.clone();
        for (int i = 0; i < really.length; i++) {
            really[i] *= Math.exp(weighing * random.nextGaussian());
        }
        Lab lab = look(new Chip(chip.pigments, really, chip.depthMm, chip.backing));
        return new Read(
                chip,
                new Lab(
                        Math.max(0, Math.min(100, lab.l() + scatter * random.nextGaussian())),
                        lab.a() + scatter * random.nextGaussian(),
                        lab.b() + scatter * random.nextGaussian()));
    }

    /** Chips of each pigment alone: the loadings, as parts of the usual one, at the depths, over white and black. */
    List<Chip> ladders(double[] ofUsual, double... depths) {
        List<Chip> chips = new ArrayList<>();
        for (int p = 0; p < k.length; p++) {
            for (double part : ofUsual) {
                for (double depth : depths) {
                    for (int over = 0; over < 2; over++) {
                        chips.add(new Chip(new int[] {p}, new double[] {part * usual[p]}, depth, over));
                    }
                }
            }
        }
        return chips;
    }

    /** A mix drawn by chance, at a depth of 1.5 to 20 mm over any backing. */
    Chip mix(int most) {
        int count = 2 + random.nextInt(most - 1);
        int[] pigments = random.ints(0, k.length).distinct().limit(count).toArray();
        double[] percents = new double[count];
        for (int i = 0; i < count; i++) {
            percents[i] = usual[pigments[i]] * Math.exp(Math.log(0.08) + Math.log(25) * random.nextDouble());
        }
        return new Chip(pigments, percents, 1.5 * Math.exp(Math.log(13) * random.nextDouble()), random.nextInt(3));
    }

    List<Read> readings(List<Chip> chips, double scatter) {
        return new ArrayList<>(chips.stream().map(chip -> read(chip, scatter)).toList());
    }

    /** The book of a studio that weighed and read those chips, 1000 g of resin each. */
    Book book(List<Read> readings) {
        List<Pigment> pigments = new ArrayList<>();
        for (int p = 0; p < k.length; p++) {
            pigments.add(new Pigment(id(p), id(p), Pigment.Kind.PASTE, null, Percent.of(top[p]), null, null, null, ""));
        }
        List<Pour> pours = new ArrayList<>();
        for (int i = 0; i < readings.size(); i++) {
            pours.add(pour("2026-01-01-chip-" + (100_000 + i), readings.get(i)));
        }
        return new Book(
                Settings.unstated(), List.of(resin()), pigments, List.of(), List.of(), List.of(recipe()), pours);
    }

    Pour pour(String id, Read read) {
        List<Pour.Weighed> weighed = new ArrayList<>();
        weighed.add(new Pour.Weighed(Item.PART_A, null, null, Mass.ofGrams(700)));
        weighed.add(new Pour.Weighed(Item.PART_B, null, null, Mass.ofGrams(300)));
        for (Loading loading : read.chip.loadings()) {
            weighed.add(
                    new Pour.Weighed(Item.of(loading.pigmentId()), null, null, Mass.ofGrams(10 * loading.percent())));
        }
        return new Pour(
                id,
                "chip",
                1,
                null,
                Pour.Kind.SAMPLE,
                null,
                "",
                null,
                null,
                List.of(new Pour.Layer(null, List.of(new Pour.Cup(weighed)))),
                null,
                null,
                List.of(new Pour.Reading(
                        read.lab,
                        Length.ofMm(read.chip.depthMm),
                        new Backing(null, backingLab[read.chip.backing]),
                        "",
                        null,
                        false)),
                List.of());
    }

    private static Recipe recipe() {
        return new Recipe(
                "chip",
                "Chip",
                List.of(),
                List.of(new Recipe.Revision(1, null, "clear", Recipe.PercentOf.MIXED_RESIN, List.of(), "")),
                List.of(),
                null,
                "");
    }

    private static Resin resin() {
        return new Resin(
                "clear",
                "Clear",
                new MixRatio(MixRatio.By.WEIGHT, Ratio.parse("70:30"), null),
                null,
                null,
                null,
                null,
                Range.open(),
                null,
                null,
                null,
                null,
                Range.open(),
                null,
                null,
                Range.open(),
                null,
                Percent.of(8),
                null,
                null,
                "");
    }

    double miss(Chip chip, Lab predicted) {
        return Ciede2000.between(look(chip), predicted);
    }

    /** The same book with its pours in another order, as another disk may list its files. */
    static Book inAnotherOrder(Book book, long seed) {
        List<Pour> pours = new ArrayList<>(book.pours().values());
        Collections.shuffle(pours, new Random(seed));
        return new Book(
                book.settings(),
                List.copyOf(book.resins().values()),
                List.copyOf(book.pigments().values()),
                List.of(),
                List.of(),
                List.copyOf(book.recipes().values()),
                pours);
    }
}
