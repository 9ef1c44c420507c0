package pigmentbook.sheet;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.hipparchus.fraction.BigFraction;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Mold;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Range;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.book.Settings;
import pigmentbook.colour.Lab;
import pigmentbook.mix.Mix;
import pigmentbook.mix.MixRequest;
import pigmentbook.mix.Mixer;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Duration;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Money;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Ratio;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;
import pigmentbook.quantity.WeighingStep;

/** An invented studio with one resin, four pigments and one recipe, for the tests of sheets. */
public final class Studio {

    static final LocalDate DAY = LocalDate.of(2026, 11, 25);

    /** {@code #8b5a2b} in the table /colour/srgb_lab.csv. */
    private static final Lab OAK_BROWN = new Lab(42.727638, 15.491398, 34.695653);

    private static final Resin RESIN = new Resin(
            "slow-cast",
            "Slow casting resin",
            new MixRatio(
                    MixRatio.By.VOLUME,
                    Ratio.parse("2:1"),
                    new MixRatio.Window(new BigFraction(194, 100), new BigFraction(206, 100))),
            null,
            Density.parse("1.15 g/mL"),
            Density.parse("0.96 g/mL"),
            null,
            new Range<>(Length.parse("3 mm"), Length.parse("25 mm")),
            Mass.parse("1.5 kg"),
            Duration.parse("40 min"),
            Temperature.parse("22 C"),
            Mass.parse("100 g"),
            new Range<>(Duration.parse("6 h"), Duration.parse("24 h")),
            Duration.parse("48 h"),
            Duration.parse("7 d"),
            new Range<>(Temperature.parse("18 C"), Temperature.parse("28 C")),
            Percent.parse("75 %"),
            Percent.parse("6 %"),
            Percent.parse("0 %"),
            null,
            "");

    private Studio() {}

    /** How a mix differs from the usual one. */
    public record Order(MixRequest.Size size, int layers, String step, String fineStep, String cup, String tare) {

        public static Order of(MixRequest.Size size) {
            return new Order(size, 1, "1 g", "0.01 g", "1 kg", "38 g");
        }

        public static Order total(String mass) {
            return of(new MixRequest.ForTotal(Mass.parse(mass)));
        }

        public static Order volume(String volume) {
            return of(new MixRequest.ForVolume(Volume.parse(volume)));
        }

        public Order inLayers(int count) {
            return new Order(size, count, step, fineStep, cup, tare);
        }

        Order onScales(String resin, String fine) {
            return new Order(size, layers, resin, fine, cup, tare);
        }

        Order inCupsOf(String most) {
            return new Order(size, layers, step, fineStep, most, tare);
        }

        Order withTare(String empty) {
            return new Order(size, layers, step, fineStep, cup, empty);
        }
    }

    public static Mix mix(Order order) {
        return mix(order, "Ember");
    }

    public static Mix mix(Order order, String recipeName) {
        Book book = book(order, recipeName);
        Recipe recipe = book.recipes().get("ember");
        MixRequest request = new MixRequest(
                order.size,
                order.layers,
                List.of(),
                null,
                null,
                null,
                null,
                null,
                Temperature.parse("23 C"),
                null,
                List.of(),
                DAY);
        return Mixer.mix(book, recipe, recipe.current(), request);
    }

    public static MixSheet sheet(Mix mix) {
        return sheet(mix, Paper.A4);
    }

    public static MixSheet sheet(Mix mix, Paper paper) {
        return MixSheet.of(
                mix, new SheetInfo("2026-11-25-ember-1", LocalDateTime.of(2026, 11, 25, 10, 42), "M", paper));
    }

