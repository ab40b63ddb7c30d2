package tickover.sim;

import java.util.Objects;

/**
 * Crank angle over time, exact at any time: a mean speed that is linear between grid times, plus a
 * torsional ripple that is a function of crank angle and repeats every two turns.
 *
 * <p>In turns: {@code turns = mean + ripple(mean)}. The ripple is small and its slope far below 1,
 * so that the angle never runs backwards.
 */
final class CrankMotion {
    /** Grid of the mean speed, s. */
    static final double STEP_S = 0.001;

    private static final int CYCLE_TURNS = 2;
    private static final int SOLVER_ROUNDS = 12;

    private final double startS;
    private final double[] speedHz;
    private final double[] meanTurns;
    private final double[] rippleTurns;

    /**
     * Integrates the mean speed.
     *
     * @param startS time of the first grid value, s
     * @param startTurns crank angle there, turns
     * @param speedHz mean speed every {@link #STEP_S}, Hz, all &gt; 0
     * @param rippleTurns ripple over two crank turns in even steps, turns
     */
    CrankMotion(double startS, double startTurns, double[] speedHz, double[] rippleTurns) {
        this.startS = startS;
        this.speedHz = speedHz.clone();
        this.rippleTurns = rippleTurns.clone();
        this.meanTurns = new double[speedHz.length];
        meanTurns[0] = startTurns;
        for (int i = 0; i < speedHz.length; i++) {
            if (!(speedHz[i] > 0)) {
                throw new IllegalArgumentException(
                        "speedHz[" + i + "]=" + speedHz[i] + ", need > 0");
            }
            if (i > 0) {
                meanTurns[i] = meanTurns[i - 1] + STEP_S * (speedHz[i - 1] + speedHz[i]) / 2;
            }
        }
        Objects.checkIndex(1, speedHz.length);
    }

    double endS() {
        return startS + (speedHz.length - 1) * STEP_S;
    }

    private int cellOf(double timeS) {
        int cell = (int) Math.floor((timeS - startS) / STEP_S);
        return Math.max(0, Math.min(speedHz.length - 2, cell));
    }

    double meanTurnsAt(double timeS) {
        int i = cellOf(timeS);
        double dt = timeS - (startS + i * STEP_S);
        double slope = (speedHz[i + 1] - speedHz[i]) / STEP_S;
        return meanTurns[i] + dt * (speedHz[i] + slope * dt / 2);
    }

    double meanSpeedHzAt(double timeS) {
        int i = cellOf(timeS);
        double dt = timeS - (startS + i * STEP_S);
        return speedHz[i] + (speedHz[i + 1] - speedHz[i]) * dt / STEP_S;
    }

    /** Ripple in turns at a mean angle. */
    double rippleAt(double mean) {
        double at = mean / CYCLE_TURNS;
        at = (at - Math.floor(at)) * rippleTurns.length;
        int i = (int) at;
        double low = rippleTurns[i % rippleTurns.length];
        double high = rippleTurns[(i + 1) % rippleTurns.length];
        return low + (at - i) * (high - low);
    }

    double turnsAt(double timeS) {
        double mean = meanTurnsAt(timeS);
        return mean + rippleAt(mean);
    }

    double timeAtMeanTurns(double mean) {
        int low = 0;
        int high = meanTurns.length - 2;
        while (low < high) {
            int mid = (low + high + 1) >>> 1;
            if (meanTurns[mid] <= mean) {
                low = mid;
            } else {
                high = mid - 1;
            }
        }
        double slope = (speedHz[low + 1] - speedHz[low]) / STEP_S;
        double v = speedHz[low];
        double gap = mean - meanTurns[low];
        // The root that tends to gap / v as the slope vanishes; free of cancellation.
        double dt = 2 * gap / (v + Math.sqrt(Math.max(0, v * v + 2 * slope * gap)));
        return startS + low * STEP_S + dt;
    }

    /** Time at which {@code mean + share * ripple(mean)} reaches an angle. */
    double timeAt(double turns, double rippleShareRatio) {
        double mean = turns;
        for (int i = 0; i < SOLVER_ROUNDS; i++) {
            mean = turns - rippleShareRatio * rippleAt(mean);
        }
        return timeAtMeanTurns(mean);
    }
}
