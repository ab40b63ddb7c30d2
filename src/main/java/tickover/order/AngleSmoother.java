package tickover.order;

import java.util.Arrays;

/**
 * Draws the smoothest angle curve that noisy angle readings justify.
 *
 * <p>It is the best linear estimate under a {@link Motion}: the way back over the knots of {@link
 * MotionFilter}, which is a smoothing spline. With exact readings it is interpolation, so they cost
 * nothing. Its standard deviation is the least that any estimate can have if the motion is as
 * modelled.
 */
final class AngleSmoother {
    private final double[] timesS;
    private final double[] turns;
    private final double[] weights;
    private final double unitS;

    /**
     * Prepares a smoother.
     *
     * @param timesS knots, rising, at least three with a reading
     * @param turns reading at each knot
     * @param weights reciprocal noise of each reading up to a common factor; 0 for no reading
     * @param unitS usual step between readings, s
     */
    AngleSmoother(double[] timesS, double[] turns, double[] weights, double unitS) {
        this.timesS = timesS;
        this.turns = turns;
        this.weights = weights;
        this.unitS = unitS;
    }

    /** How a shaft may move, against the noise of its readings. */
    static final class Motion {
        private final int integrations;
        private final double[] cutoffs;
        private final double noise;

        /**
         * Takes the cutoffs over.
         *
         * @param integrations how often white noise is integrated into the angle, 2 to 4
         * @param cutoffs how fast a motion is followed in each step, rad per usual step
         * @param noise noise of a reading of weight 1, turns, &gt; 0
         */
        Motion(int integrations, double[] cutoffs, double noise) {
            this.integrations = integrations;
            this.cutoffs = cutoffs;
            this.noise = noise;
        }
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

        /** Noise of a reading of weight 1, turns. */
        double noiseTurns() {
            return noise;
        }
    }

    /** The curve for a motion. */
    Curve smooth(Motion motion) {
        int n = timesS.length;
        int p = motion.integrations;
        MotionFilter filter = new MotionFilter(timesS, turns, weights, unitS, p, 1);
        double[] kept = new double[filter.keptPerKnot() * n];
        filter.run(motion.cutoffs, new int[n - 1], 0, 0, n, kept);
        double noise = motion.noise;
        double[] states = new double[3 * n];
        double[] sigma = new double[n];
        double[] x = new double[p];
        double[] root = new double[p * p];
        double[] covariance = new double[p * p];
        solve(filter.triangle(), filter.rightSide(), x);
        invert(filter.triangle(), root);
        square(root, p, covariance);
        store(n - 1, x, states);
        sigma[n - 1] = Math.sqrt(covariance[0]);
        double[] r11 = new double[p * p];
        double[] r12 = new double[p * p];
        double[] z = new double[p];
        double[] gain = new double[p * p];
        for (int k = n - 2; k >= 0; k--) {
            unpack(kept, filter.keptPerKnot() * k, p, r11, r12, z);
            for (int i = 0; i < p; i++) {
                for (int j = 0; j < p; j++) {
                    z[i] -= r12[p * i + j] * x[j];
                }
            }
            solve(r11, z, x);
            invert(r11, root);
            multiply(root, r12, p, gain);
            covarianceBefore(root, gain, covariance, p);
            store(k, x, states);
            double h = (timesS[k + 1] - timesS[k]) / unitS;
            double middle = middleVariance(p, motion.cutoffs[k], h);
            sigma[k] = Math.sqrt(covariance[0] + middle);
            sigma[k + 1] = Math.max(sigma[k + 1], Math.sqrt(middle));
        }
        for (int k = 0; k < n; k++) {
            sigma[k] *= noise;
        }
        if (p == 2) {
            cubicAccelerations(states);
        }
        return new Curve(states, sigma, noise);
    }

    /** Variance in the middle of a step both of whose ends are known, over that of a reading. */
    private static double middleVariance(int p, double cutoff, double h) {
        double factorial = p == 4 ? 6 : p == 3 ? 2 : 1;
        double divisor = (2 * p - 1) * factorial * factorial * Math.pow(4, 2 * p - 1);
        return Math.pow(cutoff, 2 * p) * Math.pow(h, 2 * p - 1) / divisor;
    }

    private void store(int k, double[] x, double[] states) {
        states[3 * k] = x[0];
        states[3 * k + 1] = x[1] / unitS;
        states[3 * k + 2] = x.length > 2 ? x[2] / (unitS * unitS) : 0;
    }

    /** Accelerations of the cubic pieces that angles and speeds make, the mean of both sides. */
    private void cubicAccelerations(double[] states) {
        int n = timesS.length;
        for (int k = 0; k < n; k++) {
            double sum = 0;
            int sides = 0;
            for (int other = k - 1; other <= k + 1; other += 2) {
                if (other >= 0 && other < n) {
                    double h = timesS[other] - timesS[k];
                    double rise = states[3 * other] - states[3 * k];
                    double speeds = 4 * states[3 * k + 1] + 2 * states[3 * other + 1];
                    sum += 6 * rise / (h * h) - speeds / h;
                    sides++;
                }
            }
            states[3 * k + 2] = sum / sides;
        }
    }

    private static void unpack(
            double[] kept, int at, int p, double[] r11, double[] r12, double[] z) {
        int width = 2 * p + 1;
        for (int i = 0; i < p; i++) {
            System.arraycopy(kept, at + width * i, r11, p * i, p);
            System.arraycopy(kept, at + width * i + p, r12, p * i, p);
            z[i] = kept[at + width * i + 2 * p];
        }
    }

    /** Solves an upper triangle. */
    private static void solve(double[] r, double[] z, double[] x) {
        int p = x.length;
        for (int i = p - 1; i >= 0; i--) {
            double sum = z[i];
            for (int j = i + 1; j < p; j++) {
                sum -= r[p * i + j] * x[j];
            }
            x[i] = sum / r[(p + 1) * i];
        }
    }

    private static void invert(double[] r, double[] inverse) {
        int p = r.length == 4 ? 2 : r.length == 9 ? 3 : 4;
        Arrays.fill(inverse, 0);
        for (int c = 0; c < p; c++) {
            for (int i = c; i >= 0; i--) {
                double sum = i == c ? 1 : 0;
                for (int j = i + 1; j <= c; j++) {
                    sum -= r[p * i + j] * inverse[p * j + c];
                }
                inverse[p * i + c] = sum / r[(p + 1) * i];
            }
        }
    }

    private static void multiply(double[] a, double[] b, int p, double[] out) {
        Arrays.fill(out, 0);
        for (int i = 0; i < p; i++) {
            for (int k = 0; k < p; k++) {
                for (int j = 0; j < p; j++) {
                    out[p * i + j] += a[p * i + k] * b[p * k + j];
                }
            }
        }
    }

    /** {@code a a'}. */
    private static void square(double[] a, int p, double[] out) {
        Arrays.fill(out, 0);
        for (int i = 0; i < p; i++) {
            for (int j = 0; j < p; j++) {
                for (int k = 0; k < p; k++) {
                    out[p * i + j] += a[p * i + k] * a[p * j + k];
                }
            }
        }
    }

    /** Turns the covariance of a knot into that of the knot before it. */
    private static void covarianceBefore(double[] root, double[] g, double[] covariance, int p) {
        double[] gp = new double[p * p];
        multiply(g, covariance, p, gp);
        square(root, p, covariance);
        for (int i = 0; i < p; i++) {
            for (int j = 0; j < p; j++) {
                for (int k = 0; k < p; k++) {
                    covariance[p * i + j] += gp[p * i + k] * g[p * j + k];
                }
            }
        }
    }
}
