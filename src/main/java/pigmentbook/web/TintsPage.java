package pigmentbook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.colour.Srgb;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Kind;
import pigmentbook.store.RecipeRecords;
import pigmentbook.store.SaveFailedException;
import pigmentbook.tint.Contradiction;
import pigmentbook.tint.Learnt;
import pigmentbook.tint.Limits;
import pigmentbook.tint.PigmentTint;
import pigmentbook.tint.SetAside;
import pigmentbook.tint.Tints;

/**
 * What is known of each pigment's colour: how sure, its ladder read beside worked out, what it does to light, what to
 * pour next.
 */
public final class TintsPage {

    private static final List<String> BANDS =
            List.of("violet", "blue", "blue-green", "green", "yellow", "orange", "red", "deep red");
    private static final double USUAL_TOP_PERCENT = 5;
    private static final double CHIP_MM = 3;
    private static final double[] LADDER = {1.0 / 40, 1.0 / 10, 1.0 / 3, 1};
    private static final int MOST_ID = 60;
    private static final double MUCH = 0.5;

    private TintsPage() {}

    /** A pigment in the list. */
    public record Name(String id, String name, int readings, boolean current) {}

    /** A chip of the ladder: read on the left, worked out on the right. */
    public record Rung(String percent, String about, String read, String guess, String away, String pour) {}

    /** What a recipe with other pigments beside it tells: how many readings, and how far off they are. */
    public record InMixes(String recipe, String name, int readings, String median, String worst) {}

    /** A bar of what it does to light. */
    public record Bar(String band, double x, double takes, double throwsBack) {}

    /** A reading that could not be used. */
    public record Aside(String pour, String why) {}

    /** Two readings of one mix that can't both be right. */
    public record Clash(ClashSide first, ClashSide second, String apart) {}

