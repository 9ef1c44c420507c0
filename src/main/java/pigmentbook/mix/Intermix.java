package pigmentbook.mix;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Lot;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Mass;

/**
 * Two lots of one product put together into a new one. Strengths add up by mass and, as for liquids that neither shrink
 * nor swell in each other, volumes add up (common practice, no source).
 *
 * @param grams its mass, above 0
 * @param strengthFactor its strength beside the reference lot, 1 for 100 %
 * @param gramsPerMl its density in g/mL; null where one of the two states none
 * @param expires the last day it is good, that of the shorter-lived of the two; null where neither states one
 */
public record Intermix(
        double grams,
        double strengthFactor,
        @Nullable Double gramsPerMl,
        @Nullable LocalDate expires) {

    /**
     * Puts two lots together.
     *
     * @param mass how much of the lot goes in
     * @param more how much of the other lot does
     * @throws MixRefusedException if they are one lot or of different products, or nothing of one goes in
     */
    public static Intermix of(Lot lot, Mass mass, Lot other, Mass more) {
        if (other.id().equals(lot.id())
                || !other.of().equals(lot.of())
                || !other.item().equals(lot.item())) {
            throw new MixRefusedException("Two different lots of one product are put together; choose another one than "
                    + other.id() + ". Nothing was changed.");
        }
        if (!(mass.grams() > 0) || !(more.grams() > 0)) {
            throw new MixRefusedException("Something of each lot goes in; type the grams of both.");
        }
        double grams = mass.grams() + more.grams();
        double strength = (mass.grams() * lot.strengthFactor() + more.grams() * other.strengthFactor()) / grams;
        Density a = lot.density();
        Density b = other.density();
        Double gramsPerMl = a == null || b == null
                ? null
                : (Double) (grams / (mass.grams() / a.gramsPerMl() + more.grams() / b.gramsPerMl()));
        return new Intermix(grams, strength, gramsPerMl, earlier(lot.expires(), other.expires()));
    }

    private static @Nullable LocalDate earlier(@Nullable LocalDate a, @Nullable LocalDate b) {
        return a == null ? b : b == null || a.isBefore(b) ? a : b;
    }
}
