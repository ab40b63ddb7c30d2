package tickover.diagnose;

import java.util.List;
import java.util.Objects;
import tickover.order.ShaftAngle;
import tickover.order.TimeRange;

/**
 * One capture, ready to be measured: samples and crank angle on one time base.
 *
 * <p>Shares its samples with whoever made it; nobody may write to them.
 */
public final class CaptureInput {
    private final CaptureLabel label;
    private final double sampleRateHz;
    private final double[][] accelMps2;
    private final ShaftAngle angle;
    private final String speedSource;
    private final List<QualityNote> recorded;
    private final List<TimeRange> angleUnknown;

    /**
     * Takes the samples over without copying.
     *
     * @param label what the capture is of
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param accelMps2 one array per channel, m/s²
     * @param angle crank angle over the same time
     * @param speedSource where speed came from: tach, obd, known or vibration
     */
    public CaptureInput(
            CaptureLabel label,
            double sampleRateHz,
            double[][] accelMps2,
            ShaftAngle angle,
            String speedSource) {
        this(label, sampleRateHz, accelMps2, angle, speedSource, List.of(), List.of());
    }

    private CaptureInput(
            CaptureLabel label,
            double sampleRateHz,
            double[][] accelMps2,
            ShaftAngle angle,
            String speedSource,
            List<QualityNote> recorded,
            List<TimeRange> angleUnknown) {
        this.recorded = List.copyOf(recorded);
        this.angleUnknown = List.copyOf(angleUnknown);
        this.label = Objects.requireNonNull(label, "label");
        this.accelMps2 = Objects.requireNonNull(accelMps2, "accelMps2");
        this.angle = Objects.requireNonNull(angle, "angle");
        this.speedSource = Objects.requireNonNull(speedSource, "speedSource");
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        this.sampleRateHz = sampleRateHz;
    }

    /**
     * Says what was noted of the signal while it was recorded.
     *
     * @param notes such as samples lost on the line; the captures that they name do not count
     * @return the same capture with these notes
     */
    public CaptureInput withRecorded(List<QualityNote> notes) {
        return new CaptureInput(
                label, sampleRateHz, accelMps2, angle, speedSource, notes, angleUnknown);
    }

    /**
     * Says where the angle is a guess.
     *
     * @param ranges s on the capture's base
     * @return the same capture with these ranges
     */
    public CaptureInput withAngleUnknown(List<TimeRange> ranges) {
        return new CaptureInput(
                label, sampleRateHz, accelMps2, angle, speedSource, recorded, ranges);
    }

    List<QualityNote> recorded() {
        return recorded;
    }

    List<TimeRange> angleUnknown() {
        return angleUnknown;
    }

    double durationS() {
        return accelMps2[0].length / sampleRateHz;
    }

    CaptureLabel label() {
        return label;
    }

    double sampleRateHz() {
        return sampleRateHz;
    }

    double[][] accelMps2() {
        return accelMps2;
    }

    ShaftAngle angle() {
        return angle;
    }

    String speedSource() {
        return speedSource;
    }
}
