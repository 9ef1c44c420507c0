package pigmentbook.mix;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import pigmentbook.book.Book;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Numbers;

/** What is not the same as in the pour that is made again. */
final class AgainCautions {

    /** A percent this far from the written one is told: strong colours are weighed within 2 %. */
    private static final double SAME_PERCENT = 0.02;

    /** Without a stated window a ratio this far off is told: common practice, no source. */
    private static final double SAME_RATIO = 0.02;

    /** Rooms this near to each other are the same room: common practice, no source. */
    private static final double SAME_ROOM_CELSIUS = 3;

    private static final double SAME_DEPTH_MM = 0.5;

    private final AsPoured was;
    private final Mix mix;
    private final List<Caution> found = new ArrayList<>();

    private AgainCautions(AsPoured was, Mix mix) {
        this.was = was;
        this.mix = mix;
    }

    static List<Caution> of(Book book, AsPoured was, Mix mix) {
        AgainCautions cautions = new AgainCautions(was, mix);
        cautions.ratio();
        cautions.lots();
        cautions.written(book);
        cautions.depth();
        cautions.backing();
        cautions.room();
        return cautions.found;
    }

    private void add(String code, Caution.Severity severity, String text, String basis) {
        found.add(new Caution(code, severity, text, basis));
    }

    private void ratio() {
        Double error = was.ratioError(mix.resin());
        MixRatio ratio = mix.resin().ratio();
        if (error == null || ratio == null) {
            return;
        }
        double inBasis = ratio.ratio().quotient() * (1 + error);
        MixRatio.Window window = ratio.window();
        boolean off = window == null
                ? Math.abs(error) > SAME_RATIO
                : inBasis < window.least().doubleValue()
                        || inBasis > window.most().doubleValue();
        if (off) {
            add(
                    "poured-ratio",
                    Caution.Severity.WARN,
                    "That pour had " + Shown.percent(Math.abs(error)) + (error < 0 ? " less" : " more")
                            + " part A to part B than the resin takes; this mix keeps the resin's own ratio, so it may cure"
                            + " and look otherwise.",
                    window == null ? Caution.COMMON_PRACTICE : Caution.DATA_SHEET);
        }
    }

    private void lots() {
        List<String> others = new ArrayList<>();
        List<String> unknown = new ArrayList<>();
        for (Mix.Weighing weighing : mix.layers().get(0).cups().get(0).items()) {
            Set<String> then = was.lots().getOrDefault(weighing.item(), Set.of());
            Set<String> now = new LinkedHashSet<>();
            weighing.lots().forEach(lot -> now.add(lot.lotId()));
            if (then.isEmpty() || then.contains(Pour.UNKNOWN_LOT)) {
                unknown.add(weighing.name());
            } else if (!now.isEmpty() && !then.equals(now)) {
                others.add(weighing.name() + " was " + String.join(" and ", then) + " and is now "
                        + String.join(" and ", now));
            }
        }
        if (!others.isEmpty()) {
            add(
                    "other-lots",
                    Caution.Severity.WARN,
                    "Other lots than in that pour: " + String.join("; ", others)
                            + ". Their stated strengths are counted in; pour a sample first.",
                    Caution.COMMON_PRACTICE);
        }
        if (!unknown.isEmpty()) {
            add(
                    "lot-not-known",
                    Caution.Severity.NOTE,
                    "Nobody noted the lot that was used of " + String.join(", ", unknown)
                            + "; it counts as strong as the reference lot.",
                    Caution.COMMON_PRACTICE);
        }
    }

    private void written(Book book) {
        Recipe.Revision written = was.written();
        if (written == null) {
            return;
        }
        Set<String> pigments = new LinkedHashSet<>();
        was.revision().pigments().forEach(loading -> pigments.add(loading.pigmentId()));
        written.pigments().forEach(loading -> pigments.add(loading.pigmentId()));
        List<String> apart = new ArrayList<>();
        for (String pigment : pigments) {
            double is = percent(was.revision(), pigment);
            double says = was.writtenPercent(book, pigment);
            if (Math.abs(is - says) > SAME_PERCENT * Math.max(is, says)) {
                apart.add(pigment + " " + Shown.percent(is / 100) + " instead of " + Shown.percent(says / 100));
            }
        }
        if (!apart.isEmpty()) {
            add(
                    "poured-otherwise",
                    Caution.Severity.NOTE,
                    "That pour was not as revision " + written.number() + " is written: " + String.join(", ", apart)
                            + ". This mix is as it was weighed.",
                    "weighed amounts of " + was.pour().id());
        }
    }

    private static double percent(Recipe.Revision revision, String pigment) {
        for (Recipe.PigmentLoading loading : revision.pigments()) {
            if (loading.pigmentId().equals(pigment)) {
                return loading.percent().percent();
            }
        }
        return 0;
    }

    /** A reading at another depth is told of by the mix itself. */
    private void depth() {
        Double then = WasAndWill.depthMm(was.pour());
        Double now = mix.layers().get(mix.layers().size() - 1).toMm();
        boolean told =
                mix.cautions().stream().anyMatch(caution -> caution.code().equals("other-depth"));
        if (then == null || then <= 0 || now == null || told || Math.abs(then - now) < SAME_DEPTH_MM) {
            return;
        }
        add(
                "other-depth-than-poured",
                Caution.Severity.WARN,
                "That pour was " + Shown.mm(then) + " deep and this one is " + Shown.mm(now)
                        + ": a see-through colour gets " + (now > then ? "darker" : "paler") + "; loading × "
                        + Shown.significant(then / now) + " keeps the look over the same backing.",
                "loading × depth kept (Beer-Lambert)");
    }

    private void backing() {
        Set<String> backings = new LinkedHashSet<>();
        for (Pour.Reading reading : was.pour().readings()) {
            if (reading.backing() != null && reading.backing().name() != null) {
                backings.add(reading.backing().name());
            }
        }
        if (!backings.isEmpty()) {
            add(
                    "backing-as-read",
                    Caution.Severity.NOTE,
                    "It was read over " + String.join(" and ", backings)
                            + "; over another ground a see-through colour looks otherwise.",
                    Caution.COMMON_PRACTICE);
        }
    }

    private void room() {
        if (was.pour().temperature() == null) {
            return;
        }
        double then = was.pour().temperature().celsius();
        if (Math.abs(then - mix.roomCelsius()) > SAME_ROOM_CELSIUS) {
            add(
                    "other-room",
                    Caution.Severity.NOTE,
                    "The room was " + Shown.celsius(then) + " then and is planned at "
                            + Shown.celsius(mix.roomCelsius())
                            + " now; " + Numbers.fixed(Math.abs(then - mix.roomCelsius()), 0)
                            + " °C change how long it flows and how bubbles rise.",
                    Caution.COMMON_PRACTICE);
        }
    }
}
