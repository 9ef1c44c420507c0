package pigmentbook.mix;

import pigmentbook.quantity.Numbers;

/** How numbers stand in sentences. */
final class Shown {

    private Shown() {}

    /** Shows a mass: 0.034 g, 3.25 g, 48.2 g, 646 g, 6.96 kg stays 6959 g. */
    static String grams(double grams) {
        return significant(grams) + " g";
    }

    /** Shows a fraction as a percent: 0.012 is 1.2 %. */
    static String percent(double fraction) {
        return significant(fraction * 100) + " %";
    }

    /** Shows a depth in mm. */
    static String mm(double mm) {
        return significant(mm) + " mm";
    }

    /** Shows a temperature. */
    static String celsius(double celsius) {
        return withoutEndZeros(Numbers.fixed(celsius, 1)) + " °C";
    }

    /** Shows a number with three significant digits and no end zeros, whole numbers in full. */
    static String significant(double value) {
        if (value == 0 || !Double.isFinite(value)) {
            return value == 0 ? "0" : "no number";
        }
        int decimals = (int) Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
        return withoutEndZeros(Numbers.fixed(value, Math.min(decimals, 9)));
    }

    private static String withoutEndZeros(String number) {
        if (number.indexOf('.') < 0) {
            return number;
        }
        int end = number.length();
        while (number.charAt(end - 1) == '0') {
            end--;
        }
        return number.substring(0, number.charAt(end - 1) == '.' ? end - 1 : end);
    }
}
