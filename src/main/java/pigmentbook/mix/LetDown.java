package pigmentbook.mix;

import pigmentbook.colour.Lab;

/**
 * The strength of a lot beside the reference lot, from the two let down the same way in the same white and read side by
 * side. The idea of relative strength is that of ISO 787-24; K/S = (1 − R)²/(2R) is Kubelka and Munk's for a layer that
 * hides its ground.
 */
public final class LetDown {

    private static final double BEND = 6.0 / 29;
    private static final double PALEST = 0.98;

    private LetDown() {}

    /**
     * Returns the lot's strength as a factor: its K/S divided by the reference's, where the reference takes most light
     * away.
     *
     * @param reference the reference lot's letdown
     * @param lot this lot's letdown
     * @throws MixRefusedException if the letdowns are too pale to compare, or no colours
     */
    public static double strength(Lab reference, Lab lot) {
        double[] ours = reflectances(reference);
        double[] theirs = reflectances(lot);
        int band = 0;
        for (int i = 1; i < ours.length; i++) {
            band = ours[i] < ours[band] ? i : band;
        }
        if (!(ours[band] > 0) || !(theirs[band] > 0) || ours[band] > PALEST || theirs[band] >= 1) {
            throw new MixRefusedException(
                    "These two are too pale, or no colours, to tell their strength. Let down with less white and read again.");
        }
        return hiding(theirs[band]) / hiding(ours[band]);
    }

    private static double hiding(double reflectance) {
        return (1 - reflectance) * (1 - reflectance) / (2 * reflectance);
    }

    /** X, Y, Z beside those of white: CIE 15. */
    private static double[] reflectances(Lab lab) {
        double y = (lab.l() + 16) / 116;
        return new double[] {cubed(y + lab.a() / 500), cubed(y), cubed(y - lab.b() / 200)};
    }

    private static double cubed(double t) {
        return t > BEND ? t * t * t : 3 * BEND * BEND * (t - 4.0 / 29);
    }
}
