package pigmentbook.colour;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Which of many colours are nearest to one, exactly, by CIEDE2000. Immutable.
 *
 * <p>CIEDE2000 obeys no triangle inequality, so no common index for distances fits. The colours lie in a tree of boxes
 * in L*, a*, b*, and a box is passed over only where a lower bound proves that nothing in it can be near enough.
 */
public final class NearestColours {

    private static final int LEAF = 8;

    /** T is at most this: the sum of what its four waves can reach. */
    private static final double MOST_HUE_TERM = 1.93;

    /** T changes by at most this for each degree: the sum of its waves' steepest slopes. */
    private static final double HUE_SLOPE = Math.toRadians(0.17 + 2 * 0.24 + 3 * 0.32 + 4 * 0.20);

    private static final double POW_25_7 = 6103515625.0;

    /** T at each whole degree, with the most it can grow in half a degree. */
    private static final double[] HUE_TERM = new double[360];

    /** Half of |R_T|'s most for a mean hue this many degrees or more from 275°. */
    private static final double[] ROTATION = new double[181];

    static {
        for (int degree = 0; degree < 360; degree++) {
            HUE_TERM[degree] = Ciede2000.hueTerm(degree) + 0.501 * HUE_SLOPE;
        }
        for (int degree = 0; degree <= 180; degree++) {
            double bump = degree / 25.0;
            ROTATION[degree] = Math.sin(Math.toRadians(60 * Math.exp(-bump * bump))) * (1 + 1e-9);
        }
    }

    /** The most that a* is stretched: greys'. */
    private static final double WEAKEST = 1.5;

    /** No colours whose mean chroma is 40 or more are stretched by more than this, which tells their hues closely. */
    private static final double STRONG = 1.01;

    /** What rounding may cost a bound. */
    private static final double SURE = 1 - 1e-9;

    private final Lab[] colours;
    private final int[][] owners;
    private final double[] boxes;
    private final Hues[] hues;
    private final Hues[] strongHues;
    private final Hues[] ownHues;
    private final Hues[] ownStrongHues;
    private final int size;

    /**
     * A colour that was found.
     *
     * @param index its place in the list, from 0
     * @param dE00 how far it is
     */
    public record Found(int index, double dE00) {}

    /** Makes an index of colours. */
    public NearestColours(List<Lab> all) {
        Integer[] order = new Integer[all.size()];
        Arrays.setAll(order, i -> i);
        Arrays.sort(
                order,
                Comparator.<Integer>comparingDouble(i -> all.get(i).l())
                        .thenComparingDouble(i -> all.get(i).a())
                        .thenComparingDouble(i -> all.get(i).b())
                        .thenComparingInt(i -> i));
        List<Lab> distinct = new ArrayList<>();
        List<int[]> of = new ArrayList<>();
        for (int from = 0, to; from < order.length; from = to) {
            Lab colour = all.get(order[from]);
            to = from + 1;
            while (to < order.length && all.get(order[to]).equals(colour)) {
                to++;
            }
            distinct.add(colour);
            of.add(Arrays.stream(order, from, to).mapToInt(i -> i).toArray());
        }
        size = order.length;
        int[] place = new int[distinct.size()];
        Arrays.setAll(place, i -> i);
        int nodes = (2 * Integer.highestOneBit(Math.max(1, 2 * place.length / LEAF)) + 2) * 2;
        boxes = new double[6 * nodes];
        hues = new Hues[nodes];
        strongHues = new Hues[nodes];
        build(1, place, 0, place.length, distinct);
        colours = Arrays.stream(place).mapToObj(distinct::get).toArray(Lab[]::new);
        owners = Arrays.stream(place).mapToObj(of::get).toArray(int[][]::new);
        ownHues = Arrays.stream(colours).map(each -> Hues.of(each, WEAKEST)).toArray(Hues[]::new);
        ownStrongHues =
                Arrays.stream(colours).map(each -> Hues.of(each, STRONG)).toArray(Hues[]::new);
    }

