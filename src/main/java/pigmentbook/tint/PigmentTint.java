package pigmentbook.tint;

import java.util.List;

/**
 * What is known of a pigment.
 *
 * @param id the pigment's id
 * @param readings how many readings it is in
 * @param medianDe00 the median ΔE00 between those readings and the theory fitted to all
 * @param worstDe00 the largest of them
 * @param spreadDe00 the mean spread of looks at it alone, over weak to strong, thin and thick, white and black
 * @param next the chip to read next
 * @param thenDe00 the mean spread once that chip is read
 * @param k absorption in eight bands from 400 to 700 nm, 1/(percent mm)
 * @param s scattering in the same bands, 1/(percent mm)
 */
public record PigmentTint(
        String id,
        int readings,
        double medianDe00,
        double worstDe00,
        double spreadDe00,
        NextReading next,
        double thenDe00,
        List<Double> k,
        List<Double> s) {}
