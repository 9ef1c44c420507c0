package pigmentbook.store;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Item;
import pigmentbook.book.Mold;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.mold.Cavity;
import pigmentbook.mold.Insert;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Area;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;

/** Reads molds, recipes and pours. */
final class RecipeReader {

    private static final Seen<Mass> MASSES = new Seen<>(Mass::parse);
    private static final Seen<Length> LENGTHS = new Seen<>(Length::parse);
    private static final Seen<Percent> PERCENTS = new Seen<>(Percent::parse);
    private static final Seen<Temperature> TEMPERATURES = new Seen<>(Temperature::parse);
    private static final Seen<Item> ITEMS = new Seen<>(Item::of);
    private static final Seen<String> WORDS = new Seen<>(word -> word);

    private RecipeReader() {}

    static Mold mold(String id, Fields f) throws RefusedException {
        Shape shape = ShapeReader.read(f.needChild("shape"));
        List<Insert> inserts = new ArrayList<>();
        for (Fields each : f.children("inserts")) {
            Shape insert = ShapeReader.read(each.needChild("shape"));
            Length given = each.amount("from", Length::parse);
            Length from = given == null ? Length.ofMm(0) : given;
            Integer count = each.integer("count");
            String name = each.name("name", "insert");
            inserts.add(each.made(() -> new Insert(name, insert, from, count == null ? 1 : count)));
        }
        Length fill = f.amount("fill", Length::parse);
        Volume measured = f.amount("measured", Volume::parse);
        Cavity cavity = f.made(() -> new Cavity(shape, fill, inserts, measured));
        Integer count = f.integer("count");
        if (count != null && count < 1) {
            throw new RefusedException(
                    f.path() + "/count", "bad-value", "count is " + count + "; 1 or more molds were expected.");
        }
        return new Mold(
                id,
                f.name("name", id),
                cavity,
                f.amount("bareWood", Area::parse),
                count == null ? 1 : count,
                f.textOrEmpty("notes"));
    }

    static Recipe recipe(String id, Fields f) throws RefusedException {
        List<Recipe.Revision> revisions = new ArrayList<>();
        int before = 0;
        for (Fields each : f.children("revisions")) {
            Recipe.Revision revision = revision(each);
            if (revision.number() <= before) {
                throw new RefusedException(
                        each.path() + "/number",
                        "revision-order",
                        "number is " + revision.number() + "; revisions count upwards, so more than " + before
                                + " was expected.");
            }
            before = revision.number();
            revisions.add(revision);
        }
        if (revisions.isEmpty()) {
            throw new RefusedException(
                    f.path() + "/revisions", "missing-field", "The recipe has no revision; at least one was expected.");
        }
        List<Recipe.Step> steps = new ArrayList<>();
        for (Fields each : f.children("steps")) {
            steps.add(new Recipe.Step(WORDS.apply(each.textOrEmpty("text")), WORDS.apply(each.textOrEmpty("when"))));
        }
        Fields look = f.child("look");
        return new Recipe(
                id,
                f.name("name", id),
                f.amounts("tags", WORDS),
                List.copyOf(revisions),
                List.copyOf(steps),
                look == null ? null : new Recipe.LookAt(look.needText("pour"), zeroIfNull(look.integer("reading"))),
                f.textOrEmpty("notes"));
    }

    private static int zeroIfNull(@Nullable Integer value) {
        return value == null ? 0 : value;
    }

    private static Recipe.Revision revision(Fields f) throws RefusedException {
        List<Recipe.PigmentLoading> pigments = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (Fields each : f.children("pigments")) {
            String pigment = WORDS.apply(each.needText("pigment"));
            if (!seen.add(pigment)) {
                throw new RefusedException(
                        each.path() + "/pigment",
                        "pigment-twice",
                        "The pigment \"" + Records.shown(pigment)
                                + "\" stands here a second time. Add the two percents up.");
            }
            pigments.add(new Recipe.PigmentLoading(pigment, each.needAmount("percent", PERCENTS)));
        }
        return new Recipe.Revision(
                f.needInteger("number"),
                f.date("date"),
                WORDS.apply(f.needText("resin")),
                f.word("percentOf", Recipe.PercentOf.class, Recipe.PercentOf.MIXED_RESIN),
                List.copyOf(pigments),
                f.textOrEmpty("why"));
    }

