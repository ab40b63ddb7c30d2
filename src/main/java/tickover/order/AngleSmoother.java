package tickover.order;

import java.util.Arrays;

/**
 * Draws the smoothest angle curve that noisy angle readings justify.
 *
 * <p>Model: the rate of change of acceleration is white noise, every reading has independent noise.
 * Its best estimate is the smoothing spline of fifth degree; a shaft of steady acceleration is
 * followed without any error. How rough the shaft may be against how noisy the readings are is not
 * set but estimated: it is the ratio under which the readings are most likely (restricted maximum
 * likelihood). With exact readings that comes out as interpolation, so they cost nothing.
 *
 * <p>Computed as a square-root information filter with its backward pass, one small orthogonal step
 * per knot: O(knots), stable for exact and for very noisy readings alike.
 */
final class AngleSmoother {
    /** Inverse of the lower Cholesky factor of the model's noise over a unit step; derived. */
    private static final double L00 = 1 / Math.sqrt(0.05);

    private static final double L10 = -2.5 * Math.sqrt(48.0);
    private static final double L11 = Math.sqrt(48.0);
    private static final double L20 = 20;
    private static final double L21 = -12;
    private static final double L22 = 3;

    /** Variance in the middle of a unit step whose both ends are known, over the roughness. */
    private static final double MIDDLE_RATIO = 1.0 / 20480;

    /** Range of roughness over noise: from a curve stiff over 60 steps to plain interpolation. */
    private static final double LOG10_STIFFEST = -7;

    private static final double LOG10_FREEST = 14;

    /** Readings that the ratio is estimated from, in so many separate stretches. */
    private static final int STRETCH = 600;

    private static final int STRETCHES = 5;

    private static final int ROWS = 7;
    private static final int COLS = 7;
    private static final int KEPT = 18;

    private final double[] timesS;
    private final double[] turns;
    private final double[] weights;
    private final double unitS;
    private final double[] work = new double[ROWS * COLS];

    /**
     * Prepares a smoother.
     *
     * @param timesS knots, rising, at least three with a reading
     * @param turns reading at each knot
     * @param weights reciprocal noise of each reading up to a common factor; 0 for no reading
     * @param unitS typical step between readings, s
     */
    AngleSmoother(double[] timesS, double[] turns, double[] weights, double unitS) {
        this.timesS = timesS;
        this.turns = turns;
        this.weights = weights;
        this.unitS = unitS;
    }

    /** The curve at its knots. */
    static final class Curve {
        private final double[] states;
        private final double[] sigmaTurns;
        private final double noise;

        private Curve(double[] states, double[] sigmaTurns, double noise) {
            this.states = states;
            this.sigmaTurns = sigmaTurns;
            this.noise = noise;
        }

        /** Angle (turns), speed (Hz), acceleration (Hz/s) of each knot, in that order. */
        double[] states() {
            return states;
        }

        /** One standard deviation of the angle at each knot and beside it, turns. */
        double[] sigmaTurns() {
            return sigmaTurns;
        }

        /** Estimated noise of a reading of weight 1, turns. */
        double noiseTurns() {
            return noise;
        }
    }

    /** The likeliest ratio of roughness to noise. */
    double likeliestRoughness() {
        double best = LOG10_STIFFEST;
        double least = Double.POSITIVE_INFINITY;
        for (double x = LOG10_STIFFEST; x <= LOG10_FREEST; x += 1) {
            double value = unlikelihood(Math.pow(10, x));
            if (value < least) {
                least = value;
                best = x;
            }
        }
        for (double step = 0.5; step > 0.1; step /= 2) {
            double centre = best;
            for (double x : new double[] {centre - step, centre + step}) {
                double value = unlikelihood(Math.pow(10, x));
                if (value < least) {
                    least = value;
                    best = x;
                }
            }
        }
        return Math.pow(10, best);
    }

    /** Minus twice the logarithm of the restricted likelihood, up to a constant. */
    private double unlikelihood(double roughness) {
        int n = timesS.length;
        int stretches = n <= STRETCH * STRETCHES ? 1 : STRETCHES;
        int length = stretches == 1 ? n : STRETCH;
        double squares = 0;
        double logs = 0;
        double freedom = 0;
        for (int s = 0; s < stretches; s++) {
            int from = stretches == 1 ? 0 : (int) ((long) s * (n - length) / (stretches - 1));
            Pass pass = new Pass(roughness, from, from + length, null);
            squares += pass.squares;
            logs += pass.logs;
            freedom += pass.freedom;
        }
        // The floor is the round-off of a time of a minute; below it all ratios are alike.
        double floor = 1e-13 * 1e-13 * freedom * turns[n - 1] * turns[n - 1];
        return freedom * Math.log(squares + floor) + logs;
    }

