package tickover.order;

import java.util.Arrays;

/**
 * Knots for a smooth angle: one at each reading, more where readings are far apart, so that the
 * growing uncertainty there is seen, and one at either end.
 */
final class KnotGrid {
    /** Readings further apart than this many usual steps get knots between them. */
    private static final double LONG_STEPS = 2.5;

    /** A shorter step to an end is left out: its equations would be all round-off. */
    private static final double LEAST_STEP = 1e-3;

    private static final int MOST_BETWEEN = 50;

    private double[] timesS;
    private double[] turns;
    private double[] weights;
    private int count;

    /**
     * Lays the knots.
     *
     * @param t readings, s, rising
     * @param y angle at each, turns
     * @param unitS usual step, s
     * @param startS start, s, at or before the first reading
     * @param endS end, s, at or after the last
     * @param typicalHz speed at which a reading has weight 1; noise in time weighs less on angle
     *     where the shaft turns slower
     */
    KnotGrid(double[] t, double[] y, double unitS, double startS, double endS, double typicalHz) {
        timesS = new double[t.length + 2];
        turns = new double[t.length + 2];
        weights = new double[t.length + 2];
        if (startS < t[0] - LEAST_STEP * unitS) {
            add(startS, y[0], 0);
        }
        for (int i = 0; i < t.length; i++) {
            if (i > 0) {
                between(t[i - 1], t[i], y[i - 1], unitS);
            }
            int before = Math.max(0, i - 1);
            int after = Math.min(t.length - 1, i + 1);
            double speedHz = (y[after] - y[before]) / (t[after] - t[before]);
            add(t[i], y[i], Math.min(100, typicalHz / speedHz));
        }
        if (endS > t[t.length - 1] + LEAST_STEP * unitS) {
            add(endS, y[t.length - 1], 0);
        }
        timesS = Arrays.copyOf(timesS, count);
        turns = Arrays.copyOf(turns, count);
        weights = Arrays.copyOf(weights, count);
    }

    private void between(double fromS, double toS, double lastTurns, double unitS) {
        double steps = (toS - fromS) / unitS;
        if (steps > LONG_STEPS) {
            int more = Math.min(MOST_BETWEEN, (int) Math.ceil(steps) - 1);
            for (int j = 1; j <= more; j++) {
                add(fromS + (toS - fromS) * j / (more + 1), lastTurns, 0);
            }
        }
    }

    private void add(double timeS, double angle, double weight) {
        if (count == timesS.length) {
            timesS = Arrays.copyOf(timesS, 2 * count);
            turns = Arrays.copyOf(turns, 2 * count);
            weights = Arrays.copyOf(weights, 2 * count);
        }
        timesS[count] = timeS;
        turns[count] = angle;
        weights[count++] = weight;
    }

    /** Knot times, s, rising. */
    double[] timesS() {
        return timesS;
    }

    /** Reading at each knot, turns; without meaning where the weight is 0. */
    double[] turns() {
        return turns;
    }

    /** Weight of each reading, 0 for none. */
    double[] weights() {
        return weights;
    }
}
