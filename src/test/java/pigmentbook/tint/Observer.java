package pigmentbook.tint;

import pigmentbook.colour.Lab;
import pigmentbook.colour.Xyz;

/**
 * The CIE 1931 2° observer under D65 at 10 nm from 380 to 780 nm (CIE 15:2004, tables T.1 and T.4), for spectra of our
 * own making. Typed from memory; {@code SimulatedTest} checks that the white point and the bands come out of it.
 */
final class Observer {

    static final int COUNT = 41;

    private static final double[] X = {
        0.001368, 0.004243, 0.014310, 0.043510, 0.134380, 0.283900, 0.348280, 0.336200, 0.290800, 0.195360, 0.095640,
        0.032010, 0.004900, 0.009300, 0.063270, 0.165500, 0.290400, 0.433450, 0.594500, 0.762100, 0.916300, 1.026300,
        1.062200, 1.002600, 0.854450, 0.642400, 0.447900, 0.283500, 0.164900, 0.087400, 0.046770, 0.022700, 0.011359,
        0.005790, 0.002899, 0.001440, 0.000690, 0.000332, 0.000166, 0.000083, 0.000042
    };
    private static final double[] Y = {
        0.000039, 0.000120, 0.000396, 0.001210, 0.004000, 0.011600, 0.023000, 0.038000, 0.060000, 0.090980, 0.139020,
        0.208020, 0.323000, 0.503000, 0.710000, 0.862000, 0.954000, 0.994950, 0.995000, 0.952000, 0.870000, 0.757000,
        0.631000, 0.503000, 0.381000, 0.265000, 0.175000, 0.107000, 0.061000, 0.032000, 0.017000, 0.008210, 0.004102,
        0.002091, 0.001047, 0.000520, 0.000249, 0.000120, 0.000060, 0.000030, 0.000015
    };
    private static final double[] Z = {
        0.006450, 0.020050, 0.067850, 0.207400, 0.645600, 1.385600, 1.747060, 1.772110, 1.669200, 1.287640, 0.812950,
        0.465180, 0.272000, 0.158200, 0.078250, 0.042160, 0.020300, 0.008750, 0.003900, 0.002100, 0.001650, 0.001100,
        0.000800, 0.000340, 0.000190, 0.000050, 0.000020, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0
    };
    private static final double[] D65 = {
        49.9755, 54.6482, 82.7549, 91.486, 93.4318, 86.6823, 104.865, 117.008, 117.812, 114.861, 115.923, 108.811,
        109.354, 107.802, 104.79, 107.689, 104.405, 104.046, 100, 96.3342, 95.788, 88.6856, 90.0062, 89.5991, 87.6987,
        83.2886, 83.6992, 80.0268, 80.2146, 82.2778, 78.2842, 69.7213, 71.6091, 74.349, 61.604, 69.8856, 75.087,
        63.5927, 46.4182, 66.8054, 63.3828
    };

    /** Weights of X, Y and Z, not yet scaled to the white point, for Y of 1. */
    static final double[][] RAW = {raw(X), raw(Y), raw(Z)};

    private static final double[] WHITE = {Xyz.WHITE_X, 1, Xyz.WHITE_Z};

    private Observer() {}

    private static double[] raw(double[] curve) {
        double y = 0;
        for (int i = 0; i < COUNT; i++) {
            y += Y[i] * D65[i];
        }
        double[] raw = new double[COUNT];
        for (int i = 0; i < COUNT; i++) {
            raw[i] = curve[i] * D65[i] / y;
        }
        return raw;
    }

    static double nm(int i) {
        return 380 + 10 * i;
    }

    /** The colour of a reflectance. */
    static Lab lab(double[] reflectance) {
        double[] xyz = new double[3];
        for (int c = 0; c < 3; c++) {
            double white = 0;
            for (int i = 0; i < COUNT; i++) {
                white += RAW[c][i];
                xyz[c] += RAW[c][i] * reflectance[i];
            }
            xyz[c] *= WHITE[c] / white;
        }
        return new Xyz(xyz[0], xyz[1], xyz[2]).lab();
    }
}
