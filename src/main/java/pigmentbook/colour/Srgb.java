package pigmentbook.colour;

/**
 * sRGB, the colours of screens, from and to CIELAB with the white point of D65.
 *
 * @see <a href="https://webstore.iec.ch/en/publication/6169">IEC 61966-2-1:1999 (the curve and the primaries)</a>
 */
public final class Srgb {

    private Srgb() {}

    /**
     * Returns linear red, green and blue, not clipped: below 0 or above 1 where a screen can't show the colour.
     *
     * @param lab the colour
     */
    public static double[] linear(Lab lab) {
        Xyz xyz = Xyz.of(lab);
        double x = xyz.x();
        double y = xyz.y();
        double z = xyz.z();
        return new double[] {
            3.240969941904521 * x - 1.537383177570093 * y - 0.498610760293003 * z,
            -0.96924363628088 * x + 1.875967501507721 * y + 0.041555057407176 * z,
            0.055630079696994 * x - 0.203976958888977 * y + 1.056971514242879 * z
        };
    }

    /**
     * Returns the value on the screen's curve for a linear one; below 0 the curve is mirrored.
     *
     * @param linear linear red, green or blue, 0 to 1 within what a screen shows
     */
    public static double encoded(double linear) {
        double size = Math.abs(linear);
        double curve = size <= 0.0031308 ? 12.92 * size : 1.055 * Math.pow(size, 1 / 2.4) - 0.055;
        return Math.copySign(curve, linear);
    }

    /** Returns whether a screen can show the colour. */
    public static boolean shows(Lab lab) {
        for (double each : linear(lab)) {
            if (each < -1e-9 || each > 1 + 1e-9) {
                return false;
            }
        }
        return true;
    }

    /** Returns the colour as {@code #rrggbb}, clipped to what a screen shows. */
    public static String hex(Lab lab) {
        StringBuilder hex = new StringBuilder("#");
        for (double each : linear(lab)) {
            long level = Math.round(255 * Math.max(0, Math.min(1, encoded(each))));
            hex.append(Character.forDigit((int) level / 16, 16)).append(Character.forDigit((int) level % 16, 16));
        }
        return hex.toString();
    }

    /**
     * Returns the colour of a screen's red, green and blue.
     *
     * @param red 0 to 255
     * @param green 0 to 255
     * @param blue 0 to 255
     */
    public static Lab lab(int red, int green, int blue) {
        return ofLinear(decoded(red / 255.0), decoded(green / 255.0), decoded(blue / 255.0));
    }

    private static Lab ofLinear(double r, double g, double b) {
        return xyzOf(r, g, b).lab();
    }

    /** Returns linear red, green and blue as X, Y and Z. */
    static Xyz xyzOf(double r, double g, double b) {
        return new Xyz(
                0.4123907992659595 * r + 0.357584339383878 * g + 0.1804807884018343 * b,
                0.2126390058715104 * r + 0.7151686787677559 * g + 0.0721923153607337 * b,
                0.0193308187155918 * r + 0.119194779794626 * g + 0.9505321522496606 * b);
    }

    static double decoded(double value) {
        return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }
}
