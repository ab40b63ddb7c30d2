package tickover.order;

/**
 * Cubic B-splines on even knots, {@code D} samples apart.
 *
 * <p>In interval q, samples {@code q D} to {@code (q + 1) D}, spline {@code q + a}, a from 0 to 3,
 * is a polynomial in v, which runs from -1 at the beginning of the interval to 1 at its end.
 */
final class SplineBasis {
    /** Splines that live in one interval. */
    static final int SPLINES = 4;

    /** Terms of a product of two splines. */
    static final int PRODUCT_TERMS = 7;

    /** Splines in one interval that a difference over the interval's end can see. */
    static final int DIFFERENCE_SPLINES = 5;

    /** Terms in v of the four splines. */
    private static final double[][] SHAPES = {
        {1 / 48.0, -3 / 48.0, 3 / 48.0, -1 / 48.0},
        {23 / 48.0, -15 / 48.0, -3 / 48.0, 3 / 48.0},
        {23 / 48.0, 15 / 48.0, -3 / 48.0, -3 / 48.0},
        {1 / 48.0, 3 / 48.0, 3 / 48.0, 1 / 48.0}
    };

    private static final double[][] PRODUCTS = products();

    private SplineBasis() {}

    private static double[][] products() {
        double[][] out = new double[SPLINES * SPLINES][PRODUCT_TERMS];
        for (int a = 0; a < SPLINES; a++) {
            for (int b = 0; b < SPLINES; b++) {
                for (int i = 0; i < 4; i++) {
                    for (int j = 0; j < 4; j++) {
                        out[SPLINES * a + b][i + j] += SHAPES[a][i] * SHAPES[b][j];
                    }
                }
            }
        }
        return out;
    }

    /** Sum of a spline times a signal, from the signal's sums against 1, v, v², v³. */
    static double weigh(int a, double[] moments, int from) {
        double[] shape = SHAPES[a];
        return shape[0] * moments[from]
                + shape[1] * moments[from + 1]
                + shape[2] * moments[from + 2]
                + shape[3] * moments[from + 3];
    }

    /** Sum of two splines' product times a signal, from its sums against 1 to v^6. */
    static double weighProduct(int a, int b, double[] moments, int from) {
        double[] product = PRODUCTS[SPLINES * a + b];
        double sum = 0;
        for (int m = 0; m < PRODUCT_TERMS; m++) {
            sum += product[m] * moments[from + m];
        }
        return sum;
    }

    /** Terms in v, over one interval, of the curve with the given coefficients. */
    static void curve(double[] coefficients, int interval, double[] terms) {
        for (int m = 0; m < 4; m++) {
            terms[m] = 0;
            for (int a = 0; a < SPLINES; a++) {
                terms[m] += SHAPES[a][m] * coefficients[interval + a];
            }
        }
    }

    /** Value at the beginning of an interval of the curve with the given coefficients. */
    static double atKnot(double[] coefficients, int interval) {
        return (coefficients[interval]
                        + 4 * coefficients[interval + 1]
                        + coefficients[interval + 2])
                / 6;
    }

    /**
     * Sums, over places in one interval, of products of the splines' differences from one sample to
     * the next ones.
     *
     * <p>A difference is the mean of a derivative: Simpson's rule gives the first exactly, as the
     * derivative is quadratic between samples, and the second is the same weights on the second
     * derivative at three samples. To subtract values instead would lose all digits where knots lie
     * far apart.
     *
     * @param intervalSamples samples between knots, &gt;= 2
     * @param differences 1 or 2
     * @param places how many places count, from the beginning of the interval
     * @return element (a, b) at {@code 5 a + b}
     */
    static double[] differenceProducts(int intervalSamples, int differences, int places) {
        double h = 1.0 / intervalSamples;
        int n = DIFFERENCE_SPLINES;
        double[] sums = new double[n * n];
        double[] d = new double[n];
        for (int i = 0; i < places; i++) {
            for (int a = 0; a < n; a++) {
                double x = i * h + 3 - a;
                d[a] =
                        differences == 1
                                ? h * (slope(x) + 4 * slope(x + h / 2) + slope(x + h)) / 6
                                : h * h * (bend(x) + 4 * bend(x + h) + bend(x + 2 * h)) / 6;
            }
            for (int a = 0; a < n; a++) {
                for (int b = 0; b < n; b++) {
                    sums[n * a + b] += d[a] * d[b];
                }
            }
        }
        return sums;
    }

    /** First derivative of the spline whose knots are 0, 1, 2, 3 and 4. */
    private static double slope(double x) {
        double away = Math.abs(x - 2);
        double size;
        if (away >= 2) {
            size = 0;
        } else if (away >= 1) {
            size = -(2 - away) * (2 - away) / 2;
        } else {
            size = away * (3 * away - 4) / 2;
        }
        return x < 2 ? -size : size;
    }

    /** Second derivative of the same spline. */
    private static double bend(double x) {
        double away = Math.abs(x - 2);
        if (away >= 2) {
            return 0;
        }
        return away >= 1 ? 2 - away : 3 * away - 2;
    }
}
