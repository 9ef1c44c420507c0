package pigmentbook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.NearestReadings;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.mix.LoadingCosts;
import pigmentbook.mix.Offers;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Kind;
import pigmentbook.store.RecipeRecords;
import pigmentbook.store.SaveFailedException;
import pigmentbook.tint.Limits;
import pigmentbook.tint.Loading;
import pigmentbook.tint.Match;
import pigmentbook.tint.MatchAnswer;
import pigmentbook.tint.MatchRequest;
import pigmentbook.tint.TintRefusedException;
import pigmentbook.tint.Tints;

/** Which mixes from the shelf make a colour, how near they come and how sure that is. */
public final class MatchPage {

    private static final int MOST_TEXT = 80;
    private static final int ANSWERS = 5;
    private static final int NEAREST = 3;
    private static final double SAMPLE_GRAMS = 40;

    /** Less than this of a pigment is a used-up lot; in g. */
    private static final double USED_UP_GRAMS = 0.05;

    private MatchPage() {}

    /** A pigment that may be used. */
    public record Pick(String id, String name, String left, boolean chosen) {}

    /** The readings of the book as it is now, kept until it changes. */
    private static final class Readings {
        private @Nullable Book book;
        private @Nullable NearestReadings kept;

        synchronized NearestReadings of(Book now) {
            if (kept == null || book != now) {
                book = now;
                kept = new NearestReadings(now);
            }
            return kept;
        }
    }

    /** A reading that comes near. */
    public record Near(String pour, String name, String day, String hex, String away, String where) {}

