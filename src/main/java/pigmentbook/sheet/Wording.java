package pigmentbook.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Range;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.colour.Lab;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;
import pigmentbook.mix.Timeline;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Temperature;

/** The sentences of a mix sheet, for a helper who was not there. */
final class Wording {

    private static final String HEAT = "standing-heat";
    private static final String STANDING = "standing-";
    private static final int MOST_IN_FOOT = 80;
    private static final double HOURS_PER_DAY = 24;

    private Wording() {}

    /** What is made, in what, of what. */
    static String what(Mix mix) {
        List<String> parts = new ArrayList<>();
        if (mix.mold() != null) {
            int count = mix.mold().count();
            parts.add(mix.mold().name() + (count > 1 ? " × " + count : ""));
        }
        Double top = mix.layers().get(mix.layers().size() - 1).toMm();
        String fill = top == null ? "" : "fill " + few(top) + " mm, ";
        int cups = mix.layers().stream().mapToInt(layer -> layer.cups().size()).sum();
        parts.add(sentence(fill + counted(mix.layers().size(), "layer") + ", " + counted(cups, "cup")));
        parts.add(resin(mix));
        if (mix.limitedBy() != null) {
            parts.add("As much as the shelf allows: " + name(mix, mix.limitedBy()) + " runs out first");
        }
        return String.join(". ", parts) + ".";
    }

    private static String name(Mix mix, Item item) {
        return mix.shares().pigments().stream()
                .filter(share -> share.item().equals(item))
                .map(Mix.PigmentShare::name)
                .findFirst()
                .orElse(item.id());
    }

    private static String resin(Mix mix) {
        MixRatio ratio = mix.resin().ratio();
        String name = mix.resin().name();
        if (ratio == null) {
            return name;
        }
        String stated = name + ", A to B " + ratio.ratio().written() + " by "
                + ratio.by().name().toLowerCase(Locale.ROOT);
        return ratio.by() == MixRatio.By.WEIGHT
                ? stated
                : stated + " (100 to "
                        + few(100 * mix.shares().partB() / mix.shares().partA()) + " by weight)";
    }

    /** The words at the foot of each page: short, for an office program takes at most 255 characters there. */
    static String foot(Mix mix, SheetInfo info) {
        String recipe = mix.recipe().name() + ", " + mix.formula();
        return "Sheet " + oneLine(info.id()) + ": " + oneLine(recipe);
    }

    private static String oneLine(String text) {
        String line = Texts.clean(text).replaceAll("\\s+", " ");
        return line.codePointCount(0, line.length()) <= MOST_IN_FOOT
                ? line
                : line.substring(0, line.offsetByCodePoints(0, MOST_IN_FOOT - 1)) + "…";
    }

    /** What the total does when it is changed, and what it does not. */
    static String total(Mix mix) {
        return "Total to weigh: weights follow it; cups and cautions are those of "
                + few(mix.totals().totalGrams()) + " g";
    }

    /** What the percents are of, and which they are. */
    static String basis(Mix mix) {
        Recipe.Revision revision = mix.revision();
        String of = revision.percentOf() == Recipe.PercentOf.PART_A
                ? "Pigment percent of part A."
                : "Pigment percent of mixed resin (A + B).";
        List<String> loadings = new ArrayList<>();
        for (Recipe.PigmentLoading loading : revision.pigments()) {
            loadings.add(name(mix, Item.of(loading.pigmentId())) + " "
                    + loading.percent().written());
        }
        String formula = mix.ofPour() == null ? of : "Formula " + mix.formula() + ". " + of;
        return loadings.isEmpty() ? formula + " Clear, no pigment." : formula + " " + String.join(", ", loadings) + ".";
    }

    /** The reading that the chip shows. */
    static String reading(Mix.@Nullable Look look) {
        if (look == null) {
            return "No colour read yet.";
        }
        Lab lab = look.lab();
        String depth = look.depthMm() == null ? "Read" : few(look.depthMm()) + " mm";
        String over = look.backing() == null ? "" : " over " + look.backing();
        return depth + over + ": L* " + Numbers.fixed(lab.l(), 0) + ", a* " + Numbers.fixed(lab.a(), 0) + ", b* "
                + Numbers.fixed(lab.b(), 0) + ". Print is no standard.";
    }