    public static byte[] written(SheetWriters.Format format, MixSheet sheet) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            SheetWriters.write(format, sheet, out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    /** The studio's book as it is for the usual mix. */
    static Book book() {
        return book(Order.total("1 kg"), "Ember");
    }

    private static Book book(Order order, String recipeName) {
        Settings plain = Settings.unstated();
        Settings settings = new Settings(
                "Workshop book",
                plain.units(),
                new Settings.Scale(WeighingStep.parse(order.step), Mass.parse("5 kg")),
                new Settings.Scale(WeighingStep.parse(order.fineStep), Mass.parse("200 g")),
                Percent.parse("5 %"),
                Mass.parse(order.cup),
                Mass.parse("4 g"),
                Mass.parse(order.tare),
                Temperature.parse("21 C"),
                null,
                true,
                "EUR",
                Settings.BACKINGS);
        Recipe recipe = new Recipe(
                "ember",
                recipeName,
                List.of("warm", "see-through"),
                List.of(new Recipe.Revision(
                        4,
                        DAY,
                        "slow-cast",
                        Recipe.PercentOf.MIXED_RESIN,
                        List.of(
                                loading("amber-paste", "1.2 %"),
                                loading("copper-mica", "0.35 %"),
                                loading("rust-paste", "0.18 %")),
                        "")),
                List.of(new Recipe.Step("Wet the mica out in a little part A first", "before part B")),
                new Recipe.LookAt("2026-03-02-ember-1", 0),
                "");
        return new Book(
                settings, List.of(RESIN), pigments(), lots(), List.<Mold>of(), List.of(recipe), List.of(pour()));
    }

    private static Recipe.PigmentLoading loading(String id, String percent) {
        return new Recipe.PigmentLoading(id, Percent.parse(percent));
    }

    private static List<Pigment> pigments() {
        return List.of(
                pigment(
                        "amber-paste",
                        "Amber paste",
                        Pigment.Kind.PASTE,
                        new Pigment.Carrier(true, Percent.parse("60 %"))),
                pigment("copper-mica", "Copper mica", Pigment.Kind.MICA, null),
                pigment(
                        "rust-paste",
                        "Rust paste",
                        Pigment.Kind.PASTE,
                        new Pigment.Carrier(false, Percent.parse("40 %"))));
    }

    private static Pigment pigment(String id, String name, Pigment.Kind kind, Pigment.Carrier carrier) {
        return new Pigment(id, name, kind, Density.parse("1.25 g/mL"), Percent.parse("5 %"), null, carrier, null, "");
    }

    private static List<Lot> lots() {
        List<Lot> lots = new ArrayList<>();
        lots.add(lot("A-2409", "slow-cast", Lot.Part.A, "40 kg", "100 %"));
        lots.add(lot("B-2409", "slow-cast", Lot.Part.B, "20 kg", "100 %"));
        lots.add(lot("AP-07", "amber-paste", null, "900 g", "96 %"));
        lots.add(lot("AP-99", "amber-paste", null, "30 g", "100 %"));
        lots.add(lot("CM-03", "copper-mica", null, "5 g", "100 %"));
        lots.add(lot("CM-04", "copper-mica", null, "16 g", "100 %"));
        lots.add(lot("RP-02", "rust-paste", null, "400 g", "100 %"));
        return lots;
    }

    private static Lot lot(String id, String of, Lot.Part part, String quantity, String strength) {
        return new Lot(
                id,
                of,
                part,
                id,
                DAY,
                DAY,
                DAY.plusYears(1),
                Mass.parse(quantity),
                new Money(new BigDecimal("62.00"), "EUR"),
                null,
                Percent.parse(strength),
                null,
                List.of(),
                List.of());
    }

    private static Pour pour() {
        Pour.Reading reading =
                new Pour.Reading(OAK_BROWN, Length.parse("6 mm"), new Backing("white", null), "card", DAY, false);
        return new Pour(
                "2026-03-02-ember-1",
                "ember",
                4,
                null,
                Pour.Kind.SAMPLE,
                null,
                "",
                null,
                null,
                List.of(),
                null,
                null,
                List.of(reading),
                List.of());
    }
}
