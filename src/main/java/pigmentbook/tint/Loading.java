package pigmentbook.tint;

/**
 * How much of a pigment is in a mix.
 *
 * @param pigmentId the pigment's id
 * @param percent grams of it, at full strength, to 100 g of mixed resin; 0 or more
 */
public record Loading(String pigmentId, double percent) {}
