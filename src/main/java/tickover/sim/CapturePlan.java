package tickover.sim;

import java.util.Objects;
import tickover.drive.Condition;

/**
 * One capture before it is made.
 *
 * @param file file name without its ending
 * @param point where the probe is held
 * @param regime what the speed does
 * @param topHz held speed, or top of a sweep, Hz; idle speed otherwise
 * @param condition loads
 * @param durationS length, s
 */
record CapturePlan(
        String file,
        String point,
        SimulatedCapture.Regime regime,
        double topHz,
        Condition condition,
        double durationS) {
    CapturePlan {
        Objects.requireNonNull(file, "file");
        Objects.requireNonNull(point, "point");
        Objects.requireNonNull(regime, "regime");
        Objects.requireNonNull(condition, "condition");
        if (!(durationS > 0)) {
            throw new IllegalArgumentException("durationS=" + durationS + ", need > 0 s");
        }
    }
}
