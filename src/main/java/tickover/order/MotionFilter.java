package tickover.order;

import java.util.Arrays;

/**
 * Runs through angle readings in order of time and tells how likely they are under a motion.
 *
 * <p>Model: the angle is white noise integrated {@code integrations} times (two: torque changes
 * from one moment to the next; three: acceleration drifts; four: it drifts smoothly), every reading
 * has independent noise. How far the noise of the motion reaches is given for each step as a cutoff
 * c, rad per usual step: the noise is c^(2 integrations) times that of a reading, so that slower
 * motion than the cutoff is followed and faster is smoothed.
 *
 * <p>Computed as a square-root information filter, one small orthogonal step per knot: stable for
 * exact and for very noisy readings alike. Thread: one per instance.
 */
final class MotionFilter {
    /** Readings that only set the start: as many for each motion, so that motions compare. */
    private static final int UNCOUNTED = 4;

    private final double[] timesS;
    private final double[] turns;
    private final double[] weights;
    private final double unitS;
    private final int size;
    private final int rows;
    private final int cols;
    private final double[] noiseRoot;
    private final double[] work;
    private final double[] r;
    private final double[] z;
    private final double[] powers;
    private final double[] squares;
    private final double[] logs;
    private final int[] counted;
    private double triangleProduct;
    private double newLog;

    /**
     * Prepares a filter.
     *
     * @param timesS knots, rising
     * @param turns reading at each knot
     * @param weights reciprocal noise of each reading up to a common factor; 0 for no reading
     * @param unitS usual step between readings, s
     * @param integrations 2 to 4
     * @param groups groups of readings that are counted apart
     */
    MotionFilter(
            double[] timesS,
            double[] turns,
            double[] weights,
            double unitS,
            int integrations,
            int groups) {
        this.timesS = timesS;
        this.turns = turns;
        this.weights = weights;
        this.unitS = unitS;
        this.size = integrations;
        this.rows = 2 * size + 1;
        this.cols = 2 * size + 1;
        this.noiseRoot = noiseRoot(size);
        this.squares = new double[groups];
        this.logs = new double[groups];
        this.counted = new int[groups];
        this.work = new double[rows * cols];
        this.r = new double[size * size];
        this.z = new double[size];
        this.powers = new double[size];
    }

    /** Integrations of the motion. */
    int size() {
        return size;
    }

    /** Numbers kept per knot for the way back: a row of the triangle and one of its right side. */
    int keptPerKnot() {
        return size * (2 * size + 1);
    }

    /** Sum of squares of what each counted reading of a group has new, in units of the noise. */
    double squares(int group) {
        return squares[group];
    }

    /** Sum of logarithms of the variances of what is new, in units of the noise. */
    double logs(int group) {
        return logs[group];
    }

    /** Readings of a group that are counted. */
    int counted(int group) {
        return counted[group];
    }

    /** The triangle that the state at the last knot solves. */
    double[] triangle() {
        return r;
    }

    /** Its right side. */
    double[] rightSide() {
        return z;
    }

    /**
     * Runs over the knots {@code from} to {@code to} less one.
     *
     * @param cutoffs cutoff of each step, rad per usual step
     * @param groups group that each step is counted in
     * @param countFrom first knot whose reading counts, if enough came before it
     * @param kept where to leave what the way back needs, null for nothing
     */
    void run(double[] cutoffs, int[] groups, int from, int countFrom, int to, double[] kept) {
        Arrays.fill(r, 0);
        Arrays.fill(z, 0);
        Arrays.fill(logs, 0);
        Arrays.fill(squares, 0);
        Arrays.fill(counted, 0);
        triangleProduct = 0;
        int readings = 0;
        double cutoff = 0;
        double scale = 0;
        for (int k = from; k < to; k++) {
            if (k == from) {
                start(k);
            } else {
                if (cutoffs[k - 1] != cutoff) {
                    cutoff = cutoffs[k - 1];
                    scale = Math.pow(cutoff, -size);
                }
                step(k, scale);
                if (kept != null) {
                    pack(kept, k - 1);
                }
                if (k >= countFrom && readings >= UNCOUNTED && weights[k] > 0) {
                    int group = groups[k - 1];
                    double left = work[rows * 2 * size + 2 * size];
                    squares[group] += left * left;
                    logs[group] += newLog;
                    counted[group]++;
                }
            }
            readings += weights[k] > 0 ? 1 : 0;
        }
    }

    private void start(int k) {
        if (weights[k] > 0) {
            r[0] = weights[k];
            z[0] = weights[k] * turns[k];
        }
    }

