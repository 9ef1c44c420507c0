package pigmentbook.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import pigmentbook.book.MixRatio;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;
import pigmentbook.mix.Mixer;
import pigmentbook.mix.Timeline;
import pigmentbook.quantity.Numbers;

/** A mix as text for a terminal. */
final class MixText {

    private static final String STANDING = "standing-";

    private MixText() {}

    static String of(Mix mix, boolean colour) {
        Lines lines = new Lines(colour);
        head(lines, mix);
        for (Mix.Layer layer : mix.layers()) {
            layer(lines, mix, layer);
        }
        lots(lines, mix);
        times(lines, mix);
        cautions(lines, mix);
        return lines.toString();
    }

    private static void head(Lines lines, Mix mix) {
        String where = mix.mold() == null ? "" : " for " + mix.mold().name();
        lines.head(mix.recipe().name() + ", " + mix.formula() + where);
        MixRatio ratio = mix.resin().ratio();
        lines.text(mix.resin().name()
                + (ratio == null ? "" : ", " + ratio.written())
                + ". Percent of " + mix.revision().percentOf().words() + ".");
        StringBuilder sums = new StringBuilder();
        if (mix.roomMl() != null && mix.targetMl() != null) {
            sums.append("Room ")
                    .append(Numbers.fixed(mix.roomMl(), 1))
                    .append(" mL, to pour ")
                    .append(Numbers.fixed(mix.targetMl(), 1))
                    .append(" mL. ");
        }
        Mix.Totals totals = mix.totals();
        sums.append("In all ").append(Numbers.fixed(totals.totalGrams(), 2)).append(" g");
        if (totals.cost() != null) {
            sums.append(", ").append(Mixer.shown(totals.cost()));
        }
        sums.append('.');
        if (mix.limitedBy() != null) {
            sums.append(" First to run out: ").append(mix.limitedBy());
            if (mix.alsoLimitedBy() != null) {
                sums.append(", then ").append(mix.alsoLimitedBy());
            }
            sums.append('.');
        }
        lines.text(sums.toString());
    }

    private static void layer(Lines lines, Mix mix, Mix.Layer layer) {
        int count = layer.cups().size();
        Mix.Cup cup = layer.cups().get(0);
        String depth = layer.fromMm() == null || layer.toMm() == null
                ? ""
                : ", " + mm(layer.fromMm()) + " to " + mm(layer.toMm()) + " mm";
        String start = layer.startHours() == 0 ? "" : ", from " + hours(layer.startHours()) + " after the first";
        lines.blank()
                .head("Layer " + layer.number() + " of " + mix.layers().size() + depth + start + ": "
                        + (count == 1 ? "1 cup of " : count + " equal cups of ") + Numbers.fixed(cup.totalGrams(), 1)
                        + " g");
        List<List<String>> rows = new ArrayList<>();
        for (Mix.Weighing weighing : cup.items()) {
            int decimals = weighing.scale().step().decimals();
            rows.add(List.of(
                    weighing.name(),
                    Numbers.fixed(weighing.weighGrams(), decimals),
                    Numbers.fixed(weighing.lowGrams(), decimals),
                    Numbers.fixed(weighing.highGrams(), decimals),
                    Numbers.fixed(
                            weighing.displayGrams(),
                            weighing.item().isPigment()
                                    ? decimals
                                    : mix.scales().resin().step().decimals()),
                    weighing.lots().stream().map(Mix.LotGrams::lotId).collect(Collectors.joining(" + "))));
        }
        lines.table(
                List.of("Item", "Weigh, g", "Low", "High", "Display", "Lot"),
                List.of(
                        Lines.Side.LEFT,
                        Lines.Side.RIGHT,
                        Lines.Side.RIGHT,
                        Lines.Side.RIGHT,
                        Lines.Side.RIGHT,
                        Lines.Side.LEFT),
                aligned(rows));
    }

    /** Sets figures of different decimals under each other at the decimal mark. */
    private static List<List<String>> aligned(List<List<String>> rows) {
        List<List<String>> aligned = new ArrayList<>();
        int[] most = new int[6];
        for (List<String> row : rows) {
            for (int i = 1; i < 5; i++) {
                most[i] = Math.max(most[i], afterMark(row.get(i)));
            }
        }
        for (List<String> row : rows) {
            List<String> cells = new ArrayList<>(row);
            for (int i = 1; i < 5; i++) {
                cells.set(i, row.get(i) + " ".repeat(most[i] - afterMark(row.get(i))));
            }
            aligned.add(cells);
        }
        return aligned;
    }

