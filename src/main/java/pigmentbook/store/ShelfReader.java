package pigmentbook.store;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.fraction.BigFraction;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Lot;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Range;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Amount;
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

/** Reads resins, pigments and lots. */
final class ShelfReader {

    private ShelfReader() {}

    static Resin resin(String id, Fields f) throws RefusedException {
        return new Resin(
                id,
                f.name("name", id),
                ratio(f.child("ratio")),
                ratio(f.child("ratioAlso")),
                f.amount("densityA", Density::parse),
                f.amount("densityB", Density::parse),
                f.amount("density", Density::parse),
                range(f, "layer", "least", "most", Length::parse),
                f.amount("batchMost", Mass::parse),
                f.amount("workingTime", Duration::parse),
                f.amount("workingTimeAt", Temperature::parse),
                f.amount("workingTimeMass", Mass::parse),
                range(f, "recoat", "from", "to", Duration::parse),
                f.amount("demold", Duration::parse),
                f.amount("fullCure", Duration::parse),
                range(f, "temperature", "least", "most", Temperature::parse),
                f.amount("humidityMost", Percent::parse),
                f.amount("topLoading", Percent::parse),
                f.amount("shrinkage", Percent::parse),
                f.amount("soak", Coverage::parse),
                f.textOrEmpty("notes"));
    }

    private static <A extends Amount> Range<A> range(
            Fields f, String name, String least, String most, java.util.function.Function<String, A> parse)
            throws RefusedException {
        Fields range = f.child(name);
        return range == null ? Range.open() : new Range<>(range.amount(least, parse), range.amount(most, parse));
    }

    private static @Nullable MixRatio ratio(@Nullable Fields f) throws RefusedException {
        if (f == null) {
            return null;
        }
        MixRatio.By by = f.word("by", MixRatio.By.class, null);
        BigFraction a = f.needAmount("a", Numbers::parse);
        BigFraction b = f.needAmount("b", Numbers::parse);
        String written = f.needText("a").strip() + ":" + f.needText("b").strip();
        Fields window = f.child("window");
        return f.made(() -> new MixRatio(by, new Ratio(a, b, written), window(window)));
    }

    private static MixRatio.@Nullable Window window(@Nullable Fields f) throws RefusedException {
        if (f == null || (!f.has("least") && !f.has("most"))) {
            return null;
        }
        BigFraction least = f.needAmount("least", Numbers::parse);
        BigFraction most = f.needAmount("most", Numbers::parse);
        return f.made(() -> new MixRatio.Window(least, most));
    }

    static Pigment pigment(String id, Fields f) throws RefusedException {
        Fields carrier = f.child("carrier");
        Fields contains = f.child("contains");
        return new Pigment(
                id,
                f.name("name", id),
                f.word("kind", Pigment.Kind.class, Pigment.Kind.OTHER),
                f.amount("density", Density::parse),
                f.amount("topLoading", Percent::parse),
                f.amount("dropMass", Mass::parse),
                carrier == null ? null : carrier(carrier),
                contains == null ? null : contains(contains),
                f.textOrEmpty("notes"));
    }

    private static Pigment.Carrier carrier(Fields f) throws RefusedException {
        String is = f.needText("is");
        if (!is.equals("part A") && !is.equals("other")) {
            throw new RefusedException(
                    f.path() + "/is",
                    "unknown-word",
                    "is is \"" + Records.shown(is) + "\"; one of part A, other was expected.");
        }
        Percent share = f.needAmount("share", Percent::parse);
        return f.made(() -> new Pigment.Carrier(is.equals("part A"), share));
    }

    private static Pigment.Contains contains(Fields f) throws RefusedException {
        String pigment = f.needText("pigment");
        Percent share = f.needAmount("share", Percent::parse);
        return f.made(() -> new Pigment.Contains(pigment, share));
    }

    static Lot lot(String id, Fields f) throws RefusedException {
        Fields price = f.child("price");
        List<Lot.Correction> corrections = new ArrayList<>();
        for (Fields each : f.children("corrections")) {
            corrections.add(new Lot.Correction(
                    each.date("date"), each.needAmount("change", Mass::parseChange), each.textOrEmpty("why")));
        }
        List<Lot.Share> shares = new ArrayList<>();
        for (Fields each : f.children("shares")) {
            shares.add(new Lot.Share(each.needText("lot"), each.needAmount("mass", Mass::parse)));
        }
        Lot.Part part = f.has("part") ? f.word("part", Lot.Part.class, null) : null;
        String of = f.needText("of");
        Mass quantity = f.needAmount("quantity", Mass::parse);
        String code = f.textOrEmpty("code");
        Money money = price == null || !price.has("amount") ? null : money(price);
        Density density = f.amount("density", Density::parse);
        Percent strength = f.amount("strength", Percent::parse);
        Mass dropMass = f.amount("dropMass", Mass::parse);
        return f.made(() -> new Lot(
                id,
                of,
                part,
                code,
                f.date("received"),
                f.date("opened"),
                f.date("expires"),
                quantity,
                money,
                density,
                strength,
                dropMass,
                List.copyOf(corrections),
                List.copyOf(shares)));
    }

    private static Money money(Fields f) throws RefusedException {
        String currency = f.needText("currency");
        return f.needAmount("amount", amount -> Money.parse(amount, currency));
    }
}
