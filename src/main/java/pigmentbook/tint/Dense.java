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

    /**
     * Returns the inverse of L Lᵀ, both halves filled in.
     *
     * @param l a Cholesky factor, left as it is
     */
    static double[][] inverse(double[][] l) {
        int n = l.length;
        // Rows of L⁻¹, by rows: row i is what is left of the unit vector, so the inner loop runs along rows.
        double[][] inv = new double[n][n];
        for (int i = 0; i < n; i++) {
            double[] row = inv[i];
            double[] li = l[i];
            for (int k = 0; k < i; k++) {
                double factor = li[k];
                if (factor != 0) {
                    double[] other = inv[k];
                    for (int j = 0; j <= k; j++) {
                        row[j] -= factor * other[j];
                    }
                }
            }
            double scale = 1 / li[i];
            for (int j = 0; j < i; j++) {
                row[j] *= scale;
            }
            row[i] = scale;
        }
        double[][] product = new double[n][n];
        for (int k = 0; k < n; k++) {
            double[] row = inv[k];
            for (int i = 0; i <= k; i++) {
                double factor = row[i];
                if (factor != 0) {
                    double[] to = product[i];
                    for (int j = 0; j <= i; j++) {
                        to[j] += factor * row[j];
                    }
                }
            }
        }
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < i; j++) {
                product[j][i] = product[i][j];
            }
        }
        return product;
    }
}