    private static int afterMark(String figure) {
        int dot = figure.indexOf('.');
        return dot < 0 ? 0 : figure.length() - dot;
    }

    private static void lots(Lines lines, Mix mix) {
        Map<String, Double> grams = new LinkedHashMap<>();
        Map<String, String> items = new LinkedHashMap<>();
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                for (Mix.Weighing weighing : cup.items()) {
                    for (Mix.LotGrams lot : weighing.lots()) {
                        grams.merge(lot.lotId(), lot.grams(), Double::sum);
                        items.put(lot.lotId(), weighing.name());
                    }
                }
            }
        }
        if (grams.isEmpty()) {
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        grams.forEach((lot, sum) -> rows.add(List.of(items.getOrDefault(lot, ""), lot, Numbers.fixed(sum, 2))));
        lines.blank().head("From the shelf");
        lines.table(
                List.of("Item", "Lot", "Takes, g"), List.of(Lines.Side.LEFT, Lines.Side.LEFT, Lines.Side.RIGHT), rows);
    }

    private static void times(Lines lines, Mix mix) {
        Timeline times = mix.timeline();
        lines.blank().head("Times");
        Double pourBy = times.pourByMin();
        int cups = times.cupsMin().size();
        double busy = times.cupsMin().get(cups - 1).end();
        StringBuilder text = new StringBuilder("Minutes from part B: ")
                .append(cups == 1 ? "the cup is" : "the last cup is")
                .append(" empty at ")
                .append(mm(busy));
        if (pourBy != null) {
            text.append(", pour by ")
                    .append(mm(pourBy))
                    .append(" (a rule of thumb at ")
                    .append(mm(mix.roomCelsius()))
                    .append(" °C)");
        }
        if (!times.surfacePassesMin().isEmpty()) {
            text.append(", surface passes at ")
                    .append(times.surfacePassesMin().stream().map(MixText::mm).collect(Collectors.joining(", ")));
        }
        lines.text(text.append('.').toString());
        for (Timeline.LayerTimes layer : times.layersHours()) {
            if (layer.nextFrom() != null) {
                lines.text("Layer " + (layer.number() + 1) + ": from " + hours(layer.nextFrom())
                        + (layer.nextTo() == null ? "" : " to " + hours(layer.nextTo())) + " after the first pour.");
            }
        }
        if (times.demoldHours() != null || times.fullCureHours() != null) {
            lines.text("After the last pour: "
                    + (times.demoldHours() == null ? "" : "demold not before " + hours(times.demoldHours()))
                    + (times.demoldHours() != null && times.fullCureHours() != null ? ", " : "")
                    + (times.fullCureHours() == null ? "" : "full cure " + hours(times.fullCureHours())) + ".");
        }
    }

    private static void cautions(Lines lines, Mix mix) {
        List<Caution> own = new ArrayList<>();
        List<Caution> standing = new ArrayList<>();
        for (Caution caution : mix.cautions()) {
            (caution.code().startsWith(STANDING) ? standing : own).add(caution);
        }
        if (!own.isEmpty()) {
            lines.blank().head("Beware");
            for (Caution caution : own) {
                lines.hanging(word(caution.severity()), caution.text() + " [" + caution.basis() + "]");
            }
        }
        lines.blank().head("Always");
        for (Caution caution : standing) {
            lines.hanging("- ", caution.text() + " [" + caution.basis() + "]");
        }
    }

    private static String word(Caution.Severity severity) {
        return switch (severity) {
            case STOP -> "Stop:   ";
            case WARN -> "Beware: ";
            case NOTE -> "Note:   ";
        };
    }

    private static String mm(double value) {
        String fixed = Numbers.fixed(value, 1);
        return fixed.endsWith(".0") ? fixed.substring(0, fixed.length() - 2) : fixed;
    }

    private static String hours(double hours) {
        return hours >= 48 && hours % 24 == 0 ? mm(hours / 24) + " d" : mm(hours) + " h";
    }
}
