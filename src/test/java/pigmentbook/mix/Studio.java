package pigmentbook.mix;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
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
import pigmentbook.mold.Cavity;
import pigmentbook.mold.Insert;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Area;
import pigmentbook.quantity.Coverage;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Duration;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Money;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Ratio;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;
import pigmentbook.quantity.WeighingStep;

/** A made-up studio to test with: one resin, one recipe, and what a test adds to them. */
final class Studio {

    static final LocalDate DAY = LocalDate.of(2026, 11, 25);

    final List<Pigment> pigments = new ArrayList<>();
    final List<Lot> lots = new ArrayList<>();
    final List<Mold> molds = new ArrayList<>();
    final List<Pour> pours = new ArrayList<>();
    final List<Recipe.PigmentLoading> loadings = new ArrayList<>();
    final List<String> tags = new ArrayList<>();
    Recipe.PercentOf percentOf = Recipe.PercentOf.MIXED_RESIN;
    Recipe.@Nullable LookAt look;
    Settings settings = Settings.unstated();

    @Nullable
    MixRatio ratio = new MixRatio(MixRatio.By.WEIGHT, Ratio.parse("100:50"), null);

    @Nullable
    MixRatio ratioAlso;

    @Nullable
    Density densityA = Density.parse("1.10 g/mL");

    @Nullable
    Density densityB = Density.parse("1.00 g/mL");

    @Nullable
    Density density;

    Range<Length> layer = Range.open();

    @Nullable
    Mass batchMost;

    @Nullable
    Duration workingTime = Duration.parse("40 min");

    @Nullable
    Temperature workingTimeAt = Temperature.parse("21 C");

    Range<Duration> recoat = new Range<>(Duration.parse("6 h"), Duration.parse("24 h"));
    Range<Temperature> temperature = Range.open();

    @Nullable
    Percent humidityMost;

    @Nullable
    Percent topLoading;

    @Nullable
    Percent shrinkage;

    @Nullable
    Coverage soak;

    static MixRatio byVolume(String ratio, @Nullable String least, @Nullable String most) {
        return new MixRatio(MixRatio.By.VOLUME, Ratio.parse(ratio), window(least, most));
    }

    static MixRatio byWeight(String ratio, @Nullable String least, @Nullable String most) {
        return new MixRatio(MixRatio.By.WEIGHT, Ratio.parse(ratio), window(least, most));
    }

    private static MixRatio.@Nullable Window window(@Nullable String least, @Nullable String most) {
        return least == null || most == null ? null : new MixRatio.Window(Numbers.parse(least), Numbers.parse(most));
    }

    /** Adds a pigment to the shelf and the recipe. */
    Studio pigment(String id, Pigment.Kind kind, String percent, @Nullable String density) {
        return pigment(id, kind, percent, density, null, null);
    }

    Studio pigment(
            String id,
            Pigment.Kind kind,
            String percent,
            @Nullable String density,
            Pigment.@Nullable Carrier carrier,
            @Nullable String topLoading) {
        onShelf(id, kind, density, carrier, topLoading, null);
        loadings.add(new Recipe.PigmentLoading(id, Percent.parse(percent)));
        return this;
    }

    Studio onShelf(
            String id,
            Pigment.Kind kind,
            @Nullable String density,
            Pigment.@Nullable Carrier carrier,
            @Nullable String topLoading,
            Pigment.@Nullable Contains contains) {
        pigments.add(new Pigment(
                id,
                id,
                kind,
                density == null ? null : Density.parse(density),
                topLoading == null ? null : Percent.parse(topLoading),
                null,
                carrier,
                contains,
                ""));
        return this;
    }

    static Pigment.Carrier inPartA(String share) {
        return new Pigment.Carrier(true, Percent.parse(share));
    }

    /** Adds a lot: {@code of} is {@code A}, {@code B} or a pigment's id. */
    Studio lot(String id, String of, String quantity, @Nullable String expires) {
        return lot(id, of, quantity, expires, null, null, null, null);
    }

    Studio lot(
            String id,
            String of,
            String quantity,
            @Nullable String expires,
            @Nullable String price,
            @Nullable String strength,
            @Nullable String density,
            @Nullable String opened) {
        Lot.Part part = of.equals("A") ? Lot.Part.A : of.equals("B") ? Lot.Part.B : null;
        lots.add(new Lot(
                id,
                part == null ? of : "resin",
                part,
                "",
                null,
                opened == null ? null : LocalDate.parse(opened),
                expires == null ? null : LocalDate.parse(expires),
                Mass.parse(quantity),
                price == null ? null : Money.parse(price, "EUR"),
                density == null ? null : Density.parse(density),
                strength == null ? null : Percent.parse(strength),
                null,
                List.of(),
                List.of()));
        return this;
    }