    /** Adds the step to knot k and the reading there, and makes it all triangular. */
    private void step(int k, double scale) {
        double h = (timesS[k] - timesS[k - 1]) / unitS;
        Arrays.fill(work, 0);
        // The heavy rows of the motion stand first: the reflections keep their digits then.
        double known = triangleProduct * processRows(h, scale);
        for (int i = 0; i < size; i++) {
            for (int j = i; j < size; j++) {
                work[rows * j + size + i] = r[size * i + j];
            }
            work[rows * 2 * size + size + i] = z[i];
        }
        double w = weights[k];
        if (w > 0) {
            work[rows * size + 2 * size] = w;
            work[rows * 2 * size + 2 * size] = w * turns[k];
            known *= w;
        }
        triangularize();
        double product = 1;
        triangleProduct = 1;
        for (int i = 0; i < size; i++) {
            product *= work[(rows + 1) * i];
            for (int j = 0; j < size; j++) {
                r[size * i + j] = j < i ? 0 : work[rows * (size + j) + size + i];
            }
            triangleProduct *= r[(size + 1) * i];
            z[i] = work[rows * 2 * size + size + i];
        }
        // Determinants: what is new has the variance by which the whole grew beyond its parts.
        newLog = 2 * Math.log(Math.abs(product * triangleProduct / known));
    }

    /** Rows of {@code root (next - F state)}; returns the root's determinant. */
    private double processRows(double h, double scale) {
        // Errors of the derivatives over a step grow with powers of its length.
        double power = scale / Math.sqrt(h);
        double determinant = 1;
        for (int j = size - 1; j >= 0; j--) {
            powers[j] = power;
            determinant *= power * noiseRoot[(size + 1) * j];
            power /= h;
        }
        for (int i = 0; i < size; i++) {
            for (int m = 0; m <= i; m++) {
                double a = noiseRoot[size * i + m] * powers[m];
                work[rows * (size + m) + i] = a;
                double term = a;
                for (int j = m; j < size; j++) {
                    work[rows * j + i] -= term;
                    term *= h / (j - m + 1);
                }
            }
        }
        return determinant;
    }

    /** Householder reflections, one per unknown. */
    private void triangularize() {
        for (int c = 0; c < 2 * size; c++) {
            // Below the motion's rows stand a triangle and, to its right, the reading: zeros still.
            int end = c < size ? size + c + 1 : rows;
            int own = rows * c;
            double norm = 0;
            for (int i = own + c; i < own + end; i++) {
                norm += work[i] * work[i];
            }
            if (!(norm > 1e-200)) {
                continue;
            }
            double top = work[own + c];
            double alpha = top > 0 ? -Math.sqrt(norm) : Math.sqrt(norm);
            work[own + c] = top - alpha;
            double beta = 1 / (alpha * (top - alpha));
            for (int j = c + 1; j < cols; j++) {
                reflect(own + c, own + end, rows * (j - c), beta);
            }
            work[own + c] = alpha;
            Arrays.fill(work, own + c + 1, own + end, 0);
        }
    }

    /** Adds to the column {@code ahead} numbers further on its share along one column. */
    private void reflect(int from, int to, int ahead, double beta) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += work[i] * work[i + ahead];
        }
        sum *= beta;
        for (int i = from; i < to; i++) {
            work[i + ahead] += sum * work[i];
        }
    }

    private void pack(double[] kept, int k) {
        int width = 2 * size + 1;
        for (int i = 0; i < size; i++) {
            int at = keptPerKnot() * k + width * i;
            for (int j = 0; j < width; j++) {
                kept[at + j] = work[rows * j + i];
            }
        }
    }

    /**
     * Inverse of the lower Cholesky factor of the motion's noise over a unit step. The covariance
     * of derivatives i and j of noise integrated p times is 1 / ((2p - 1 - i - j) (p - 1 - i)! (p -
     * 1 - j)!).
     */
    private static double[] noiseRoot(int p) {
        double[] factorial = {1, 1, 2, 6};
        double[] lower = new double[p * p];
        for (int i = 0; i < p; i++) {
            for (int j = 0; j <= i; j++) {
                double sum =
                        1 / ((2 * p - 1 - i - j) * factorial[p - 1 - i] * factorial[p - 1 - j]);
                for (int k = 0; k < j; k++) {
                    sum -= lower[p * i + k] * lower[p * j + k];
                }
                lower[p * i + j] = i == j ? Math.sqrt(sum) : sum / lower[p * j + j];
            }
        }
        double[] inverse = new double[p * p];
        for (int c = 0; c < p; c++) {
            for (int i = c; i < p; i++) {
                double sum = i == c ? 1 : 0;
                for (int k = c; k < i; k++) {
                    sum -= lower[p * i + k] * inverse[p * k + c];
                }
                inverse[p * i + c] = sum / lower[p * i + i];
            }
        }
        return inverse;
    }
}
