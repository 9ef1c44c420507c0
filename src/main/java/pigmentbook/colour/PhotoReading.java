package pigmentbook.colour;

import java.util.Arrays;

/**
 * A colour read from a photo that shows a neutral card or a chart of 24 patches. A photo is a reminder and not a
 * standard: cameras bend colours in ways that no card tells, so a reading says how far it may be off.
 *
 * @param lab the colour
 * @param scatterDe00 how far parts of the patch lie from its mean, as a root mean square of ΔE00
 * @param surenessDe00 how far off it may be: with a chart the median miss on the chart itself, with a card a usual
 *     figure
 */
public record PhotoReading(Lab lab, double scatterDe00, double surenessDe00) {

    /** With a card alone a photo is off by this much and more: common practice, no source. */
    private static final double CARD_OFF = 3;

    private static final int CLIPPED = 252;
    private static final double MOST_CLIPPED = 0.02;
    private static final double DARKEST = 0.012;
    private static final double UNEVEN_DE00 = 4;
    private static final double CHART_OFF = 6;
    private static final int LEAST_PIXELS = 25;
    private static final int ROUNDS = 6;
    private static final int COLUMNS = 6;
    private static final int ROWS = 4;

    /**
     * The patches in reading order, sRGB as 0 to 255, computed from the CIELAB values of charts made since November
     * 2014 (McCamy, Marcus, Davidson 1976 for the chart). Cyan lies outside sRGB.
     */
    private static final double[][] CHART = {
        {115.710, 79.289, 64.993},
        {197.242, 143.642, 126.622},
        {90.832, 120.323, 155.243},
        {91.476, 108.266, 63.722},
        {131.136, 127.043, 174.582},
        {95.342, 188.761, 171.729},
        {224.084, 124.140, 48.256},
        {68.557, 89.548, 167.253},
        {197.298, 79.931, 95.053},
        {92.888, 57.769, 103.892},
        {156.073, 187.072, 58.194},
        {227.394, 161.291, 39.154},
        {39.724, 61.578, 145.226},
        {60.594, 147.065, 70.130},
        {178.189, 53.580, 56.727},
        {236.375, 199.495, 14.657},
        {191.236, 78.781, 146.427},
        {-59.137, 132.772, 165.180},
        {241.005, 241.641, 235.426},
        {201.078, 202.227, 201.055},
        {161.276, 163.159, 162.796},
        {120.682, 120.896, 120.586},
        {82.739, 84.033, 84.524},
        {49.549, 49.661, 50.353}
    };

    /** A square part of a photo. */
    public static final class Area {

        private final int side;
        private final int[] rgb;

        /**
         * Makes one.
         *
         * @param side its side in pixels
         * @param rgb its pixels, row by row, as 0xRRGGBB
         */
        public Area(int side, int[] rgb) {
            this.side = side;
            this.rgb = rgb.clone();
        }

        int[] rgb() {
            return rgb;
        }

        private double[] mean() {
            return mean(0, side, 0, side);
        }

        private double[] mean(int fromX, int toX, int fromY, int toY) {
            double[] sum = new double[3];
            for (int y = fromY; y < toY; y++) {
                for (int x = fromX; x < toX; x++) {
                    int pixel = rgb[y * side + x];
                    for (int c = 0; c < 3; c++) {
                        sum[c] += Srgb.decoded((pixel >> (16 - 8 * c) & 255) / 255.0);
                    }
                }
            }
            int count = (toX - fromX) * (toY - fromY);
            return new double[] {sum[0] / count, sum[1] / count, sum[2] / count};
        }

        private double clipped() {
            return Arrays.stream(rgb)
                            .filter(pixel -> (pixel >> 16 & 255) > CLIPPED
                                    || (pixel >> 8 & 255) > CLIPPED
                                    || (pixel & 255) > CLIPPED)
                            .count()
                    / (double) rgb.length;
        }

        /** The means of the four quarters. */
        private double[][] quarters() {
            int half = side / 2;
            return new double[][] {
                mean(0, half, 0, half),
                mean(half, side, 0, half),
                mean(0, half, half, side),
                mean(half, side, half, side)
            };
        }
    }

    /** The area of a patch and where its middle lies in the photo, 0 to 1. */
    public record Placed(Area area, double x, double y) {}