    Studio mold(String id, Shape shape, @Nullable String fill, List<Insert> inserts) {
        return mold(id, shape, fill, inserts, 1, null);
    }

    Studio mold(
            String id, Shape shape, @Nullable String fill, List<Insert> inserts, int count, @Nullable String bareWood) {
        molds.add(new Mold(
                id,
                id,
                new Cavity(shape, fill == null ? null : Length.parse(fill), inserts, null),
                bareWood == null ? null : Area.parse(bareWood),
                count,
                ""));
        return this;
    }

    static Shape box(String length, String width, String depth) {
        return new Shape.Box(Length.parse(length), Length.parse(width), Length.parse(depth));
    }

    Studio lookAt(Lab lab, String depth) {
        pours.add(new Pour(
                "look-1",
                "colour",
                1,
                null,
                Pour.Kind.SAMPLE,
                null,
                "",
                null,
                null,
                List.of(),
                null,
                null,
                List.of(new Pour.Reading(lab, Length.parse(depth), new Backing("white", null), "", null, false)),
                List.of()));
        look = new Recipe.LookAt("look-1", 0);
        return this;
    }

    Studio scales(String step, @Nullable String most, String fineStep, @Nullable String fineMost) {
        Settings s = settings;
        settings = new Settings(
                s.name(),
                s.units(),
                new Settings.Scale(WeighingStep.parse(step), most == null ? null : Mass.parse(most)),
                new Settings.Scale(WeighingStep.parse(fineStep), fineMost == null ? null : Mass.parse(fineMost)),
                s.allowance(),
                s.cup(),
                s.cupResidue(),
                s.cupTare(),
                s.roomTemperature(),
                s.roomHumidity(),
                s.secondPerson(),
                s.currency(),
                s.backings());
        return this;
    }

    Book book() {
        Resin resin = new Resin(
                "resin",
                "Resin",
                ratio,
                ratioAlso,
                densityA,
                densityB,
                density,
                layer,
                batchMost,
                workingTime,
                workingTimeAt,
                null,
                recoat,
                null,
                null,
                temperature,
                humidityMost,
                topLoading,
                shrinkage,
                soak,
                "");
        Recipe recipe = new Recipe(
                "colour",
                "Colour",
                tags,
                List.of(new Recipe.Revision(1, null, "resin", percentOf, loadings, "")),
                List.of(),
                look,
                "");
        return new Book(settings, List.of(resin), pigments, lots, molds, List.of(recipe), pours);
    }

    Mix mix(MixRequest request) {
        Book book = book();
        Recipe recipe = book.recipes().get("colour");
        return Mixer.mix(book, recipe, recipe.current(), request);
    }

    Mix mix(MixRequest.Size size) {
        return mix(MixRequest.of(size, DAY));
    }

    Mix resin(String mass) {
        return mix(new MixRequest.ForResin(Mass.parse(mass)));
    }

    Mix volume(String volume) {
        return mix(new MixRequest.ForVolume(Volume.parse(volume)));
    }

    Mix inMold(String id) {
        return mix(new MixRequest.ForMold(id, null));
    }

    static Mix.Weighing of(Mix mix, Item item) {
        return of(mix.layers().get(0).cups().get(0), item);
    }

    static Mix.Weighing of(Mix.Cup cup, Item item) {
        return cup.items().stream()
                .filter(each -> each.item().equals(item))
                .findFirst()
                .orElseThrow();
    }

    static Options options() {
        return new Options();
    }

    /** The options of a request, one by one. */
    static final class Options {
        @Nullable
        Integer layers;

        List<Length> depths = List.of();

        @Nullable
        Percent allowance;

        @Nullable
        Mass cup;

        @Nullable
        Mass residue;

        @Nullable
        Temperature room;

        @Nullable
        Percent humidity;

        List<String> lots = List.of();

        Options layers(int count) {
            layers = count;
            return this;
        }

        Options depths(String... each) {
            depths = java.util.Arrays.stream(each).map(Length::parse).toList();
            return this;
        }

        Options allowance(String percent) {
            allowance = Percent.parse(percent);
            return this;
        }

        Options cup(String most, String stays) {
            cup = Mass.parse(most);
            residue = Mass.parse(stays);
            return this;
        }

        Options room(String temperature) {
            room = Temperature.parse(temperature);
            return this;
        }

        Options humidity(String percent) {
            humidity = Percent.parse(percent);
            return this;
        }

        Options lots(String... ids) {
            lots = List.of(ids);
            return this;
        }

        MixRequest of(MixRequest.Size size) {
            return new MixRequest(size, layers, depths, allowance, cup, residue, null, null, room, humidity, lots, DAY);
        }
    }
}