    private void build(int node, int[] place, int from, int to, List<Lab> distinct) {
        double[] low = {Double.MAX_VALUE, Double.MAX_VALUE, Double.MAX_VALUE};
        double[] high = {-Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (int i = from; i < to; i++) {
            for (int axis = 0; axis < 3; axis++) {
                double value = value(distinct.get(place[i]), axis);
                low[axis] = Math.min(low[axis], value);
                high[axis] = Math.max(high[axis], value);
            }
        }
        System.arraycopy(low, 0, boxes, 6 * node, 3);
        System.arraycopy(high, 0, boxes, 6 * node + 3, 3);
        hues[node] = Hues.of(low[1], low[2], high[1], high[2], WEAKEST);
        strongHues[node] = Hues.of(low[1], low[2], high[1], high[2], STRONG);
        if (to - from <= LEAF) {
            return;
        }
        int widest = 0;
        for (int axis = 1; axis < 3; axis++) {
            widest = high[axis] - low[axis] > high[widest] - low[widest] ? axis : widest;
        }
        int middle = (from + to) >>> 1;
        part(place, from, to, middle, distinct, widest);
        build(2 * node, place, from, middle, distinct);
        build(2 * node + 1, place, middle, to, distinct);
    }

    /** Moves the lower ones before the middle and the higher ones behind it (Hoare 1961). */
    private static void part(int[] place, int from, int to, int middle, List<Lab> distinct, int axis) {
        int low = from;
        int high = to - 1;
        while (low < high) {
            double pivot = value(distinct.get(place[(low + high) >>> 1]), axis);
            int i = low;
            int j = high;
            while (i <= j) {
                while (value(distinct.get(place[i]), axis) < pivot) {
                    i++;
                }
                while (value(distinct.get(place[j]), axis) > pivot) {
                    j--;
                }
                if (i <= j) {
                    int other = place[i];
                    place[i++] = place[j];
                    place[j--] = other;
                }
            }
            if (middle <= j) {
                high = j;
            } else if (middle >= i) {
                low = i;
            } else {
                return;
            }
        }
    }

    private static double value(Lab lab, int axis) {
        return axis == 0 ? lab.l() : axis == 1 ? lab.a() : lab.b();
    }

    /**
     * Returns the nearest colours, nearest first; of equally near ones the one that stands first in the list.
     *
     * @param target the colour to be near to
     * @param count how many, at least 1
     */
    public List<Found> nearest(Lab target, int count) {
        Search search = new Search(target, Math.min(count, size));
        if (search.best.length > 0) {
            search.visit(1, 0, colours.length);
        }
        return List.of(search.best);
    }

    private final class Search {
        private final Lab target;
        private final double targetChroma;
        private final Hues targetHues;
        private final Hues targetStrongHues;
        private final Found[] best;
        private int found;

        Search(Lab target, int count) {
            this.target = target;
            this.targetChroma = Math.hypot(target.a(), target.b());
            this.targetHues = Hues.of(target, WEAKEST);
            this.targetStrongHues = Hues.of(target, STRONG);
            this.best = new Found[count];
        }

        private double worst() {
            return found < best.length ? Double.POSITIVE_INFINITY : best[found - 1].dE00();
        }

        void visit(int node, int from, int to) {
            if (to - from <= LEAF) {
                for (int i = from; i < to; i++) {
                    Lab each = colours[i];
                    if (least(each.l(), each.a(), each.b(), each.l(), each.a(), each.b(), ownHues[i], ownStrongHues[i])
                            <= worst()) {
                        take(i, Ciede2000.between(target, each));
                    }
                }
                return;
            }
            int middle = (from + to) >>> 1;
            double left = leastIn(2 * node);
            double right = leastIn(2 * node + 1);
            for (int turn = 0; turn < 2; turn++) {
                if ((turn == 0) == (left <= right)) {
                    if (left <= worst()) {
                        visit(2 * node, from, middle);
                    }
                } else if (right <= worst()) {
                    visit(2 * node + 1, middle, to);
                }
            }
        }

        private void take(int place, double dE00) {
            for (int owner : owners[place]) {
                int at = found;
                while (at > 0
                        && (best[at - 1].dE00() > dE00
                                || (best[at - 1].dE00() == dE00 && best[at - 1].index() > owner))) {
                    at--;
                }
                if (at == best.length) {
                    return;
                }
                found = Math.min(found + 1, best.length);
                System.arraycopy(best, at, best, at + 1, found - at - 1);
                best[at] = new Found(owner, dE00);
            }
        }

        private double leastIn(int node) {
            int at = 6 * node;
            return least(
                    boxes[at],
                    boxes[at + 1],
                    boxes[at + 2],
                    boxes[at + 3],
                    boxes[at + 4],
                    boxes[at + 5],
                    hues[node],
                    strongHues[node]);
        }

        /**
         * Returns a difference that no colour of a box is nearer than.
         *
         * <p>ΔC'² + ΔH'² = Δa'² + Δb'² (both are the plane's own distance), S_H &lt; S_C, and the rotation takes at
         * most half of |R_T| of the sum of squares. So the sum is least with as much of the plane's distance in ΔC' as
         * the box allows. With x and y the parts of ΔC' and ΔH' and r half of |R_T|, x² + y² − 2rxy is also never less
         * than (1 − r²)y², whatever x is.
         */
        private double least(double l0, double a0, double b0, double l1, double a1, double b1, Hues weak, Hues strong) {
            double far = Math.max(Math.abs((target.l() + l0) / 2 - 50), Math.abs((target.l() + l1) / 2 - 50));
            double lightness = gap(target.l(), l0, l1) / (1 + 0.015 * far * far / Math.sqrt(20 + far * far));
            double aLeast = gap(0, a0, a1);
            double bLeast = gap(0, b0, b1);
            double aMost = Math.max(Math.abs(a0), Math.abs(a1));
            double bMost = Math.max(Math.abs(b0), Math.abs(b1));
            double stretchMost = stretch((targetChroma + length(aLeast, bLeast)) / 2);
            double stretchLeast = stretch((targetChroma + length(aMost, bMost)) / 2);
            double da = stretchLeast * gap(target.a(), a0, a1);
            double db = gap(target.b(), b0, b1);
            double plane = da * da + db * db;
            boolean isStrong = stretchMost <= STRONG;
            Hues targets = isStrong ? targetStrongHues : targetHues;
            Hues own = isStrong ? strong : weak;
            double own0 = length(stretchLeast * target.a(), target.b());
            double own1 = length(stretchMost * target.a(), target.b());
            double other0 = length(stretchLeast * aLeast, bLeast);
            double other1 = length(stretchMost * aMost, bMost);
            double chroma = (own1 + other1) / 2;
            double step = Math.max(0, Math.max(other1 - own0, own1 - other0));
            double inChroma = Math.min(step * step, plane);
            double chromaWeight = 1 + 0.045 * chroma;
            double hue = targets.meanMiddle(own);
            double either = (targets.half + own.half) / 2;
            double hueWeight = 1 + 0.015 * mostHueTerm(hue, either) * chroma;
            double sum = inChroma / (chromaWeight * chromaWeight) + (plane - inChroma) / (hueWeight * hueWeight);
            double pow7 = pow7(chroma);
            double rotation = Math.sqrt(pow7 / (pow7 + POW_25_7)) * mostRotation(hue, either);
            double inHue = (plane - inChroma) / (hueWeight * hueWeight) * (1 - rotation * rotation);
            return Math.sqrt(lightness * lightness + Math.max((1 - rotation) * sum, inHue)) * SURE;
        }
    }

    /**
     * The hues of a box, in degrees, a* stretched by anything from 1 to a most.
     *
     * @param middle the middle of them, 0 to 360
     * @param half how far they reach to both sides; 360 where the box has grey in it
     */
    private record Hues(double middle, double half) {

        static Hues of(Lab lab, double most) {
            return of(lab.a(), lab.b(), lab.a(), lab.b(), most);
        }

        static Hues of(double a0, double b0, double a1, double b1, double most) {
            if (a0 <= 0 && a1 >= 0 && b0 <= 0 && b1 >= 0) {
                return new Hues(0, 360);
            }
            double first = Math.toDegrees(Math.atan2(b0, a0));
            double low = first;
            double high = first;
            for (int corner = 0; corner < 8; corner++) {
                double a = ((corner & 1) == 0 ? a0 : a1) * ((corner & 4) == 0 ? 1 : most);
                double b = (corner & 2) == 0 ? b0 : b1;
                double off = Math.toDegrees(Math.atan2(b, a)) - first;
                double hue = first + (off > 180 ? off - 360 : off < -180 ? off + 360 : off);
                low = Math.min(low, hue);
                high = Math.max(high, hue);
            }
            return new Hues(((low + high) / 2 + 360) % 360, (high - low) / 2 + 1e-6);
        }

        /** Returns the middle of the means of these hues and others, or −1 where they may lie on either side. */
        private double meanMiddle(Hues other) {
            double apart = other.middle - middle;
            apart = apart > 180 ? apart - 360 : apart < -180 ? apart + 360 : apart;
            if (Math.abs(apart) + half + other.half >= 179) {
                return -1;
            }
            double mean = middle + apart / 2;
            return mean < 0 ? mean + 360 : mean >= 360 ? mean - 360 : mean;
        }
    }

    /** Returns the most that T can be at a hue or so many degrees to either side; −1 for any hue. */
    private static double mostHueTerm(double hue, double either) {
        if (hue < 0) {
            return MOST_HUE_TERM;
        }
        int degree = (int) (hue + 0.5);
        return Math.min(MOST_HUE_TERM, HUE_TERM[degree == 360 ? 0 : degree] + HUE_SLOPE * either);
    }

    /** Returns the most that half of |R_T| can be there, for the strongest colours. */
    private static double mostRotation(double hue, double either) {
        if (hue < 0) {
            return ROTATION[0];
        }
        double off = Math.abs(hue - 275);
        double least = Math.min(off, 360 - off) - either;
        return ROTATION[(int) Math.max(0, least)];
    }

    private static double gap(double value, double low, double high) {
        return value < low ? low - value : value > high ? value - high : 0;
    }

    private static double length(double a, double b) {
        return Math.sqrt(a * a + b * b);
    }

    private static double stretch(double chroma) {
        double pow7 = pow7(chroma);
        return 1 + 0.5 * (1 - Math.sqrt(pow7 / (pow7 + POW_25_7)));
    }

    private static double pow7(double value) {
        double square = value * value;
        return square * square * square * value;
    }
}