    /**
     * Reads a patch beside a neutral card.
     *
     * @param card the card
     * @param cardL the card's L*, such as 50; it is taken as neutral
     * @param patch the patch
     * @throws PhotoRefusedException if the light is clipped, too dark or uneven
     */
    public static PhotoReading withCard(Area card, double cardL, Area patch) {
        if (!(cardL >= 20) || !(cardL <= 96)) {
            throw new PhotoRefusedException("A neutral card's L lies between 20 and 96; type what the card says.");
        }
        requireLight("card", card);
        requireLight("patch", patch);
        double[] seen = card.mean();
        double[] should = Srgb.linear(new Lab(cardL, 0, 0));
        double[] gains = {should[0] / seen[0], should[1] / seen[1], should[2] / seen[2]};
        double uneven = 0;
        Lab whole = lab(times(seen, gains));
        for (double[] quarter : card.quarters()) {
            uneven = Math.max(uneven, Ciede2000.between(whole, lab(times(quarter, gains))));
        }
        if (uneven > UNEVEN_DE00) {
            throw new PhotoRefusedException("The light on the card is uneven (its quarters differ by ΔE00 "
                    + rounded(uneven) + "). Photograph in even shade, the card flat beside the piece.");
        }
        double[] mean = patch.mean();
        return new PhotoReading(lab(times(mean, gains)), scatter(patch, mean, gains), CARD_OFF);
    }

    /**
     * Reads a patch beside a chart of 24 patches: a matrix and a fall of the light are fitted to the chart.
     *
     * @param chart the chart's patches in reading order, four rows of six
     * @throws PhotoRefusedException if the light is clipped or too dark, or the chart does not look like one
     */
    public static PhotoReading withChart(Placed[] chart, Placed patch) {
        if (chart.length != COLUMNS * ROWS) {
            throw new PhotoRefusedException("Point at the chart's four corners, dark skin first.");
        }
        double[][] seen = new double[chart.length][];
        double[][] should = new double[chart.length][3];
        double[][] places = new double[chart.length][];
        for (int i = 0; i < chart.length; i++) {
            if (chart[i].area().clipped() > MOST_CLIPPED) {
                throw new PhotoRefusedException("Patch " + (i + 1)
                        + " of the chart is clipped: the photo is too bright there. Take it darker.");
            }
            seen[i] = chart[i].area().mean();
            places[i] = place(chart[i]);
            for (int c = 0; c < 3; c++) {
                should[i][c] = Math.copySign(Srgb.decoded(Math.abs(CHART[i][c]) / 255), CHART[i][c]);
            }
        }
        requireLight("patch", patch.area());
        double[] light = new double[places[0].length];
        double[][] matrix = new double[3][];
        for (int round = 0; round < ROUNDS; round++) {
            matrix = matrix(seen, should, places, light);
            light = light(seen, should, places, matrix);
        }
        double[] misses = new double[chart.length];
        for (int i = 0; i < chart.length; i++) {
            misses[i] = Ciede2000.between(lab(should[i]), lab(through(matrix, seen[i], fall(light, places[i]))));
        }
        Arrays.sort(misses);
        double median = (misses[11] + misses[12]) / 2;
        if (median > CHART_OFF) {
            throw new PhotoRefusedException("What was pointed at does not look like the chart (ΔE00 " + rounded(median)
                    + " off). Point at the middles of its corner patches: dark skin, bluish green, black, white.");
        }
        double own = fall(light, place(patch));
        double[] mean = patch.area().mean();
        Lab lab = lab(through(matrix, mean, own));
        double[][] fitted = matrix;
        double sum = 0;
        for (double[] quarter : patch.area().quarters()) {
            double apart = Ciede2000.between(lab, lab(through(fitted, quarter, own)));
            sum += apart * apart / 4;
        }
        return new PhotoReading(lab, Math.sqrt(sum), median);
    }

    private static void requireLight(String what, Area area) {
        if (area.rgb().length < LEAST_PIXELS) {
            throw new PhotoRefusedException("The " + what + " is too small in the photo. Go nearer.");
        }
        if (area.clipped() > MOST_CLIPPED) {
            throw new PhotoRefusedException(
                    "The " + what
                            + " is clipped: part of it is as bright as the photo can be. Take it darker, without a reflection.");
        }
        double[] mean = area.mean();
        if (0.2126 * mean[0] + 0.7152 * mean[1] + 0.0722 * mean[2]
                < (what.equals("card") ? DARKEST * 3 : DARKEST / 12)) {
            throw new PhotoRefusedException("The " + what + " is too dark in the photo. Take it in more light.");
        }
    }

    private static double scatter(Area patch, double[] mean, double[] gains) {
        Lab lab = lab(times(mean, gains));
        double sum = 0;
        for (double[] quarter : patch.quarters()) {
            double apart = Ciede2000.between(lab, lab(times(quarter, gains)));
            sum += apart * apart / 4;
        }
        return Math.sqrt(sum);
    }

