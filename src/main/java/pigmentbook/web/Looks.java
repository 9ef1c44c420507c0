package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.math.BigDecimal;
import java.math.MathContext;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;
import pigmentbook.tint.Loading;
import pigmentbook.tint.Loadings;
import pigmentbook.tint.Look;
import pigmentbook.tint.LookMap;
import pigmentbook.tint.TintRefusedException;
import pigmentbook.tint.Tints;

/** How mixes will look: a wedge of depths over each backing, and one look that answers while a depth is slid. */
public final class Looks {

    private static final List<String> BACKINGS = List.of("white", "wood", "black");
    private static final double[] WEDGE_MM = {1, 1.5, 3, 6, 12, 25};
    private static final double LIST_MM = 6;
    private static final double[] ANSWER_MM = {3, 6, 20};
    private static final List<Double> MAP_MM = List.of(2.0, 3.0, 6.0, 10.0, 20.0);
    private static final Map<Double, String> MAP_FACTORS =
            new TreeMap<>(Map.of(0.25, "¼ ×", 0.5, "½ ×", 1.0, "as it is", 2.0, "2 ×", 4.0, "4 ×"));
    private static final int MOST_LOADINGS = 40;
    /** A loading nearer to the old one than this is the old one. */
    private static final double SAME_LOADING = 0.02;

    private static final MathContext WEIGHED_TO = new MathContext(3);

    private Looks() {}

    /** A chip: what a mix will look like at a depth over a backing; without a colour where nobody may mix it so. */
    public record Chip(String depth, String hex, String lab, String spread, String about) {}

    /** The chips of a row, over one backing or with so much of all pigments. */
    public record Over(String backing, List<Chip> chips) {}

