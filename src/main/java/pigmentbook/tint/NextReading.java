package pigmentbook.tint;

/**
 * The chip whose reading would tell most about a pigment.
 *
 * @param percent its loading, percent of mixed resin
 * @param depthMm its depth, mm
 * @param backing {@code white} or {@code black}
 */
public record NextReading(double percent, double depthMm, String backing) {}
