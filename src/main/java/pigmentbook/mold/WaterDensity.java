package pigmentbook.mold;

import pigmentbook.quantity.Numbers;

/** Water as a measure of room: fill a mold with it and weigh. */
public final class WaterDensity {

    private static final double A1 = -3.983035;
    private static final double A2 = 301.797;
    private static final double A3 = 522528.9;
    private static final double A4 = 69.34881;
    private static final double A5 = 999.974950;
    private static final double AIR_KG_PER_M3 = 1.2;
    private static final double WEIGHTS_KG_PER_M3 = 8000;

    private WaterDensity() {}

    /**
     * Returns the density of pure, air-free water at a pressure of 101 325 Pa.
     *
     * @param celsius water temperature in °C (ITS-90), from 0 to 40
     * @return density in kg/m³
     * @throws IllegalArgumentException if the temperature is outside 0 to 40, where the fit ends
     * @see <a href="https://doi.org/10.1088/0026-1394/38/4/3">Tanaka, Girard, Davis, Peuto, Bignell, Recommended table
     *     for the density of water between 0 °C and 40 °C, Metrologia 38 (2001), 301–309</a>
     */
    public static double kgPerM3(double celsius) {
        if (!covers(celsius)) {
            throw new IllegalArgumentException(
                    "Water of " + Numbers.plain(celsius) + " °C can't be used to measure; 0 to 40 °C is expected.");
        }
        return A5 * (1 - (celsius + A1) * (celsius + A1) * (celsius + A2) / (A3 * (celsius + A4)));
    }

    /** Returns whether the fit covers a temperature in °C. */
    static boolean covers(double celsius) {
        return celsius >= 0 && celsius <= 40;
    }

    /**
     * Returns the volume of water that a scale in air shows as so many grams: air of 1.2 kg/m³ carries the water more
     * than the scale's weights of 8000 kg/m³.
     *
     * @param shownGrams what the scale shows, in g
     * @param celsius water temperature in °C, from 0 to 40
     * @return the volume in mL
     */
    public static double millilitersOf(double shownGrams, double celsius) {
        double density = kgPerM3(celsius);
        return shownGrams * (1 - AIR_KG_PER_M3 / WEIGHTS_KG_PER_M3) / (1 - AIR_KG_PER_M3 / density) * 1000 / density;
    }
}