    /** What forbids the job as it is. */
    static List<String> forbidden(Mix mix) {
        return mix.cautions().stream()
                .filter(each -> each.severity() == Caution.Severity.STOP)
                .map(each -> "Do not begin. " + shown(each))
                .toList();
    }

    /** The limits that end the job, and what to do when a cup runs away. */
    static String stop(Mix mix) {
        List<String> limits = limits(mix);
        StringBuilder text = new StringBuilder(
                limits.isEmpty()
                        ? "Stop if anything is not as this sheet says."
                        : "Stop if " + String.join("; ", limits) + ".");
        for (Caution caution : mix.cautions()) {
            if (caution.code().equals(HEAT) && caution.severity() != Caution.Severity.STOP) {
                text.append(' ').append(shown(caution));
            }
        }
        return text.toString();
    }

    private static List<String> limits(Mix mix) {
        Resin resin = mix.resin();
        List<String> limits = new ArrayList<>();
        if (resin.batchMost() != null) {
            limits.add("a cup holds more than " + resin.batchMost().written() + " of A + B");
        }
        if (resin.layer().most() != null) {
            limits.add("a layer is past " + resin.layer().most().written());
        }
        if (mix.workingTimeMin() != null) {
            limits.add("the clock passes " + minutes(mix.workingTimeMin()) + " after part B");
        }
        String room = room(resin);
        if (!room.isEmpty()) {
            limits.add("the room is outside " + room);
        }
        return limits;
    }

    private static String room(Resin resin) {
        Range<Temperature> range = resin.temperature();
        List<String> parts = new ArrayList<>();
        if (range.least() != null && range.most() != null) {
            parts.add(few(range.least().celsius()) + " to " + few(range.most().celsius()) + " °C");
        } else if (range.least() != null) {
            parts.add(few(range.least().celsius()) + " °C or more");
        } else if (range.most() != null) {
            parts.add("at most " + few(range.most().celsius()) + " °C");
        }
        if (resin.humidityMost() != null) {
            parts.add("at most " + resin.humidityMost().written() + " humidity");
        }
        return String.join(", ", parts);
    }

    /** What to tick before mixing. */
    static List<String> checks(Mix mix) {
        String room = room(mix.resin());
        return List.of(
                "Gloves as SDS section 8 says, glasses, air moving",
                "SDS and TDS seen, revision:",
                "Mold level, leak-tested, release on",
                "Wood sealed; with what, when:",
                "Scales checked with a known mass",
                room.isEmpty() ? "Room as the data sheet wants it" : "Room " + room,
                "Lots fetched, enough of each");
    }

    /** What to do, in order. */
    static List<String> steps(Mix mix) {
        List<String> steps = new ArrayList<>();
        for (Recipe.Step step : mix.recipe().steps()) {
            steps.add(step.when().isBlank() ? step.text() : sentence(step.when()) + ": " + step.text());
        }
        boolean stirs = mix.recipe().steps().stream()
                .anyMatch(step -> step.text().toLowerCase(Locale.ROOT).contains("stir"));
        if (!stirs && !mix.shares().pigments().isEmpty()) {
            steps.add("Stir all pigments into part A until no streak is left");
        }
        steps.add("Before part B: a second person checks grams and lots");
        steps.add("Part B in: the clock starts");
        return steps;
    }

    /** Which cautions stand in the list, the grave before the light; the others are in the stop box and at the foot. */
    static List<Caution> listed(Mix mix) {
        return mix.cautions().stream()
                .filter(each ->
                        each.severity() != Caution.Severity.STOP && !each.code().startsWith(STANDING))
                .toList();
    }

    /** The cautions for every mix, as one paragraph. */
    static String always(Mix mix) {
        StringBuilder text = new StringBuilder("Always.");
        for (Caution caution : mix.cautions()) {
            if (caution.code().startsWith(STANDING)
                    && !caution.code().equals(HEAT)
                    && caution.severity() != Caution.Severity.STOP) {
                text.append(' ').append(shown(caution));
            }
        }
        return text.toString();
    }

    /** A caution and its basis. */
    static String shown(Caution caution) {
        return caution.text() + " [" + caution.basis() + "]";
    }

    /** A layer's number and where it lies. */
    static String place(Mix.Layer layer) {
        return layer.fromMm() == null || layer.toMm() == null
                ? "" + layer.number()
                : layer.number() + ", " + few(layer.fromMm()) + " to " + few(layer.toMm()) + " mm";
    }

