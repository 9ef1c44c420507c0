package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.Mold;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Settings;
import pigmentbook.mix.AsPoured;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.mix.Mixer;
import pigmentbook.mix.WasAndWill;
import pigmentbook.mix.Workings;

/** A mix: one figure leads, all others follow while somebody types. */
public final class MixPage {

    private static final double USUAL_LOOK_MM = 6;
    private static final String STANDING = "standing-";

    private MixPage() {}

    /** A row of as it was and as it will be. */
    public record WasWill(String what, String was, String will, String changes) {}

    /** One item in all cups. */
    public record InAll(String id, String name, String grams, String typed, boolean leads, String cost) {}

    /** One item to weigh. */
    public record Weigh(String name, String each, String range, String display) {}

    /** One layer's cups. */
    public record LayerView(int number, String caption, String cups, List<Weigh> items) {}

    /** What a lot gives. */
    public record Taken(String name, String lot, String takes, String left, double has, double take, String good) {}

    /** One caution. */
    public record CautionView(String kind, String word, String text, String basis) {}

    /** One of a recipe of sample chips. */
    public record Chip(int number, String percents, boolean current) {}

    /** A choice of mold. */
    public record MoldChoice(String id, String name, boolean chosen) {}

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints, Clock clock) {
        config.routes.get(
                "/recipes/{id}/mix",
                context -> show(context, book.now().book(), tints, clock, context.pathParam("id")));
        MixSheets.addTo(config, book, clock);
    }

    /** Returns the pour that is to be made again, or null where none is named. */
    private static @Nullable Pour asked(Context context, Book book, Recipe recipe) {
        String id = context.queryParam("pour");
        if (id == null || id.isEmpty()) {
            return null;
        }
        Pour pour = book.pours().get(id);
        if (pour == null || !pour.recipeId().equals(recipe.id())) {
            throw new NotThereException("The recipe " + recipe.name() + " has no such pour.");
        }
        return pour;
    }

    private static Recipe.Revision revision(Context context, Recipe recipe, @Nullable Pour pour) {
        if (context.queryParam("revision") != null || pour == null) {
            return RecipePage.revision(context, recipe);
        }
        Recipe.Revision poured = recipe.revision(pour.revision());
        return poured == null ? recipe.current() : poured;
    }

    private static @Nullable Pour last(Book book, Recipe recipe) {
        Recipe.LookAt look = recipe.look();
        Pour pour = look == null ? null : book.pours().get(look.pourId());
        List<Pour> pours = book.madeOf(recipe.id());
        return pour != null ? pour : pours.isEmpty() ? null : pours.get(pours.size() - 1);
    }

    private static void show(Context context, Book book, LiveTints tints, Clock clock, String id) {
        Recipe recipe = RecipePage.recipe(book, id);
        Pour again = asked(context, book, recipe);
        Recipe.Revision revision = revision(context, recipe, again);
        Pour was = again == null ? last(book, recipe) : again;
        MixForm form = MixForm.of(context, book, usualMold(book, was));
        Map<String, Object> values = new HashMap<>(form.values());
        values.put("id", recipe.id());
        values.put("name", recipe.name());
        values.put("revision", revision.number());
        String query = context.queryString() == null ? "" : context.queryString();
        values.put("query", query);
        values.put("queryAsWritten", without(query, "as"));
        values.put("queryOfAll", without(query, "revision"));
        values.put("pour", again == null ? "" : again.id());
        values.put("pourDay", again == null || again.started() == null ? "" : Figures.day(again.started()));
        values.put("molds", molds(book, form.mold()));
        values.put("chips", recipe.tags().contains(ColourCards.CHIPS) ? chips(recipe, revision) : List.of());
        values.put("as", asWeighed(context) ? "weighed" : "written");
        Mix mix = null;
        String problem = "";
        String problemAt = "";
        String cannot = "This can’t be met.";
        try {
            mix = mix(context, book, recipe, revision, form.request(LocalDate.now(clock)));
        } catch (MixForm.BadFieldException e) {
            problem = String.valueOf(e.getMessage());
            problemAt = e.field();
            cannot = e.isAmbiguous() ? "Which do you mean?" : "This can’t be read.";
        } catch (MixRefusedException e) {
            problem = String.valueOf(e.getMessage());
            problemAt = form.leadingField();
        }
        values.put("cannot", cannot);
        values.put("problemAt", problemAt);
        Looks.Change look = lookChange(book, tints, mix, revision, was);
        values.put("look", look);
        Double deep = depthMm(mix);
        values.put("lookMm", deep == null ? USUAL_LOOK_MM : Math.max(0.5, Math.rint(deep * 2) / 2));
        values.put("lookQuery", Looks.queryOf(book, tints, mix == null ? revision : mix.revision()));
        values.put("problem", problem);
        values.put("volume", form.volume());
        values.put("total", form.total());
        fill(values, book, mix, was, look, form, ZonedDateTime.now(clock));
        Pages.show(context, "mix.jte", values);
    }

    private static List<Chip> chips(Recipe recipe, Recipe.Revision current) {
        return recipe.revisions().stream()
                .map(each -> new Chip(
                        each.number(),
                        each.pigments().stream()
                                .map(loading -> loading.percent().written())
                                .collect(Collectors.joining(", ")),
                        each.number() == current.number()))
                .toList();
    }

    /** Returns a query without one of its parameters. */
    private static String without(String query, String name) {
        return Arrays.stream(query.split("&", -1))
                .filter(each -> !each.startsWith(name + "="))
                .collect(Collectors.joining("&"));
    }

    private static boolean asWeighed(Context context) {
        return "weighed".equals(context.queryParam("as"));
    }

    /** Works the mix out that the page's address asks for: as the revision is written, or as a pour was weighed. */
    private static Mix mix(
            Context context, Book book, Recipe recipe, Recipe.Revision revision, pigmentbook.mix.MixRequest request) {
        Pour pour = asked(context, book, recipe);
        return pour != null && asWeighed(context)
                ? AsPoured.of(book, pour, null).mix(book, request)
                : Mixer.mix(book, recipe, revision, request);
    }

    /** Works the mix out that the page's address asks for. */
    static Mix mix(Context context, Book book, Clock clock, Recipe recipe) {
        return mix(context, book, clock, recipe, revision(context, recipe, asked(context, book, recipe)));
    }

    /** Works the mix out that the page's address asks for, of a revision. */
    static Mix mix(Context context, Book book, Clock clock, Recipe recipe, Recipe.Revision revision) {
        Pour pour = asked(context, book, recipe);
        MixForm form = MixForm.of(context, book, usualMold(book, pour == null ? last(book, recipe) : pour));
        return mix(context, book, recipe, revision, form.request(LocalDate.now(clock)));
    }

    private static String usualMold(Book book, @Nullable Pour was) {
        return was != null && was.moldId() != null && book.molds().containsKey(was.moldId())
                ? was.moldId()
                : book.molds().keySet().stream().findFirst().orElse("");
    }

    /** How the look changes between the depth it was poured or read at and the new one; null where nobody knows. */
    private static Looks.@Nullable Change lookChange(
            Book book, LiveTints tints, @Nullable Mix mix, Recipe.Revision saved, @Nullable Pour was) {
        Double will = depthMm(mix);
        Double before = was == null ? null : WasAndWill.depthMm(was);
        if (before == null && mix != null && mix.look() != null) {
            before = mix.look().depthMm();
        }
        return mix == null || will == null || before == null
                ? null
                : Looks.change(book, tints, mix.revision(), saved, before, will, ground(mix));
    }

    private static @Nullable Double depthMm(@Nullable Mix mix) {
        return mix == null ? null : mix.layers().get(mix.layers().size() - 1).toMm();
    }

    /** What lay behind when the colour was read, where the book has its reading; else white. */
    private static String ground(Mix mix) {
        String backing = mix.look() == null ? null : mix.look().backing();
        return backing != null && Settings.BACKINGS.containsKey(backing) ? backing : "white";
    }

    private static List<MoldChoice> molds(Book book, String chosen) {
        return book.molds().values().stream()
                .map((Mold mold) ->
                        new MoldChoice(mold.id(), mold.name(), mold.id().equals(chosen)))
                .toList();
    }

    private static void fill(
            Map<String, Object> values,
            Book book,
            @Nullable Mix mix,
            @Nullable Pour was,
            Looks.@Nullable Change look,
            MixForm form,
            ZonedDateTime now) {
        values.put("there", mix != null);
        values.put(
                "where",
                mix == null || mix.mold() == null ? "" : " for " + mix.mold().name());
        String hex =
                mix == null || mix.look() == null ? "" : Figures.hex(mix.look().lab());
        values.put("hex", hex);
        values.put("about", mix == null ? "" : about(mix));
        values.put("figures", mix == null ? Map.of() : figures(values, mix, form));
        WasAndWill both = mix == null || was == null ? null : WasAndWill.of(book, mix, was);
        values.put("rows", both == null ? List.of() : wasWill(both));
        values.put("inKind", both == null ? List.of() : both.inKind());
        values.put("inAll", inAll(mix, form));
        values.put(
                "wasOn",
                was == null || was.started() == null
                        ? ""
                        : was.started().toLocalDate().toString());
        // Drawn in the colour it will have, where that can be worked out.
        String drawn = look == null ? hex : look.willHex();
        values.put("section", mix == null ? "" : section(mix, drawn));
        values.put("plan", mix == null || mix.mold() == null ? "" : plan(mix.mold(), drawn));
        values.put(
                "layers",
                mix == null
                        ? List.of()
                        : mix.layers().stream().map(layer -> layer(mix, layer)).toList());
        values.put("layerCount", form.layers());
        values.put("taken", mix == null ? List.of() : taken(book, mix));
        // What the pigments' readings say of the look stands above; the rule of thumb knows less.
        String better = look == null ? "" : Caution.KEEPING_THE_LOOK;
        values.put("cautions", mix == null ? List.of() : cautions(mix, false, better));
        values.put("standing", mix == null ? List.of() : cautions(mix, true));
        values.put("times", mix == null ? "" : TimeDrawing.layer(mix, true) + TimeDrawing.layer(mix, false));
        values.put("piece", mix == null ? "" : pieceTimes(mix, now.withSecond(0).withNano(0)));
        values.put("working", mix == null ? List.of() : Workings.of(mix));
    }

    private static String pieceTimes(Mix mix, ZonedDateTime begun) {
        return TimeDrawing.piece(mix, begun, true) + TimeDrawing.piece(mix, begun, false);
    }

    private static String about(Mix mix) {
        int cups = mix.layers().stream().mapToInt(layer -> layer.cups().size()).sum();
        return mix.layers().size()
                + (mix.layers().size() == 1 ? " layer, " : " layers, ")
                + cups
                + (cups == 1 ? " cup." : " cups.");
    }

    private static Map<String, String> figures(Map<String, Object> values, Mix mix, MixForm form) {
        Map<String, String> figures = new LinkedHashMap<>();
        int cups = mix.layers().stream().mapToInt(layer -> layer.cups().size()).sum();
        figures.put("cups", String.valueOf(cups));
        figures.put(
                "cupsNote",
                mix.layers().stream()
                                .map(layer -> String.valueOf(layer.cups().size()))
                                .collect(Collectors.joining(", "))
                        + " a layer");
        figures.put("layers", String.valueOf(mix.layers().size()));
        figures.put("working", mix.workingTimeMin() == null ? "not stated" : Figures.plain(mix.workingTimeMin(), 1));
        figures.put("workingNote", "at " + Figures.plain(mix.roomCelsius(), 1) + " °C, rule of thumb");
        Mix.Cost cost = mix.totals().cost();
        figures.put("cost", cost == null ? "no price" : pigmentbook.quantity.Numbers.fixed(cost.amount(), 2));
        figures.put("costUnit", cost == null ? "" : cost.currency());
        figures.put(
                "limited",
                mix.limitedBy() == null
                        ? ""
                        : "The shelf makes this much; first to run out: " + mix.limitedBy()
                                + (mix.alsoLimitedBy() == null ? "" : ", then " + mix.alsoLimitedBy()) + ".");
        // A figure that follows is shown in its field; the one that leads stays as it was typed.
        if (!form.lead().equals("volume")) {
            values.put("volume", mix.roomMl() == null ? "" : Figures.plain(mix.roomMl(), 1));
        }
        if (!form.lead().equals("total")) {
            values.put("total", Figures.plain(mix.totals().totalGrams(), 2));
        }
        return figures;
    }

    private static List<WasWill> wasWill(WasAndWill both) {
        return both.rows().stream()
                .map(row -> {
                    Double factor = row.factor();
                    return new WasWill(
                            row.what(),
                            row.was() == null ? "" : Figures.of(row.was(), row.decimals()),
                            row.will() == null ? "" : Figures.of(row.will(), row.decimals()),
                            factor == null ? "" : "× " + Figures.plain(factor, factor < 10 ? 2 : 0));
                })
                .toList();
    }

    /** Returns each item's grams in all cups: typing one lets it lead. */
    private static List<InAll> inAll(@Nullable Mix mix, MixForm form) {
        if (mix == null) {
            return List.of();
        }
        List<InAll> rows = new ArrayList<>();
        for (Mix.Weighing weighing : mix.layers().get(0).cups().get(0).items()) {
            Item item = weighing.item();
            boolean leads = form.lead().equals(item.id());
            Mix.Cost cost = mix.totals().itemCosts().get(item);
            rows.add(new InAll(
                    item.id(),
                    weighing.name(),
                    leads
                            ? Pen.escaped(form.amount())
                            : Figures.of(
                                    mix.totals().grams(item),
                                    weighing.scale().step().decimals()),
                    leads ? form.amount() : "",
                    leads,
                    cost == null ? "" : Figures.of(cost.amount(), 2)));
        }
        boolean leads = form.lead().equals("resin");
        rows.add(new InAll(
                "resin",
                "Mixed resin",
                leads ? Pen.escaped(form.amount()) : Figures.of(mix.totals().mixedResinGrams(), 1),
                leads ? form.amount() : "",
                leads,
                ""));
        return rows;
    }

    private static String section(Mix mix, String hex) {
        List<Double> tops = new ArrayList<>();
        for (Mix.Layer layer : mix.layers()) {
            if (layer.toMm() == null) {
                return "";
            }
            tops.add(layer.toMm());
        }
        if (mix.mold() == null) {
            return "";
        }
        String colour = hex.isEmpty() ? null : hex;
        return MoldDrawing.section(mix.mold(), tops, colour, true)
                + MoldDrawing.section(mix.mold(), tops, colour, false);
    }

    private static String plan(Mold mold, String hex) {
        String colour = hex.isEmpty() ? null : hex;
        return MoldDrawing.plan(mold, colour, true) + MoldDrawing.plan(mold, colour, false);
    }

    private static LayerView layer(Mix mix, Mix.Layer layer) {
        Mix.Cup cup = layer.cups().get(0);
        List<Weigh> items = new ArrayList<>();
        for (Mix.Weighing weighing : cup.items()) {
            int decimals = weighing.scale().step().decimals();
            items.add(new Weigh(
                    weighing.name(),
                    Figures.of(weighing.weighGrams(), decimals),
                    pigmentbook.quantity.Numbers.fixed(weighing.lowGrams(), decimals) + "–"
                            + pigmentbook.quantity.Numbers.fixed(weighing.highGrams(), decimals),
                    Figures.of(weighing.displayGrams(), decimals)));
        }
        String depth = layer.fromMm() == null || layer.toMm() == null
                ? ""
                : ", " + Figures.plain(layer.fromMm(), 1) + "–" + Figures.plain(layer.toMm(), 1) + " mm";
        String start = layer.startHours() == 0 ? "" : ", from " + Figures.plain(layer.startHours(), 1) + " h";
        return new LayerView(
                layer.number(),
                "Layer " + layer.number() + " of " + mix.layers().size() + depth + start,
                (layer.cups().size() == 1 ? "1 cup of " : layer.cups().size() + " equal cups of ")
                        + Figures.plain(cup.totalGrams(), 0) + " g",
                items);
    }

    private static List<Taken> taken(Book book, Mix mix) {
        Map<String, Double> grams = new LinkedHashMap<>();
        Map<String, String> names = new HashMap<>();
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Weighing weighing : layer.cups().get(0).items()) {
                for (Mix.LotGrams lot : weighing.lots()) {
                    grams.merge(lot.lotId(), lot.grams() * layer.cups().size(), Double::sum);
                    names.put(lot.lotId(), weighing.name());
                }
            }
        }
        List<Taken> taken = new ArrayList<>();
        grams.forEach((id, sum) -> {
            Lot lot = book.lots().get(id);
            if (lot != null) {
                double received = Math.max(lot.quantity().grams(), 1e-9);
                double left = book.leftGrams(lot);
                taken.add(new Taken(
                        names.getOrDefault(id, ""),
                        id,
                        Figures.of(sum, 2),
                        Figures.of(left - sum, 2),
                        clamp(100 * (left - sum) / received),
                        clamp(100 * Math.min(sum, left) / received),
                        lot.expires() == null ? "none" : lot.expires().toString()));
            }
        });
        return taken;
    }

    private static double clamp(double percent) {
        return Math.round(Math.max(0, Math.min(100, percent)) * 10) / 10.0;
    }

    static List<CautionView> cautions(Mix mix, boolean standing) {
        return cautions(mix, standing, "");
    }

    /** Returns the standing cautions or all others, but for the ones of a code. */
    private static List<CautionView> cautions(Mix mix, boolean standing, String without) {
        return mix.cautions().stream()
                .filter(caution -> caution.code().startsWith(STANDING) == standing)
                .filter(caution -> !caution.code().equals(without))
                .map(caution -> new CautionView(
                        caution.severity().name().toLowerCase(Locale.ROOT),
                        word(caution.severity()),
                        caution.text(),
                        caution.basis()))
                .toList();
    }

    private static String word(Caution.Severity severity) {
        return switch (severity) {
            case STOP -> "Stop.";
            case WARN -> "Beware.";
            case NOTE -> "Note.";
        };
    }

    /** Returns the value of a step of the working, with its unit. */
    public static String shown(Mix.Working step) {
        double size = Math.abs(step.value());
        return Figures.plain(step.value(), size < 1 ? 5 : size < 100 ? 3 : 1)
                + (step.unit().isEmpty() ? "" : " " + step.unit());
    }
}
