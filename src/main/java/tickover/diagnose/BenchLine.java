package tickover.diagnose;

import java.util.Objects;

/**
 * One line that was looked at for the verdict.
 *
 * @param fault the fault whose pattern it belongs to: {@code outer-ring}, {@code inner-ring},
 *     {@code rolling-element} or {@code cage}
 * @param text what it is, such as "2nd harmonic"
 * @param order where it stands, per turn of the bearing
 * @param frequencyHz the same at the mean speed, Hz
 * @param strengthDb its power in the envelope spectrum over the background around it, dB
 * @param modulationRatio by which share of its mean the squared envelope swings at it
 */
public record BenchLine(
        String fault,
        String text,
        double order,
        double frequencyHz,
        double strengthDb,
        double modulationRatio) {
    public BenchLine {
        Objects.requireNonNull(fault, "fault");
        Objects.requireNonNull(text, "text");
    }
}