    /** The curve for a ratio of roughness to noise. */
    Curve smooth(double roughness) {
        int n = timesS.length;
        double[] kept = new double[KEPT * n];
        Pass pass = new Pass(roughness, 0, n, kept);
        double noise = Math.sqrt(pass.squares / Math.max(1, pass.freedom));
        double[] states = new double[3 * n];
        double[] sigma = new double[n];
        double[] x = new double[3];
        double[] root = new double[9];
        double[] covariance = new double[9];
        solve(pass.r, pass.z, x);
        invert(pass.r, root);
        square(root, covariance);
        store(n - 1, x, states);
        sigma[n - 1] = Math.sqrt(covariance[0]);
        double[] r11 = new double[9];
        double[] r12 = new double[9];
        double[] z = new double[3];
        for (int k = n - 2; k >= 0; k--) {
            unpack(kept, k, r11, r12, z);
            for (int i = 0; i < 3; i++) {
                z[i] -= r12[3 * i] * x[0] + r12[3 * i + 1] * x[1] + r12[3 * i + 2] * x[2];
            }
            solve(r11, z, x);
            covarianceBefore(r11, r12, covariance, root);
            store(k, x, states);
            double h = (timesS[k + 1] - timesS[k]) / unitS;
            double middle = MIDDLE_RATIO * roughness * Math.pow(h, 5);
            sigma[k] = Math.sqrt(covariance[0] + middle);
            sigma[k + 1] = Math.max(sigma[k + 1], Math.sqrt(middle));
        }
        for (int k = 0; k < n; k++) {
            sigma[k] *= noise;
        }
        return new Curve(states, sigma, noise);
    }

    private void store(int k, double[] x, double[] states) {
        states[3 * k] = x[0];
        states[3 * k + 1] = x[1] / unitS;
        states[3 * k + 2] = x[2] / (unitS * unitS);
    }

    /** One forward run over knots {@code from} to {@code to} less one. */
    private final class Pass {
        private final double[] r = new double[9];
        private final double[] z = new double[3];
        private double squares;
        private double logs;
        private double freedom = -3;

        Pass(double roughness, int from, int to, double[] kept) {
            double scale = 1 / Math.sqrt(roughness);
            read(from);
            for (int k = from; k + 1 < to; k++) {
                step(k, scale);
                if (kept != null) {
                    pack(kept, k);
                }
            }
            for (int i = 0; i < 3; i++) {
                logs += 2 * Math.log(Math.abs(r[4 * i]));
            }
        }

        private void read(int k) {
            if (weights[k] > 0) {
                r[0] = weights[k];
                z[0] = weights[k] * turns[k];
                freedom++;
                logs -= 2 * Math.log(weights[k]);
            }
        }

        /** Adds the step from knot k to the next and the reading there, and makes it triangular. */
        private void step(int k, double scale) {
            double h = (timesS[k + 1] - timesS[k]) / unitS;
            Arrays.fill(work, 0);
            for (int i = 0; i < 3; i++) {
                for (int j = i; j < 3; j++) {
                    work[COLS * i + j] = r[3 * i + j];
                }
                work[COLS * i + 6] = z[i];
            }
            double s2 = scale / Math.sqrt(h);
            double s1 = s2 / h;
            double s0 = s1 / h;
            row(3, L00 * s0, 0, 0, h);
            row(4, L10 * s0, L11 * s1, 0, h);
            row(5, L20 * s0, L21 * s1, L22 * s2, h);
            logs -= 2 * Math.log(L00 * s0 * L11 * s1 * L22 * s2);
            double w = weights[k + 1];
            if (w > 0) {
                work[COLS * 6 + 3] = w;
                work[COLS * 6 + 6] = w * turns[k + 1];
                freedom++;
                logs -= 2 * Math.log(w);
            }
            triangularize();
            for (int i = 0; i < 3; i++) {
                logs += 2 * Math.log(Math.abs(work[COLS * i + i]));
                for (int j = 0; j < 3; j++) {
                    r[3 * i + j] = j < i ? 0 : work[COLS * (3 + i) + 3 + j];
                }
                z[i] = work[COLS * (3 + i) + 6];
            }
            squares += work[COLS * 6 + 6] * work[COLS * 6 + 6];
        }

