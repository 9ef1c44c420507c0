package pigmentbook.tint;

/**
 * A layer that absorbs and scatters, over an opaque backing, in one band.
 *
 * <p>In the tanh form, which needs no branch for a layer that does not scatter or does not absorb.
 *
 * @see <a href="https://doi.org/10.1364/JOSA.38.000448">Kubelka, New contributions to the optics of intensely
 *     light-scattering materials, part I, Journal of the Optical Society of America 38 (1948), 448–457</a>
 */
final class Layer {

    /** Below this the tanh is taken as its series, exact there to 1e-13. */
    private static final double THIN = 1e-3;

    private Layer() {}

    /**
     * Returns the reflectance inside the face, 0 to 1.
     *
     * @param k absorption, 1/mm
     * @param s scattering, 1/mm
     * @param depthMm depth, mm
     * @param backing reflectance of the backing, 0 to 1
     */
    static double reflectance(double k, double s, double depthMm, double backing) {
        double q2 = k * (k + 2 * s);
        double u = u(q2, depthMm);
        return (backing + u * (s - backing * (k + s))) / (1 + u * ((k + s) - backing * s));
    }

    private static double u(double q2, double depthMm) {
        double q = Math.sqrt(q2);
        double qx = q * depthMm;
        if (qx < THIN) {
            return depthMm - q2 * depthMm * depthMm * depthMm / 3;
        }
        double gone = Math.exp(-2 * qx);
        return (1 - gone) / (1 + gone) / q;
    }

    /**
     * Works out the reflectance and its slopes.
     *
     * @param out takes the reflectance, its slope by k, its slope by s
     */
    static void withSlopes(double k, double s, double depthMm, double backing, double[] out) {
        double q2 = k * (k + 2 * s);
        double x = depthMm;
        double q = Math.sqrt(q2);
        double u;
        double byQ2;
        if (q * x < THIN) {
            u = x - q2 * x * x * x / 3;
            byQ2 = -x * x * x / 3 + 4 * q2 * x * x * x * x * x / 15;
        } else {
            double gone = Math.exp(-2 * q * x);
            double tanh = (1 - gone) / (1 + gone);
            u = tanh / q;
            byQ2 = (x * (1 - tanh * tanh) - u) / (2 * q2);
        }
        double uK = 2 * (k + s) * byQ2;
        double uS = 2 * k * byQ2;
        double up = s - backing * (k + s);
        double down = (k + s) - backing * s;
        double d = 1 + u * down;
        double r = (backing + u * up) / d;
        out[0] = r;
        out[1] = (uK * up - u * backing - r * (uK * down + u)) / d;
        out[2] = (uS * up + u * (1 - backing) - r * (uS * down + u * (1 - backing))) / d;
    }
}