    private static double[] times(double[] linear, double[] gains) {
        return new double[] {linear[0] * gains[0], linear[1] * gains[1], linear[2] * gains[2]};
    }

    private static double[] through(double[][] matrix, double[] linear, double light) {
        double[] out = new double[3];
        for (int c = 0; c < 3; c++) {
            out[c] = (matrix[c][0] * linear[0] + matrix[c][1] * linear[1] + matrix[c][2] * linear[2]) / light;
        }
        return out;
    }

    private static double[] place(Placed at) {
        return new double[] {at.x(), at.y(), at.x() * at.x() + at.y() * at.y()};
    }

    /** How much light falls at a place, beside the middle of the chart: an exponential of a plane and a bowl. */
    private static double fall(double[] light, double[] place) {
        return Math.exp(light[0] * place[0] + light[1] * place[1] + light[2] * place[2]);
    }

    /** Fits the matrix, each row by least squares with dark patches counting as much as bright ones. */
    private static double[][] matrix(double[][] seen, double[][] should, double[][] places, double[] light) {
        double[][] matrix = new double[3][];
        for (int c = 0; c < 3; c++) {
            double[][] rows = new double[seen.length][];
            double[] sides = new double[seen.length];
            for (int i = 0; i < seen.length; i++) {
                double weight = 1 / (0.05 + should[i][0] + should[i][1] + should[i][2]);
                double by = weight / fall(light, places[i]);
                rows[i] = new double[] {seen[i][0] * by, seen[i][1] * by, seen[i][2] * by};
                sides[i] = should[i][c] * weight;
            }
            matrix[c] = leastSquares(rows, sides);
        }
        return matrix;
    }

    private static double[] light(double[][] seen, double[][] should, double[][] places, double[][] matrix) {
        double[][] rows = new double[seen.length][];
        double[] sides = new double[seen.length];
        double level = 0;
        for (int i = 0; i < seen.length; i++) {
            double[] flat = through(matrix, seen[i], 1);
            double got = Math.max(1e-6, flat[0] + flat[1] + flat[2]);
            sides[i] = Math.log(got / (should[i][0] + should[i][1] + should[i][2]));
            level += sides[i] / seen.length;
        }
        double[] middle = new double[3];
        for (double[] place : places) {
            for (int k = 0; k < 3; k++) {
                middle[k] += place[k] / places.length;
            }
        }
        for (int i = 0; i < seen.length; i++) {
            rows[i] = new double[] {places[i][0] - middle[0], places[i][1] - middle[1], places[i][2] - middle[2]};
            sides[i] -= level;
        }
        return leastSquares(rows, sides);
    }

    /** Solves three unknowns by the normal equations, with the least ridge that keeps them solvable. */
    private static double[] leastSquares(double[][] rows, double[] sides) {
        double[][] a = new double[3][4];
        for (int i = 0; i < rows.length; i++) {
            for (int p = 0; p < 3; p++) {
                for (int q = 0; q < 3; q++) {
                    a[p][q] += rows[i][p] * rows[i][q];
                }
                a[p][3] += rows[i][p] * sides[i];
            }
        }
        for (int p = 0; p < 3; p++) {
            a[p][p] += 1e-9;
        }
        for (int p = 0; p < 3; p++) {
            int pivot = p;
            for (int q = p + 1; q < 3; q++) {
                pivot = Math.abs(a[q][p]) > Math.abs(a[pivot][p]) ? q : pivot;
            }
            double[] row = a[pivot];
            a[pivot] = a[p];
            a[p] = row;
            for (int q = p + 1; q < 3; q++) {
                double by = a[q][p] / a[p][p];
                for (int k = p; k < 4; k++) {
                    a[q][k] -= by * a[p][k];
                }
            }
        }
        double[] x = new double[3];
        for (int p = 2; p >= 0; p--) {
            double sum = a[p][3];
            for (int q = p + 1; q < 3; q++) {
                sum -= a[p][q] * x[q];
            }
            x[p] = sum / a[p][p];
        }
        return x;
    }

    private static Lab lab(double[] linear) {
        Xyz xyz = Srgb.xyzOf(linear[0], linear[1], linear[2]);
        // Noise and a bent colour may leave what there can be; the nearest there is stands for it.
        return new Xyz(Math.max(0, xyz.x()), Math.max(0, Math.min(1, xyz.y())), Math.max(0, xyz.z())).lab();
    }

    private static String rounded(double value) {
        return pigmentbook.quantity.Numbers.fixed(value, 1);
    }
}
