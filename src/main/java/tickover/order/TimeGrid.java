package tickover.order;

import java.util.Arrays;

/** The step of the grid that times were written on: the clock's tick or the last decimal. */
final class TimeGrid {
    /** A step below this is no grid that matters beside any jitter, s. */
    private static final double FINEST_S = 2e-8;

    private static final double COARSEST_GAPS = 0.05;

    /** Times lie this near to their grid, steps. */
    private static final double NEAR_STEPS = 0.01;

    /** Remainders below this are round-off, s. */
    private static final double ROUND_OFF_S = 1e-10;

    private TimeGrid() {}

    /**
     * Step of the coarsest even grid that all times lie on, s; 0 if there is none between 20 ns and
     * a twentieth of the usual gap: steady pulses would be a grid of their own. It is the greatest
     * common divisor of their differences, found from the small ones to the great ones: each
     * sharpens the step for the next, else round-off would win.
     */
    static double stepS(double[] timesS) {
        int n = timesS.length;
        if (n < 3) {
            return 0;
        }
        double[] changes = new double[n - 2];
        for (int i = 0; i + 2 < n; i++) {
            changes[i] = Math.abs(timesS[i + 2] - 2 * timesS[i + 1] + timesS[i]);
        }
        Arrays.sort(changes);
        double usualS = (timesS[n - 1] - timesS[0]) / (n - 1);
        double step = 0;
        for (double change : changes) {
            step = divisor(step, change);
        }
        for (int i = 1; i < n && (i == 1 || step > 0); i++) {
            step = divisor(step, timesS[i] - timesS[0]);
        }
        return step <= COARSEST_GAPS * usualS ? step : 0;
    }

    /** Greatest common divisor of a step, 0 for none yet, and a span; 0 if it is too fine. */
    private static double divisor(double step, double span) {
        if (span < ROUND_OFF_S) {
            return step;
        }
        if (step == 0) {
            return span < FINEST_S ? 0 : span;
        }
        double a = span;
        double b = step;
        double rest = Math.abs(a - b * Math.rint(a / b));
        if (rest <= NEAR_STEPS * step) {
            double steps = Math.rint(span / step);
            return steps >= 1 ? span / steps : step;
        }
        while (rest > ROUND_OFF_S) {
            a = b;
            b = rest;
            rest = Math.abs(a - b * Math.rint(a / b));
        }
        return b < FINEST_S ? 0 : b;
    }
}