    /** One of the two. */
    public record ClashSide(String pour, String reading, String hex, String lab, String away, boolean likelier) {}

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints, Clock clock) {
        config.routes.get("/tints", context -> show(context, book.now().book(), tints, null));
        config.routes.get("/tints/{id}", context -> show(context, book.now().book(), tints, context.pathParam("id")));
        config.routes.post(
                "/tints/{id}/chips",
                context -> Acts.done(
                        context,
                        () -> "/recipes/" + chips(context, book, LocalDate.now(clock))
                                + "/mix?lead=total&total=40+g&revision=1"));
        config.routes.post(
                "/tints/{id}/chip-sheets",
                context -> Acts.done(
                        context,
                        () -> "/recipes/" + chips(context, book, LocalDate.now(clock))
                                + "/chips?lead=total&total=40+g"));
    }

    private static void show(Context context, Book book, LiveTints live, @Nullable String asked) {
        Tints tints = live.exactly(book);
        Map<String, PigmentTint> known = new TreeMap<>();
        tints.pigments().forEach(each -> known.put(each.id(), each));
        String id = asked != null
                ? asked
                : known.keySet().stream()
                        .findFirst()
                        .orElse(book.pigments().keySet().stream().findFirst().orElse(""));
        Pigment pigment = book.pigments().get(id);
        if (pigment == null && asked != null) {
            throw new NotThereException("There is no such pigment on the shelf.");
        }
        Map<String, Object> values = new HashMap<>();
        List<Name> names = new ArrayList<>();
        for (Pigment each : book.pigments().values()) {
            PigmentTint tint = known.get(each.id());
            names.add(new Name(
                    each.id(),
                    each.name(),
                    tint == null ? 0 : tint.readings(),
                    each.id().equals(id)));
        }
        names.sort((a, b) -> b.readings() != a.readings() ? b.readings() - a.readings() : a.id().compareTo(b.id()));
        values.put("names", names);
        values.put("id", id);
        values.put("name", pigment == null ? "No pigment yet" : pigment.name());
        values.put("about", pigment == null ? "Begin one on the shelf." : about(pigment));
        values.put("effect", pigment == null ? "" : Limits.of(pigment.kind()));
        PigmentTint tint = known.get(id);
        values.put("there", tint != null);
        values.put("aside", tints.setAside().stream().map(TintsPage::aside).toList());
        values.put(
                "clashes", tints.contradictions().stream().map(TintsPage::clash).toList());
        values.put("top", Numbers.plain(topPercent(pigment)) + " %");
        fill(values, book, tints, tint);
        Pages.show(context, "tints.jte", values);
    }

    private static Aside aside(SetAside each) {
        return new Aside(each.pourId(), "reading " + (each.reading() + 1) + ": " + each.why());
    }

    private static Clash clash(Contradiction each) {
        boolean first = each.first().deltaE00() > each.second().deltaE00();
        return new Clash(side(each.first(), first), side(each.second(), !first), Numbers.fixed(each.deltaE00(), 1));
    }

    private static ClashSide side(Contradiction.Side each, boolean likelier) {
        return new ClashSide(
                each.pourId(),
                "reading " + (each.reading() + 1),
                Srgb.hex(each.lab()),
                Looks.shown(each.lab()),
                Numbers.fixed(each.deltaE00(), 1),
                likelier);
    }

    private static String about(Pigment pigment) {
        String kind = pigment.kind().name().toLowerCase(java.util.Locale.ROOT);
        Pigment.Carrier carrier = pigment.carrier();
        return kind.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + kind.substring(1)
                + (carrier == null
                        ? ""
                        : ", " + carrier.share().written() + " of it "
                                + (carrier.isPartA() ? "part A" : "another liquid"))
                + ".";
    }

    private static double topPercent(@Nullable Pigment pigment) {
        return pigment == null || pigment.topLoading() == null
                ? USUAL_TOP_PERCENT
                : pigment.topLoading().percent();
    }

    private static void fill(Map<String, Object> values, Book book, Tints tints, @Nullable PigmentTint tint) {
        values.put("median", tint == null ? "" : Numbers.fixed(tint.medianDe00(), 1));
        values.put("worst", tint == null ? "" : Numbers.fixed(tint.worstDe00(), 1));
        values.put("spread", tint == null ? "" : Numbers.fixed(tint.spreadDe00(), 1));
        List<Learnt> learnt = tint == null ? List.of() : tints.learntOf(tint.id());
        values.put("ladder", ladder(book, learnt));
        values.put("mixes", inMixes(book, learnt));
        values.put("lots", tint == null ? "" : lots(book, learnt, tint.id()));
        values.put("readings", learnt.size());
        values.put("then", tint == null ? "" : Numbers.fixed(tint.thenDe00(), 1));
        values.put("bars", tint == null ? List.of() : bars(tint));
        values.put("words", tint == null ? "" : words(tint));
        values.put(
                "next",
                tint == null
                        ? ""
                        : Numbers.plain(Math.rint(tint.next().percent() * 1000) / 1000) + " %, "
                                + Numbers.plain(tint.next().depthMm()) + " mm, over "
                                + tint.next().backing());
    }

    /** The readings of this pigment alone, weak to strong; each beside what is worked out for it. */
    private static List<Rung> ladder(Book book, List<Learnt> learnt) {
        return learnt.stream()
                .filter(each -> each.loadings().size() == 1)
                .sorted(Comparator.comparingDouble(
                        each -> each.loadings().get(0).percent()))
                .map(each -> new Rung(
                        Figures.plain(each.loadings().get(0).percent(), 3) + " %",
                        Figures.where(reading(book, each)),
                        Srgb.hex(each.read()),
                        Srgb.hex(each.workedOut()),
                        Numbers.fixed(each.deltaE00(), 1),
                        each.pourId()))
                .toList();
    }

    private static Pour.Reading reading(Book book, Learnt learnt) {
        return Objects.requireNonNull(book.pours().get(learnt.pourId()))
                .readings()
                .get(learnt.reading());
    }

    /** What else tells of it: the recipes it was read in beside other pigments. */
    private static List<InMixes> inMixes(Book book, List<Learnt> learnt) {
        Map<String, List<Double>> offs = new TreeMap<>();
        for (Learnt each : learnt) {
            if (each.loadings().size() > 1) {
                String recipe =
                        Objects.requireNonNull(book.pours().get(each.pourId())).recipeId();
                offs.computeIfAbsent(recipe, none -> new ArrayList<>()).add(each.deltaE00());
            }
        }
        List<InMixes> mixes = new ArrayList<>();
        offs.forEach((id, off) -> {
            Recipe recipe = book.recipes().get(id);
            Collections.sort(off);
            mixes.add(new InMixes(
                    id,
                    recipe == null ? id : recipe.name(),
                    off.size(),
                    Numbers.fixed((off.get((off.size() - 1) / 2) + off.get(off.size() / 2)) / 2, 1),
                    Numbers.fixed(off.get(off.size() - 1), 1)));
        });
        return mixes;
    }

    /** The lots that were in what was read. */
    private static String lots(Book book, List<Learnt> learnt, String pigment) {
        Item item = Item.of(pigment);
        return learnt.stream()
                .map(each -> Objects.requireNonNull(book.pours().get(each.pourId())))
                .flatMap(pour -> pour.layers().stream())
                .flatMap(layer -> layer.cups().stream())
                .flatMap(cup -> cup.weighed().stream())
                .filter(weighed -> weighed.item().equals(item))
                .map(Pour.Weighed::lot)
                .filter(lot -> lot != null && book.lots().containsKey(lot))
                .distinct()
                .sorted()
                .collect(Collectors.joining(", "));
    }

    private static List<Bar> bars(PigmentTint tint) {
        double most = 1e-9;
        for (int i = 0; i < BANDS.size(); i++) {
            most = Math.max(most, Math.max(tint.k().get(i), tint.s().get(i)));
        }
        List<Bar> bars = new ArrayList<>();
        for (int i = 0; i < BANDS.size(); i++) {
            bars.add(new Bar(
                    BANDS.get(i),
                    30 + 62 * i,
                    Math.rint(1300 * tint.k().get(i) / most) / 10,
                    Math.rint(1300 * tint.s().get(i) / most) / 10));
        }
        return bars;
    }

    /** Says in plain words what the figures mean. */
    private static String words(PigmentTint tint) {
        double most = tint.k().stream().mapToDouble(Double::doubleValue).max().orElse(0);
        double least = tint.k().stream().mapToDouble(Double::doubleValue).min().orElse(0);
        double back =
                tint.s().stream().mapToDouble(Double::doubleValue).average().orElse(0);
        List<String> takes = new ArrayList<>();
        List<String> lets = new ArrayList<>();
        for (int i = 0; i < BANDS.size(); i++) {
            (tint.k().get(i) > MUCH * most ? takes : lets).add(BANDS.get(i));
        }
        String colour = most < 2 * least
                ? "It takes all light away about alike, so it darkens without a hue of its own."
                : "It takes most " + String.join(", ", takes) + " light away"
                        + (lets.isEmpty() ? "." : " and lets more of " + String.join(", ", lets) + " pass.");
        String hides = back > most
                ? " It throws much light back, so it hides its ground soon."
                : back > most / 10
                        ? " It throws some light back, so it hides its ground when it is deep or strong enough."
                        : " It throws little light back, so what lies beneath is seen through it.";
        return colour + hides;
    }

    /** Returns the id of the recipe of sample chips of a pigment, weak to strong; begun where there is none yet. */
    private static String chips(Context context, LiveBook live, LocalDate today)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Book book = live.now().book();
        Pigment pigment = book.pigments().get(context.pathParam("id"));
        if (pigment == null || book.resins().isEmpty()) {
            throw new NotThereException("There is no such pigment, or no resin, on the shelf.");
        }
        String stem = "chips-" + pigment.id();
        String id = stem.length() > MOST_ID ? stem.substring(0, MOST_ID) : stem;
        if (!book.recipes().containsKey(id)) {
            live.writer().create(Kind.RECIPE, id, chipsOf(book, pigment, id, today));
            live.reread();
        }
        return id;
    }

    private static ObjectNode chipsOf(Book book, Pigment pigment, String id, LocalDate today)
            throws SaveFailedException {
        ObjectNode recipe = RecipeRecords.begun(id, "Chips of " + pigment.name(), List.of(ColourCards.CHIPS));
        double top = topPercent(pigment);
        String resin = book.resins().keySet().iterator().next();
        for (int i = 0; i < LADDER.length; i++) {
            RecipeRecords.revise(
                    recipe,
                    today,
                    resin,
                    Recipe.PercentOf.MIXED_RESIN,
                    Map.of(pigment.id(), Figures.plain(top * LADDER[i], 4) + " %"),
                    "chip " + (i + 1) + " of " + LADDER.length);
        }
        recipe.withArray("steps")
                .addObject()
                .put("text", "Pour " + Numbers.plain(CHIP_MM) + " mm deep, one chip over white and one over black")
                .put("when", "");
        recipe.put("notes", "Sample chips, to learn what the pigment does.");
        return recipe;
    }
}