    static Pour pour(String id, Fields f) throws RefusedException {
        List<Pour.Layer> layers = new ArrayList<>();
        for (Fields layer : f.children("layers")) {
            List<Pour.Cup> cups = new ArrayList<>();
            for (Fields cup : layer.children("cups")) {
                cups.add(new Pour.Cup(weighed(cup, "weighed")));
            }
            layers.add(new Pour.Layer(layer.amount("depth", LENGTHS), List.copyOf(cups)));
        }
        List<Pour.Reading> readings = new ArrayList<>();
        for (Fields each : f.children("readings")) {
            readings.add(reading(each));
        }
        Integer revision = f.integer("revision");
        return new Pour(
                id,
                WORDS.apply(f.needText("recipe")),
                revision == null ? 1 : revision,
                interned(f.text("mold")),
                f.word("kind", Pour.Kind.class, Pour.Kind.PIECE),
                f.moment("started"),
                WORDS.apply(f.textOrEmpty("by")),
                f.amount("temperature", TEMPERATURES),
                f.amount("humidity", PERCENTS),
                List.copyOf(layers),
                weighed(f, "thrown"),
                f.amount("left", MASSES),
                result(f.child("result")),
                List.copyOf(readings),
                f.amounts("photos", photo -> photo),
                f.text("mix_id"));
    }

    private static List<Pour.Weighed> weighed(Fields f, String name) throws RefusedException {
        List<Pour.Weighed> weighed = new ArrayList<>();
        for (Fields each : f.children(name)) {
            weighed.add(new Pour.Weighed(
                    ITEMS.apply(each.needText("item")),
                    interned(each.text("lot")),
                    each.amount("target", MASSES),
                    each.amount("actual", MASSES)));
        }
        return List.copyOf(weighed);
    }

    private static @Nullable String interned(@Nullable String text) {
        return text == null ? null : WORDS.apply(text);
    }

    private static Pour.@Nullable Result result(@Nullable Fields f) throws RefusedException {
        if (f == null) {
            return null;
        }
        Integer rating = f.integer("rating");
        if (rating != null && (rating < 1 || rating > 5)) {
            throw new RefusedException(
                    f.path() + "/rating", "bad-value", "rating is " + rating + "; 1 to 5 was expected.");
        }
        return new Pour.Result(rating, f.amounts("faults", WORDS), f.textOrEmpty("text"), f.textOrEmpty("next"));
    }

    private static Pour.Reading reading(Fields f) throws RefusedException {
        pigmentbook.colour.Lab lab = f.lab("lab");
        if (lab == null) {
            throw new RefusedException(
                    f.path(), "missing-field", "\"lab\" is missing; three numbers [L, a, b] were expected.");
        }
        return new Pour.Reading(
                lab,
                f.amount("depth", LENGTHS),
                backing(f),
                WORDS.apply(f.textOrEmpty("how")),
                f.date("date"),
                "included".equals(f.text("gloss")));
    }

    private static @Nullable Backing backing(Fields f) throws RefusedException {
        if (!f.has("backing")) {
            return null;
        }
        if (f.isText("backing")) {
            String name = f.needText("backing");
            if (!pigmentbook.book.Settings.BACKINGS.containsKey(name)) {
                throw new RefusedException(
                        f.path() + "/backing",
                        "unknown-word",
                        "backing is \"" + Records.shown(name)
                                + "\"; one of white, black, wood or { \"lab\": [L, a, b] } was expected.");
            }
            return new Backing(name, null);
        }
        return new Backing(null, f.needChild("backing").lab("lab"));
    }
}
