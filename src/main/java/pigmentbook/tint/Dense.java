package pigmentbook.tint;

/** Small dense linear algebra, quick enough for a few hundred unknowns. */
final class Dense {

    private Dense() {}

    /**
     * Solves a square system by elimination with pivots.
     *
     * @param matrix the matrix, left as it is
     * @param right the right side, left as it is
     */
    static double[] solve(double[][] matrix, double[] right) {
        int n = right.length;
        double[][] m = new double[n][];
        for (int i = 0; i < n; i++) {
            m[i] = java.util.Arrays.copyOf(matrix[i], n + 1);
            m[i][n] = right[i];
        }
        for (int i = 0; i < n; i++) {
            int pivot = i;
            for (int j = i + 1; j < n; j++) {
                pivot = Math.abs(m[j][i]) > Math.abs(m[pivot][i]) ? j : pivot;
            }
            double[] row = m[pivot];
            m[pivot] = m[i];
            m[i] = row;
            for (int j = i + 1; j < n; j++) {
                double factor = m[j][i] / row[i];
                for (int k = i; k <= n; k++) {
                    m[j][k] -= factor * row[k];
                }
            }
        }
        double[] x = new double[n];
        for (int i = n - 1; i >= 0; i--) {
            double value = m[i][n];
            for (int j = i + 1; j < n; j++) {
                value -= m[i][j] * x[j];
            }
            x[i] = value / m[i][i];
        }
        return x;
    }

    /**
     * Turns the lower half of a symmetric matrix into its Cholesky factor, in place.
     *
     * <p>Row by row, four dot products at a time, since the Java compiler runs one alone at a fraction of the speed.
     *
     * @param a rows; only {@code a[i][0..i]} is read and written
     * @return false if the matrix is not positive definite
     */
    static boolean factor(double[][] a) {
        int n = a.length;
        for (int i = 0; i < n; i++) {
            double[] row = a[i];
            int j = 0;
            for (; j + 3 < i; j += 4) {
                fourDots(a, row, j);
            }
            for (; j < i; j++) {
                row[j] = (row[j] - dot(row, a[j], j)) / a[j][j];
            }
            double rest = row[i] - dot(row, row, i);
            if (!(rest > 0)) {
                return false;
            }
            row[i] = Math.sqrt(rest);
        }
        return true;
    }

    /** The next four columns of a row: what lies left of them at once, the triangle between them one by one. */
    private static void fourDots(double[][] a, double[] row, int j) {
        double[] r0 = a[j];
        double[] r1 = a[j + 1];
        double[] r2 = a[j + 2];
        double[] r3 = a[j + 3];
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        for (int k = 0; k < j; k++) {
            double value = row[k];
            s0 += value * r0[k];
            s1 += value * r1[k];
            s2 += value * r2[k];
            s3 += value * r3[k];
        }
        double v0 = (row[j] - s0) / r0[j];
        double v1 = (row[j + 1] - s1 - v0 * r1[j]) / r1[j + 1];
        double v2 = (row[j + 2] - s2 - v0 * r2[j] - v1 * r2[j + 1]) / r2[j + 2];
        row[j] = v0;
        row[j + 1] = v1;
        row[j + 2] = v2;
        row[j + 3] = (row[j + 3] - s3 - v0 * r3[j] - v1 * r3[j + 1] - v2 * r3[j + 2]) / r3[j + 3];
    }

    private static double dot(double[] a, double[] b, int n) {
        double sum = 0;
        for (int k = 0; k < n; k++) {
            sum += a[k] * b[k];
        }
        return sum;
    }

    /** Solves L Lᵀ x = b in place. */
    static void solveFactored(double[][] l, double[] b) {
        int n = b.length;
        for (int i = 0; i < n; i++) {
            b[i] = (b[i] - dot(l[i], b, i)) / l[i][i];
        }
        for (int i = n - 1; i >= 0; i--) {
            double x = b[i] / l[i][i];
            b[i] = x;
            double[] row = l[i];
            for (int k = 0; k < i; k++) {
                b[k] -= x * row[k];
            }
        }
    }

    /** Returns L⁻¹, its upper half 0. */
    static double[][] inverseOfFactor(double[][] l) {
        int n = l.length;
        double[][] inverse = new double[n][n];
        for (int i = 0; i < n; i++) {
            double[] row = inverse[i];
            double[] li = l[i];
            int k = 0;
            for (; k + 3 < i; k += 4) {
                subtractFour(row, li[k], li[k + 1], li[k + 2], li[k + 3], inverse, k, k + 4);
            }
            for (; k < i; k++) {
                subtract(row, li[k], inverse[k], k + 1);
            }
            double scale = 1 / li[i];
            for (int j = 0; j < i; j++) {
                row[j] *= scale;
            }
            row[i] = scale;
        }
        return inverse;
    }

    private static void subtract(double[] from, double factor, double[] row, int n) {
        for (int j = 0; j < n; j++) {
            from[j] -= factor * row[j];
        }
    }

    /** Takes off four rows at once, so that what is taken from is read and written once for all of them. */
    private static void subtractFour(
            double[] from, double f0, double f1, double f2, double f3, double[][] rows, int k, int n) {
        double[] r0 = rows[k];
        double[] r1 = rows[k + 1];
        double[] r2 = rows[k + 2];
        double[] r3 = rows[k + 3];
        for (int j = 0; j < n; j++) {
            from[j] -= f0 * r0[j] + f1 * r1[j] + f2 * r2[j] + f3 * r3[j];
        }
    }

    /**
     * Returns the inverse of L Lᵀ, both halves filled in.
     *
     * @param l a Cholesky factor, left as it is
     */
    static double[][] inverse(double[][] l) {
        int n = l.length;
        double[][] factor = inverseOfFactor(l);
        double[][] product = new double[n][n];
        for (int i = 0; i < n; i++) {
            double[] to = product[i];
            int k = i;
            for (; k + 3 < n; k += 4) {
                subtractFour(
                        to, -factor[k][i], -factor[k + 1][i], -factor[k + 2][i], -factor[k + 3][i], factor, k, i + 1);
            }
            for (; k < n; k++) {
                subtract(to, -factor[k][i], factor[k], i + 1);
            }
            for (int j = 0; j < i; j++) {
                product[j][i] = to[j];
            }
        }
        return product;
    }
}
