package pigmentbook.colour;

/**
 * A colour in CIELAB, 2° observer, white point of D65.
 *
 * @param l lightness, 0 (black) to 100 (white)
 * @param a green (negative) to red (positive), −200 to 200
 * @param b blue (negative) to yellow (positive), −200 to 200
 */
public record Lab(double l, double a, double b) {

    public Lab {
        if (!(l >= 0 && l <= 100) || !(Math.abs(a) <= 200) || !(Math.abs(b) <= 200)) {
            throw new IllegalArgumentException("A colour of [" + l + ", " + a + ", " + b
                    + "] cannot be; L* goes from 0 to 100, a* and b* from -200 to 200.");
        }
    }
}
