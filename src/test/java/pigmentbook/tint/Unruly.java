package pigmentbook.tint;

import java.util.Arrays;
import java.util.Random;
import pigmentbook.colour.Lab;
import pigmentbook.tint.Simulated.Chip;

/**
 * Chips that look as paint does rather than as the theory has it: rays in eight directions instead of two flows, a face
 * that reflects by angle, layers uneven in depth, grains that shade themselves, scattering that weakens where it is
 * crowded, and pigments that clump or come apart in each other's company. Shares its pigments' curves with
 * {@link Simulated} and nothing of how a colour comes about.
 *
 * <p>Radiative transfer by adding and doubling (van de Hulst 1963), four directions down and four up by Gauss's points,
 * scattering alike in all; the face by Fresnel, 1.5 its index, lit straight down and read at 45°. Grains that shade
 * themselves by Duysens (1956).
 *
 * @see <a href="https://doi.org/10.1016/0006-3002(56)90380-8">Duysens, The flattening of the absorption spectrum of
 *     suspensions, Biochimica et Biophysica Acta 19 (1956), 1–12</a>
 */
final class Unruly {

    private static final int N = 4;
    private static final double INDEX = 1.5;
    private static final double[] MU = {0.0694318442029737, 0.3300094782075719, 0.6699905217924281, 0.9305681557970263};
    private static final double[] WEIGHT = {
        0.1739274225687269, 0.3260725774312731, 0.3260725774312731, 0.1739274225687269
    };
    private static final double[] UNEVEN = {-1.2, 0, 1.2};
    private static final double THINNEST = 1e-5;

    private final Simulated studio;
    private final double[] grain;
    private final double[][] clumping;
    private final double uneven;
    private final double crowding;
    private final double[] inside = new double[N];
    private final double outside45;

    /**
     * @param together how strongly pigments clump in each other's company: 0 not at all, 0.3 as much as bad paint
     * @param alone how far single pigments stray from what rays alone do: 0 not at all, 1 as far as bad paint
     */
    Unruly(Simulated studio, long seed, double together, double alone) {
        this.studio = studio;
        Random random = new Random(seed);
        int pigments = studio.k.length;
        grain = new double[pigments];
        clumping = new double[pigments][pigments];
        for (int p = 0; p < pigments; p++) {
            grain[p] = 0.3 * alone * Math.exp(0.7 * random.nextGaussian());
            for (int q = 0; q < p; q++) {
                clumping[p][q] = together * random.nextGaussian();
                clumping[q][p] = together * random.nextGaussian();
            }
        }
        uneven = 0.15 * alone;
        crowding = 0.25 * alone;
        double edge = 0;
        for (int i = 0; i < N; i++) {
            for (int j = 0; j < 40; j++) {
                inside[i] += fresnelInside(edge + WEIGHT[i] * (j + 0.5) / 40) / 40;
            }
            edge += WEIGHT[i];
        }
        outside45 = fresnelInside(Math.sqrt(1 - 0.5 / (INDEX * INDEX)));
    }

    /** What of a ray from below is thrown back, its cosine given. */
    private static double fresnelInside(double mu) {
        double sine = INDEX * Math.sqrt(1 - mu * mu);
        if (sine >= 1) {
            return 1;
        }
        double out = Math.sqrt(1 - sine * sine);
        double across = (INDEX * mu - out) / (INDEX * mu + out);
        double along = (mu - INDEX * out) / (mu + INDEX * out);
        return (across * across + along * along) / 2;
    }

    Lab look(Chip chip) {
        int n = chip.pigments().length;
        double crowd = 0;
        double[] clump = new double[n];
        for (int p = 0; p < n; p++) {
            crowd += chip.percents()[p] / studio.top[chip.pigments()[p]];
            for (int q = 0; q < n; q++) {
                if (q != p) {
                    double both = Math.min(1, 2 * Math.min(studio.share(chip, p), studio.share(chip, q)));
                    clump[p] += clumping[chip.pigments()[p]][chip.pigments()[q]] * both;
                }
            }
        }
        double[] seen = new double[Observer.COUNT];
        for (int i = 0; i < seen.length; i++) {
            double absorbs = studio.resinK[i] / 2;
            double scatters = studio.resinS[i] * 4 / 3;
            for (int p = 0; p < n; p++) {
                int own = chip.pigments()[p];
                double size = Math.exp(clump[p]);
                double shade = grain[own] * size * studio.k[own][i];
                double flat = shade < 1e-6 ? 1 : (1 - Math.exp(-shade)) / shade;
                absorbs += chip.percents()[p] * studio.k[own][i] / 2 * flat / Math.sqrt(size);
                scatters += chip.percents()[p] * studio.s[own][i] * 4 / 3 / size / (1 + crowding * crowd);
            }
            double backing = studio.backing[chip.backing()][i];
            for (double off : UNEVEN) {
                double depth = chip.depthMm() * (1 + uneven * off);
                seen[i] += seen(absorbs, scatters, depth, backing) / UNEVEN.length;
            }
        }
        return Observer.lab(seen);
    }

