package pigmentbook.mix;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Mold;
import pigmentbook.book.Pour;
import pigmentbook.mold.Cavity;
import pigmentbook.mold.Slice;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;

/**
 * A mix beside the pour that it takes up again: how much bigger it is, and what changes in kind.
 *
 * @param rows figures as they were and as they will be
 * @param inKind what is no longer as it was, a sentence each
 */
public record WasAndWill(List<Row> rows, List<String> inKind) {

    private static final double SAME_DEPTH_MM = 0.05;
    private static final double USUAL_GRAMS = 500;
    private static final List<String> WORDS =
            List.of("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten");

    /**
     * One figure.
     *
     * @param what its name with its unit
     * @param was as it was, or null where nobody noted it
     * @param will as it will be, or null where the mix has none
     * @param decimals how many decimals it is shown with
     */
    public record Row(
            String what, @Nullable Double was, @Nullable Double will, int decimals) {

        /** Returns will / was, or null where one of them is missing or nothing. */
        public @Nullable Double factor() {
            return was == null || will == null || was <= 0 ? null : (Double) (will / was);
        }
    }

    /** Puts a mix beside a pour. */
    public static WasAndWill of(Book book, Mix mix, Pour pour) {
        List<Row> rows = new ArrayList<>();
        rows.add(new Row("Room, mL", roomMl(book, pour), mix.roomMl(), 1));
        rows.add(new Row("Weighed in all, g", weighedGrams(pour), mix.totals().totalGrams(), 1));
        Double depth = depthMm(pour);
        Double top = mix.layers().get(mix.layers().size() - 1).toMm();
        rows.add(new Row("Depth, mm", depth, top, 1));
        rows.add(new Row(
                "Layers", count(pour.layers().size()), (double) mix.layers().size(), 0));
        rows.add(new Row("Cups", count(cups(pour)), (double) cups(mix), 0));
        rows.removeIf(row -> row.was() == null && row.will() == null);
        List<String> inKind = new ArrayList<>();
        layers(mix, pour, inKind);
        weighable(mix, pour, inKind);
        workingTime(mix, pour, inKind);
        look(mix, depth, top, inKind);
        return new WasAndWill(rows, inKind);
    }

    /** Returns how big a recipe is usually made, in g: as big as it was last poured, else 500 g. */
    public static double usualGrams(Book book, String recipeId) {
        List<Pour> pours = book.madeOf(recipeId);
        double poured = pours.isEmpty() ? 0 : weighedGrams(pours.get(pours.size() - 1));
        return poured > 0 ? poured : USUAL_GRAMS;
    }

    /** Returns everything weighed into a pour, in g; what was not noted counts as planned. */
    public static double weighedGrams(Pour pour) {
        double grams = 0;
        for (Pour.Layer layer : pour.layers()) {
            for (Pour.Cup cup : layer.cups()) {
                for (Pour.Weighed weighed : cup.weighed()) {
                    grams += weighed.grams();
                }
            }
        }
        return grams;
    }

    private static @Nullable Double count(int number) {
        return number == 0 ? null : (Double) (double) number;
    }

    private static int cups(Pour pour) {
        return pour.layers().stream().mapToInt(layer -> layer.cups().size()).sum();
    }

    private static int cups(Mix mix) {
        return mix.layers().stream().mapToInt(layer -> layer.cups().size()).sum();
    }

    /** Returns how deep a pour was, in mm; null where a layer's depth was not noted. */
    public static @Nullable Double depthMm(Pour pour) {
        double depth = 0;
        for (Pour.Layer layer : pour.layers()) {
            Length own = layer.depth();
            if (own == null) {
                return null;
            }
            depth += own.mm();
        }
        return pour.layers().isEmpty() ? null : (Double) depth;
    }

    /** The room that was filled: the pour's mold up to its layers' depth, or up to its own fill. */
    private static @Nullable Double roomMl(Book book, Pour pour) {
        Mold mold = pour.moldId() == null ? null : book.molds().get(pour.moldId());
        if (mold == null) {
            return null;
        }
        Cavity cavity = mold.cavity();
        Double depth = depthMm(pour);
        Length whole = cavity.shape().depth();
        Slice slice = depth == null || whole == null || depth > whole.mm() + SAME_DEPTH_MM
                ? cavity.whole()
                : cavity.between(0, Math.min(depth, whole.mm()));
        return slice.roomMl() * mold.count();
    }

    private static void layers(Mix mix, Pour pour, List<String> inKind) {
        int was = pour.layers().size();
        int will = mix.layers().size();
        if (was > 0 && was != will) {
            String before = spelled(was) + (was == 1 ? " layer" : " layers");
            inKind.add(before.substring(0, 1).toUpperCase(Locale.ROOT) + before.substring(1) + " became "
                    + spelled(will) + ".");
        }
    }

    private static String spelled(int number) {
        return number < WORDS.size() ? WORDS.get(number) : Numbers.plain(number);
    }

    private static void weighable(Mix mix, Pour pour, List<String> inKind) {
        Map<Item, Double> before = new LinkedHashMap<>();
        for (Pour.Layer layer : pour.layers()) {
            for (Pour.Cup cup : layer.cups()) {
                for (Pour.Weighed weighed : cup.weighed()) {
                    if (weighed.item().isPigment()) {
                        before.merge(weighed.item(), weighed.grams(), Math::min);
                    }
                }
            }
        }
        for (Mix.PigmentShare pigment : mix.shares().pigments()) {
            double least = Offers.leastPigmentGrams(mix.scales().fine());
            Double was = before.get(pigment.item());
            boolean couldBe = was != null && was >= least;
            boolean canBe =
                    mix.offers().stream().noneMatch(offer -> offer.pigment().equals(pigment.item()));
            if (was != null && !couldBe && canBe) {
                inKind.add(pigment.name() + " can now be weighed without a concentrate.");
            } else if (couldBe && !canBe) {
                inKind.add(pigment.name() + " is now too little for the scale; see what is offered.");
            }
        }
    }

    private static void workingTime(Mix mix, Pour pour, List<String> inKind) {
        boolean isShort =
                mix.cautions().stream().anyMatch(caution -> caution.code().equals("working-time-short"));
        if (isShort && cups(mix) > cups(pour)) {
            inKind.add("The working time no longer holds the cups of a layer.");
        }
    }

    /** Where a reading is known, a caution says more of the other depth already. */
    private static void look(Mix mix, @Nullable Double depth, @Nullable Double top, List<String> inKind) {
        boolean told =
                mix.cautions().stream().anyMatch(caution -> caution.code().equals("other-depth"));
        if (told || depth == null || top == null || Math.abs(depth - top) < SAME_DEPTH_MM) {
            return;
        }
        inKind.add("It is " + Numbers.fixed(top / depth, 2) + " times as deep, so a see-through colour will look "
                + (top > depth ? "deeper and darker" : "paler") + "; one that hides its ground stays as it is.");
    }
}