    /** How a look changes with its depth; {@code use} asks a recipe's page for the loading that keeps it. */
    public record Change(
            String wasHex,
            String willHex,
            String wasAbout,
            String willAbout,
            String away,
            String factor,
            String loadings,
            String use) {}

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints) {
        config.routes.get("/looks", context -> slid(context, book.now().book(), tints));
    }

    /** Returns the wedge of a mix, or an empty list with the reason told where it can't be worked out. */
    static List<Over> wedge(Tints tints, List<Loading> loadings, String resin, double[] depthsMm) {
        List<Over> rows = new ArrayList<>();
        for (String backing : BACKINGS) {
            List<Chip> chips = new ArrayList<>();
            for (double depth : depthsMm) {
                chips.add(chip(tints, loadings, resin, depth, backing));
            }
            rows.add(new Over(backing, chips));
        }
        return rows;
    }

    static Chip chip(Tints tints, List<Loading> loadings, String resin, double depthMm, String backing) {
        return chip(tints.look(loadings, resin, depthMm, new Backing(backing, null)), depthMm, backing);
    }

    private static Chip chip(Look look, double depthMm, String backing) {
        String depth = Numbers.plain(Math.rint(depthMm * 10) / 10) + " mm";
        String hex = Srgb.hex(look.lab());
        return new Chip(
                depth,
                hex,
                shown(look.lab()),
                Numbers.fixed(look.spreadDe00(), 1),
                "worked out, " + depth + " over " + backing + ", " + hex + ", ± " + Numbers.fixed(look.spreadDe00(), 1)
                        + (Srgb.shows(look.lab()) ? "" : ", more vivid than a screen shows"));
    }

    static String shown(Lab lab) {
        return Numbers.fixed(lab.l(), 1) + ", " + Numbers.fixed(lab.a(), 1) + ", " + Numbers.fixed(lab.b(), 1);
    }

    /** Returns looks with less and more of all pigments against depths, over one backing. */
    private static List<Over> map(Tints tints, List<Loading> loadings, String resin, String backing) {
        LookMap map = LookMap.of(
                tints, loadings, resin, List.copyOf(MAP_FACTORS.keySet()), MAP_MM, new Backing(backing, null));
        List<String> names = List.copyOf(MAP_FACTORS.values());
        List<Over> rows = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            List<Chip> chips = new ArrayList<>();
            for (int j = 0; j < MAP_MM.size(); j++) {
                double depthMm = MAP_MM.get(j);
                chips.add(map.rows()
                        .get(i)
                        .get(j)
                        .map(look -> chip(look, depthMm, backing))
                        .orElseGet(() -> new Chip(Numbers.plain(depthMm) + " mm", "", "", "", "above top loading")));
            }
            rows.add(new Over(names.get(i), chips));
        }
        return rows;
    }

    /** Puts the wedge of a revision into a page's values; with nothing known it says what to do. */
    static void fill(Map<String, Object> values, Book book, LiveTints live, Recipe.Revision revision) {
        List<Over> wedge = List.of();
        List<Over> map = List.of();
        String told = "";
        String query = "";
        Tints tints = live.of(book);
        if (tints == null) {
            told = "The looks are being worked out. Load this page again in a moment.";
        } else {
            try {
                List<Loading> loadings = Loadings.of(book, revision);
                wedge = wedge(tints, loadings, revision.resinId(), WEDGE_MM);
                map = map(tints, loadings, revision.resinId(), BACKINGS.get(0));
                query = query(loadings, revision.resinId());
            } catch (TintRefusedException e) {
                told = String.valueOf(e.getMessage());
            }
        }
        values.put("wedge", wedge);
        values.put("lookMap", map);
        values.put("wedgeTold", told);
        values.put("lookQuery", query);
    }

    /** Returns how a mix is named in the address of its look; empty where its look can't be worked out. */
    static String queryOf(Book book, LiveTints live, Recipe.Revision revision) {
        Tints tints = live.of(book);
        try {
            List<Loading> loadings = Loadings.of(book, revision);
            Set<String> read = tints == null ? Set.of() : tints.known();
            boolean known = tints != null && loadings.stream().allMatch(each -> read.contains(each.pigmentId()));
            return known ? query(loadings, revision.resinId()) : "";
        } catch (TintRefusedException e) {
            return "";
        }
    }

    /** Returns how a revision looks at 6 mm over white; null where a pigment of it has no reading. */
    static @Nullable Chip listed(Book book, Tints tints, Recipe.Revision revision) {
        try {
            return chip(tints, Loadings.of(book, revision), revision.resinId(), LIST_MM, BACKINGS.get(0));
        } catch (TintRefusedException e) {
            return null;
        }
    }

    static List<Over> answer(Tints tints, List<Loading> loadings, String resin) {
        return wedge(tints, loadings, resin, ANSWER_MM);
    }

    static String query(List<Loading> loadings, String resin) {
        StringBuilder query = new StringBuilder("resin=" + resin);
        for (Loading each : loadings) {
            query.append("&p=").append(each.pigmentId()).append(':').append(Numbers.plain(each.percent()));
        }
        return query.toString();
    }

    /** Reads loadings as an address carries them: {@code p=amber-paste:1.2}. */
    static List<Loading> loadings(List<String> texts) {
        if (texts.size() > MOST_LOADINGS) {
            throw new TintRefusedException("That is too many pigments for one mix.");
        }
        List<Loading> loadings = new ArrayList<>();
        for (String text : texts) {
            int colon = text.indexOf(':');
            String percent = text.substring(colon + 1);
            if (colon < 1 || !percent.matches("[0-9]{1,3}(\\.[0-9]{1,20})?")) {
                throw new TintRefusedException(
                        "\"" + text + "\" is no pigment with its percent, such as amber-paste:1.2.");
            }
            loadings.add(new Loading(text.substring(0, colon), Double.parseDouble(percent)));
        }
        return loadings;
    }

    /** One look, and which loading keeps it at another depth. */
    private static void slid(Context context, Book book, LiveTints live) {
        Map<String, Object> values = new HashMap<>();
        values.put("chip", new Chip("", "#808080", "", "", ""));
        values.put("told", "");
        Tints tints = live.of(book);
        try {
            if (tints == null) {
                throw new TintRefusedException("The looks are being worked out. Try again in a moment.");
            }
            double depth = depth(context.queryParam("depth"));
            String backing = context.queryParam("backing");
            if (backing == null || !BACKINGS.contains(backing)) {
                throw new TintRefusedException("Say what lies beneath: white, wood or black.");
            }
            List<Loading> loadings = loadings(context.queryParams("p"));
            values.put("chip", chip(tints, loadings, String.valueOf(context.queryParam("resin")), depth, backing));
        } catch (TintRefusedException | BadAmountException e) {
            values.put("told", String.valueOf(e.getMessage()));
        }
        Pages.show(context, "look.jte", values);
    }

    static double depth(@Nullable String text) {
        if (text == null || text.isBlank()) {
            throw new TintRefusedException("Type the depth, such as 6 mm.");
        }
        double mm = Length.parse(Formula.withUnit(text.strip(), "mm")).mm();
        if (!(mm > 0)) {
            throw new TintRefusedException("A depth of \"" + text + "\" can't be looked through; give one above 0.");
        }
        return mm;
    }

    /**
     * Returns how the look changes when a mix goes from one depth to another, or null where it can't be worked out.
     *
     * @param revision the formula that is mixed
     * @param saved the recipe's revision that it comes from
     */
    static @Nullable Change change(
            Book book,
            LiveTints live,
            Recipe.Revision revision,
            Recipe.Revision saved,
            double fromMm,
            double toMm,
            String backing) {
        Tints tints = live.of(book);
        if (tints == null || !(fromMm > 0) || !(toMm > 0)) {
            return null;
        }
        try {
            List<Loading> loadings = Loadings.of(book, revision);
            String resin = revision.resinId();
            Backing behind = new Backing(backing, null);
            Look was = tints.look(loadings, resin, fromMm, behind);
            Look will = tints.look(loadings, resin, toMm, behind);
            double factor = loadings.isEmpty() ? 1 : tints.factorKeepingTheLook(loadings, resin, fromMm, toMm, behind);
            double sum = loadings.stream().mapToDouble(Loading::percent).sum();
            return new Change(
                    Srgb.hex(was.lab()),
                    Srgb.hex(will.lab()),
                    Numbers.fixed(fromMm, 1) + " mm over " + backing,
                    Numbers.fixed(toMm, 1) + " mm over " + backing,
                    Numbers.fixed(Ciede2000.between(was.lab(), will.lab()), 1) + " ± "
                            + Numbers.fixed(Math.hypot(was.spreadDe00(), will.spreadDe00()), 1),
                    Numbers.fixed(factor, 2),
                    Numbers.fixed(sum * factor, 2),
                    Math.abs(factor - 1) < SAME_LOADING ? "" : percents(revision, saved, factor));
        } catch (TintRefusedException e) {
            return null;
        }
    }

    /**
     * Returns the address that puts a formula's percents times a factor, and no others, into a saved revision's form.
     */
    private static String percents(Recipe.Revision revision, Recipe.Revision saved, double factor) {
        StringBuilder query = new StringBuilder("revision=" + saved.number() + "&of=")
                .append(URLEncoder.encode(revision.percentOf().words(), StandardCharsets.UTF_8));
        for (Recipe.PigmentLoading each : saved.pigments()) {
            if (revision.pigments().stream().noneMatch(own -> own.pigmentId().equals(each.pigmentId()))) {
                query.append("&percent-").append(each.pigmentId()).append('=');
            }
        }
        for (Recipe.PigmentLoading each : revision.pigments()) {
            BigDecimal percent =
                    BigDecimal.valueOf(each.percent().percent() * factor).round(WEIGHED_TO);
            query.append("&percent-").append(each.pigmentId()).append('=');
            query.append(URLEncoder.encode(Numbers.plain(percent.doubleValue()) + " %", StandardCharsets.UTF_8));
        }
        return query.toString();
    }
}