        /** One row of the step: weights a, b, c on the error of angle, speed, acceleration. */
        private void row(int at, double a, double b, double c, double h) {
            work[COLS * at] = -a;
            work[COLS * at + 1] = -(a * h + b);
            work[COLS * at + 2] = -(a * h * h / 2 + b * h + c);
            work[COLS * at + 3] = a;
            work[COLS * at + 4] = b;
            work[COLS * at + 5] = c;
        }
    }

    /** Householder reflections, one per unknown. */
    private void triangularize() {
        for (int c = 0; c < 6; c++) {
            double norm = 0;
            for (int i = c; i < ROWS; i++) {
                norm += work[COLS * i + c] * work[COLS * i + c];
            }
            if (!(norm > 1e-200)) {
                continue;
            }
            double pivot = work[COLS * c + c];
            double alpha = pivot > 0 ? -Math.sqrt(norm) : Math.sqrt(norm);
            double head = pivot - alpha;
            double beta = 1 / (alpha * head);
            for (int j = c + 1; j < COLS; j++) {
                double sum = head * work[COLS * c + j];
                for (int i = c + 1; i < ROWS; i++) {
                    sum += work[COLS * i + c] * work[COLS * i + j];
                }
                sum *= beta;
                work[COLS * c + j] += sum * head;
                for (int i = c + 1; i < ROWS; i++) {
                    work[COLS * i + j] += sum * work[COLS * i + c];
                }
            }
            work[COLS * c + c] = alpha;
            for (int i = c + 1; i < ROWS; i++) {
                work[COLS * i + c] = 0;
            }
        }
    }

    private void pack(double[] kept, int k) {
        int at = KEPT * k;
        for (int i = 0; i < 3; i++) {
            for (int j = i; j < 3; j++) {
                kept[at++] = work[COLS * i + j];
            }
            for (int j = 3; j < 7; j++) {
                kept[at++] = work[COLS * i + j];
            }
        }
    }

    private static void unpack(double[] kept, int k, double[] r11, double[] r12, double[] z) {
        int at = KEPT * k;
        for (int i = 0; i < 3; i++) {
            for (int j = i; j < 3; j++) {
                r11[3 * i + j] = kept[at++];
            }
            for (int j = 0; j < 3; j++) {
                r12[3 * i + j] = kept[at++];
            }
            z[i] = kept[at++];
        }
    }

    /** Solves an upper triangle. */
    private static void solve(double[] r, double[] z, double[] x) {
        for (int i = 2; i >= 0; i--) {
            double sum = z[i];
            for (int j = i + 1; j < 3; j++) {
                sum -= r[3 * i + j] * x[j];
            }
            x[i] = sum / r[4 * i];
        }
    }

    private static void invert(double[] r, double[] inverse) {
        Arrays.fill(inverse, 0);
        for (int c = 0; c < 3; c++) {
            for (int i = c; i >= 0; i--) {
                double sum = i == c ? 1 : 0;
                for (int j = i + 1; j <= c; j++) {
                    sum -= r[3 * i + j] * inverse[3 * j + c];
                }
                inverse[3 * i + c] = sum / r[4 * i];
            }
        }
    }

    /** {@code a a'}. */
    private static void square(double[] a, double[] out) {
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                out[3 * i + j] =
                        a[3 * i] * a[3 * j]
                                + a[3 * i + 1] * a[3 * j + 1]
                                + a[3 * i + 2] * a[3 * j + 2];
            }
        }
    }

    /** Turns the covariance of a knot into that of the knot before it. */
    private static void covarianceBefore(
            double[] r11, double[] r12, double[] covariance, double[] root) {
        invert(r11, root);
        double[] g = new double[9];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                for (int k = 0; k < 3; k++) {
                    g[3 * i + j] += root[3 * i + k] * r12[3 * k + j];
                }
            }
        }
        double[] gp = new double[9];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                for (int k = 0; k < 3; k++) {
                    gp[3 * i + j] += g[3 * i + k] * covariance[3 * k + j];
                }
            }
        }
        square(root, covariance);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                for (int k = 0; k < 3; k++) {
                    covariance[3 * i + j] += gp[3 * i + k] * g[3 * j + k];
                }
            }
        }
    }
}
