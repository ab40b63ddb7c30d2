package tickover.diagnose;

import java.util.Objects;

/**
 * What a capture was like as a whole.
 *
 * @param label what it is of
 * @param speedSource where speed came from: {@code tach}, {@code obd}, {@code known} or {@code
 *     vibration}
 * @param durationS length, s
 * @param meanSpeedRpm mean crank speed, rpm
 * @param minSpeedRpm lowest crank speed, rpm
 * @param maxSpeedRpm highest crank speed, rpm
 * @param overallRmsMps2 rms of the acceleration without its mean, m/s²
 */
public record CaptureSummary(
        CaptureLabel label,
        String speedSource,
        double durationS,
        double meanSpeedRpm,
        double minSpeedRpm,
        double maxSpeedRpm,
        double overallRmsMps2) {
    public CaptureSummary {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(speedSource, "speedSource");
        if (!(durationS > 0)) {
            throw new IllegalArgumentException("durationS=" + durationS + ", need > 0 s");
        }
        if (!(minSpeedRpm >= 0 && meanSpeedRpm >= minSpeedRpm && maxSpeedRpm >= meanSpeedRpm)) {
            throw new IllegalArgumentException(
                    "speeds min="
                            + minSpeedRpm
                            + ", mean="
                            + meanSpeedRpm
                            + ", max="
                            + maxSpeedRpm
                            + ", need 0 <= min <= mean <= max rpm");
        }
        if (!(overallRmsMps2 >= 0)) {
            throw new IllegalArgumentException(
                    "overallRmsMps2=" + overallRmsMps2 + ", need >= 0 m/s²");
        }
    }
}