    /** An answer. */
    public record Answer(
            String name,
            String hex,
            String away,
            String spread,
            String cost,
            String hardest,
            List<Looks.Over> looks,
            List<String> limits,
            List<String> fields) {}

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints, Clock clock) {
        Readings readings = new Readings();
        config.routes.get("/match", context -> show(context, book.now().book(), tints, readings, LocalDate.now(clock)));
        config.routes.post(
                "/match/keep", context -> Acts.done(context, () -> keep(context, book, LocalDate.now(clock))));
    }

    private static String text(Context context, String name, String usual) {
        String text = Acts.asked(context, name, usual, MOST_TEXT);
        return text.isEmpty() ? usual : text;
    }

    private static void show(Context context, Book book, LiveTints live, Readings readings, LocalDate today) {
        Map<String, Object> values = new HashMap<>();
        String resin = text(
                context, "resin", book.resins().keySet().stream().findFirst().orElse(""));
        String colour = text(context, "colour", "");
        String depth = text(context, "depth", "6 mm");
        String backing = text(context, "backing", "white");
        String most = text(context, "most", "3");
        values.put("colour", colour);
        values.put("depth", depth);
        values.put("backing", backing);
        values.put("most", most);
        values.put(
                "resins",
                book.resins().values().stream()
                        .map(each -> new RecipePage.ResinChoice(
                                each.id(), each.name(), each.id().equals(resin)))
                        .toList());
        List<Answer> answers = List.of();
        String told = "";
        String asked = "";
        String reach = "";
        List<Near> nearest = List.of();
        List<Pick> picks = List.of();
        if (!colour.isEmpty()) {
            try {
                Lab target = ColourText.parse(colour);
                asked = Srgb.hex(target);
                nearest = nearest(book, readings.of(book), target);
                Tints tints = live.exactly(book);
                picks = picks(book, tints, resin, Set.copyOf(context.queryParams("use")));
                MatchRequest request = new MatchRequest(
                        target,
                        Looks.depth(depth),
                        new Backing(backing, null),
                        resin,
                        picks.stream().filter(Pick::chosen).map(Pick::id).toList(),
                        most.matches("[1-4]") ? Integer.parseInt(most) : 3,
                        ANSWERS,
                        loadings -> LoadingCosts.perKilogram(book, resin, loadings, today));
                List<MatchAnswer> found = Match.find(tints, request);
                answers = found.stream()
                        .map(each -> answer(book, tints, request, each))
                        .toList();
                values.put("target", Looks.shown(target));
                reach = found.isEmpty() ? "" : found.get(0).hindrance(depth + " deep over " + backing);
            } catch (TintRefusedException | BadAmountException e) {
                told = String.valueOf(e.getMessage());
            }
        }
        values.putIfAbsent("target", "");
        values.put("asked", asked);
        values.put("told", told);
        values.put("reach", reach);
        String photo = text(context, "photo", "");
        values.put("photo", photo);
        values.put("off", off(photo, colour));
        values.put("nearest", nearest);
        values.put("picks", picks);
        values.put("answers", answers);
        Pages.show(context, "match.jte", values);
    }

    /** Returns how far off a colour from a photo may be; nothing once another one was typed. */
    private static String off(String photo, String colour) {
        String off = photo.startsWith(colour + "; ") ? photo.substring(colour.length() + 2) : "";
        return off.matches("[0-9]{1,2}\\.[0-9]") ? off : "";
    }

    private static List<Near> nearest(Book book, NearestReadings readings, Lab target) {
        List<Near> nearest = new ArrayList<>();
        for (NearestReadings.Found each : readings.nearest(target, NEAREST)) {
            Pour pour = Objects.requireNonNull(book.pours().get(each.pourId()));
            Recipe recipe = book.recipes().get(each.recipeId());
            nearest.add(new Near(
                    each.pourId(),
                    recipe == null ? each.recipeId() : recipe.name(),
                    pour.started() == null ? pour.id() : Figures.day(pour.started()),
                    Srgb.hex(each.lab()),
                    Numbers.fixed(each.dE00(), 1),
                    Figures.where(pour.readings().get(each.reading()))));
        }
        return nearest;
    }

    /**
     * Every pigment that was read. Those asked for are chosen; if none is, all whose lots are not used up; if all are,
     * every one, as nothing else can be matched with.
     */
    private static List<Pick> picks(Book book, Tints tints, String resinId, Set<String> asked) {
        Set<String> known = tints.known();
        boolean wanted = asked.stream().anyMatch(known::contains);
        List<Pick> picks = new ArrayList<>();
        for (String id : known) {
            Pigment pigment = book.pigments().get(id);
            if (pigment != null) {
                List<Lot> lots = book.lotsOf(resinId, Item.of(id));
                double left = lots.stream()
                        .mapToDouble(lot -> Math.max(0, book.leftGrams(lot)))
                        .sum();
                boolean usedUp = !lots.isEmpty() && left < USED_UP_GRAMS;
                picks.add(new Pick(
                        id,
                        pigment.name(),
                        lots.isEmpty() ? "no lot" : usedUp ? "used up" : Figures.plain(left, 1) + " g",
                        wanted ? asked.contains(id) : !usedUp));
            }
        }
        return picks.stream().anyMatch(Pick::chosen)
                ? picks
                : picks.stream()
                        .map(each -> new Pick(each.id(), each.name(), each.left(), true))
                        .toList();
    }

    private static Answer answer(Book book, Tints tints, MatchRequest request, MatchAnswer found) {
        List<String> names = new ArrayList<>();
        List<String> fields = new ArrayList<>();
        String hardest = "";
        double least = Double.MAX_VALUE;
        for (Loading each : found.loadings()) {
            Pigment pigment = book.pigments().get(each.pigmentId());
            String name = pigment == null ? each.pigmentId() : pigment.name();
            names.add(name + " " + Figures.plain(each.percent(), 3) + " %");
            fields.add(each.pigmentId() + ":" + Numbers.plain(Math.rint(each.percent() * 1e5) / 1e5));
            double grams = each.percent() / 100 * SAMPLE_GRAMS;
            if (grams < least) {
                least = grams;
                hardest = name + " " + Numbers.fixed(grams, 3) + " g"
                        + (grams < Offers.leastPigmentGrams(book.settings().fineScale())
                                ? ", too little for the fine scale: take a concentrate or a bigger sample"
                                : "");
            }
        }
        return new Answer(
                found.loadings().isEmpty() ? "Clear resin" : String.join(", ", names),
                Srgb.hex(found.lab()),
                Numbers.fixed(found.dE00(), 1),
                Numbers.fixed(found.spreadDe00(), 1),
                found.cost() == null ? "no price" : Numbers.fixed(found.cost(), 2),
                hardest,
                Looks.answer(tints, found.loadings(), request.resinId()),
                Limits.of(book, found.loadings()),
                fields);
    }

    /** Keeps an answer as a recipe, with the colour that was asked for, and leads to a sample of it. */
    private static String keep(Context context, LiveBook live, LocalDate today)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Book book = live.now().book();
        Lab target = ColourText.parse(form(context, "colour"));
        List<Loading> loadings = Looks.loadings(context.formParams("p"));
        String resin = form(context, "resin");
        if (!book.resins().containsKey(resin)) {
            throw new SaveFailedException("Choose a resin that is on the shelf.");
        }
        String name = form(context, "name").isEmpty() ? "Match of " + form(context, "colour") : form(context, "name");
        String id = NewRecords.freeId(book.recipes().keySet(), name, "match");
        live.writer().create(Kind.RECIPE, id, record(id, name, resin, loadings, target, context, today));
        live.reread();
        return "/recipes/" + id + "/mix?lead=total&total=40+g";
    }

    private static ObjectNode record(
            String id, String name, String resin, List<Loading> loadings, Lab target, Context context, LocalDate today)
            throws SaveFailedException {
        ObjectNode recipe = RecipeRecords.begun(id, name, List.of("matched"));
        Map<String, String> percents = new LinkedHashMap<>();
        for (Loading each : loadings) {
            percents.put(each.pigmentId(), Numbers.plain(each.percent()) + " %");
        }
        RecipeRecords.revise(
                recipe,
                today,
                resin,
                Recipe.PercentOf.MIXED_RESIN,
                percents,
                "worked out from readings, not poured yet");
        ObjectNode wanted = recipe.putObject("wanted");
        wanted.putArray("lab").add(target.l()).add(target.a()).add(target.b());
        wanted.put("depth", form(context, "depth")).put("backing", form(context, "backing"));
        return recipe;
    }

    private static String form(Context context, String name) {
        return Acts.text(context, name, MOST_TEXT);
    }
}