    /** When a layer may be poured at the earliest. */
    static String notBefore(Mix.Layer layer) {
        return layer.number() == 1
                ? ""
                : layer.startHours() > 0 ? hours(layer.startHours()) + " after the first" : "the last one is tacky";
    }

    /** The line above a layer. */
    static String layer(Mix mix, Mix.Layer layer) {
        int layers = mix.layers().size();
        List<String> parts = new ArrayList<>();
        parts.add(layers == 1 ? "Weigh, in this order" : "Layer " + layer.number() + " of " + layers);
        if (layer.fromMm() != null && layer.toMm() != null) {
            parts.add(few(layer.fromMm()) + " to " + few(layer.toMm()) + " mm");
        }
        if (layer.number() > 1 && layer.startHours() > 0) {
            parts.add("not before " + hours(layer.startHours()) + " after the first pour");
        }
        return String.join(", ", parts);
    }

    /** How the two scales are used. */
    static String scales(Mix mix) {
        double tare = mix.scales().cupTareGrams();
        String cup =
                tare > 0 ? "with the empty cup (" + few(tare) + " g) on it" : "set to zero with the empty cup on it";
        return "Parts: scale with steps of " + mix.scales().resin().step().written() + ", " + cup
                + ". Pigments: each by itself on the scale with steps of "
                + mix.scales().fine().step().written() + ".";
    }

    /** The line above a cup. */
    static String cup(Mix.Layer layer, Mix.Cup cup) {
        return "Cup " + cup.number() + " of " + layer.cups().size();
    }

    /** What stands in a weigh row for an item. */
    static String item(Mix.Weighing weighing) {
        String name = weighing.item().equals(Item.PART_B) ? weighing.name() + " (starts the clock)" : weighing.name();
        if (weighing.lots().size() < 2) {
            return name;
        }
        String others = String.join(
                ", ", weighing.lots().stream().skip(1).map(Mix.LotGrams::lotId).toList());
        return name + " (also lot " + others + ")";
    }

    /** The line above the times. */
    static String times(Timeline timeline) {
        Timeline.CupTimes cup = timeline.cupsMin().get(0);
        StringBuilder text = new StringBuilder("Each cup: part B in, stir ")
                .append(minutes(cup.secondStirFrom() - cup.stirFrom()))
                .append(", change cup, stir ")
                .append(minutes(cup.restFrom() - cup.secondStirFrom()))
                .append(", rest ")
                .append(minutes(cup.pourFrom() - cup.restFrom()))
                .append(", pour");
        if (!timeline.surfacePassesMin().isEmpty()) {
            text.append(". Pass over the surface at ")
                    .append(String.join(
                            ", ",
                            timeline.surfacePassesMin().stream()
                                    .map(Wording::few)
                                    .toList()))
                    .append(" min");
        }
        return text.toString();
    }

    /** The name of a cup in the table of times, with its start where it is not the first. */
    static String cupTime(Timeline timeline, Mix.Layer layer, Mix.Cup cup) {
        if (layer.cups().size() == 1) {
            return "Cup";
        }
        double start = timeline.cupsMin().get(cup.number() - 1).stirFrom();
        return "Cup " + cup.number() + (start > 0 ? ", from +" + minutes(start) : "");
    }

    /** A time after another, in hours or days: {@code +6 h}; nothing where it is not stated. */
    static String after(String what, @Nullable Double hours) {
        return hours == null ? what : what + ", +" + hours(hours);
    }

    /** A time after another, in minutes; nothing where it is not stated. */
    static String afterMinutes(String what, @Nullable Double min) {
        return min == null ? what : what + ", +" + minutes(min);
    }

    private static String hours(double hours) {
        return hours >= 3 * HOURS_PER_DAY && hours % HOURS_PER_DAY == 0
                ? few(hours / HOURS_PER_DAY) + " d"
                : few(hours) + " h";
    }

    private static String minutes(double min) {
        return Numbers.fixed(Math.floor(min), 0) + " min";
    }

    private static String counted(int count, String what) {
        return count + " " + what + (count == 1 ? "" : "s");
    }

    private static String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    /** A number with at most two decimals, no end zeros. */
    static String few(double value) {
        return Numbers.plain(Double.parseDouble(Numbers.fixed(value, 2)));
    }
}
