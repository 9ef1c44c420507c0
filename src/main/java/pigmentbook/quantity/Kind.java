package pigmentbook.quantity;

/** The kinds of amount that have units. */
enum Kind {
    AREA,
    COVERAGE,
    DENSITY,
    DURATION,
    LENGTH,
    MASS,
    PERCENT,
    TEMPERATURE,
    VOLUME
}