    /** The reflectance seen, of the light sent in. */
    private double seen(double absorbs, double scatters, double depth, double backing) {
        double thick = (absorbs + scatters) * depth;
        int doublings = Math.max(0, (int) Math.ceil(Math.log(thick / THINNEST) / Math.log(2)));
        double thin = thick / Math.pow(2, doublings);
        double albedo = scatters / (absorbs + scatters);
        double[][] back = new double[N][N];
        double[][] through = new double[N][N];
        for (int i = 0; i < N; i++) {
            double path = thin / MU[i];
            for (int j = 0; j < N; j++) {
                back[i][j] = path * albedo * WEIGHT[j] / 2;
                through[i][j] = back[i][j];
            }
            through[i][i] += 1 - path;
        }
        for (int d = 0; d < doublings; d++) {
            double[][] between = inverse(oneLess(times(back, back)));
            double[][] out = times(through, between);
            back = plus(back, times(times(out, back), through));
            through = times(out, through);
        }
        double[][] bottom = new double[N][N];
        for (double[] row : bottom) {
            Arrays.setAll(row, j -> backing * 2 * MU[j] * WEIGHT[j]);
        }
        double[][] up = times(inverse(oneLess(times(bottom, back))), times(bottom, through));
        double[][] all = plus(back, times(through, up));
        double[][] again = new double[N][N];
        double[] first = new double[N];
        for (int i = 0; i < N; i++) {
            first[i] = all[i][N - 1] / (2 * MU[N - 1] * WEIGHT[N - 1]);
            for (int j = 0; j < N; j++) {
                again[i][j] = all[i][j] * inside[j];
            }
        }
        double[][] rounds = inverse(oneLess(again));
        double toEye = 0;
        for (int j = 0; j < N; j++) {
            toEye += rounds[N - 1][j] * first[j];
        }
        return (1 - fresnelInside(1)) * (1 - outside45) / (INDEX * INDEX) * toEye;
    }

    private static double[][] times(double[][] a, double[][] b) {
        double[][] c = new double[N][N];
        for (int i = 0; i < N; i++) {
            for (int j = 0; j < N; j++) {
                for (int k = 0; k < N; k++) {
                    c[i][j] += a[i][k] * b[k][j];
                }
            }
        }
        return c;
    }

    private static double[][] plus(double[][] a, double[][] b) {
        double[][] c = new double[N][N];
        for (int i = 0; i < N; i++) {
            for (int j = 0; j < N; j++) {
                c[i][j] = a[i][j] + b[i][j];
            }
        }
        return c;
    }

    private static double[][] oneLess(double[][] a) {
        double[][] c = new double[N][N];
        for (int i = 0; i < N; i++) {
            for (int j = 0; j < N; j++) {
                c[i][j] = (i == j ? 1 : 0) - a[i][j];
            }
        }
        return c;
    }

    /** By Gauss and Jordan; what is turned here is never near singular, its diagonal being the largest. */
    private static double[][] inverse(double[][] matrix) {
        double[][] a = new double[N][];
        double[][] b = new double[N][N];
        for (int i = 0; i < N; i++) {
            a[i] = matrix[i].clone();
            b[i][i] = 1;
        }
        for (int c = 0; c < N; c++) {
            double pivot = a[c][c];
            for (int j = 0; j < N; j++) {
                a[c][j] /= pivot;
                b[c][j] /= pivot;
            }
            for (int i = 0; i < N; i++) {
                double factor = a[i][c];
                for (int j = 0; i != c && j < N; j++) {
                    a[i][j] -= factor * a[c][j];
                    b[i][j] -= factor * b[c][j];
                }
            }
        }
        return b;
    }
}
