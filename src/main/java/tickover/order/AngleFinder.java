package tickover.order;

import java.util.Objects;
import tickover.align.CaptureSignal;
import tickover.align.SpeedReadings;
import tickover.align.SpeedSource;
import tickover.align.TachPulses;

/**
 * Finds the crank angle of a capture from whatever it knows of speed: tach pulses, an exact speed
 * curve, late readings, or nothing but the vibration.
 */
public final class AngleFinder {
    private AngleFinder() {}

    /**
     * Finds the angle.
     *
     * @param capture samples and speed source
     * @param prior what is known of the engine; matters only without pulses or an exact curve
     * @return the angle with notes, or why there is none
     */
    public static AngleFinding find(CaptureSignal capture, AnglePrior prior) {
        Objects.requireNonNull(prior, "prior");
        SpeedSource speed = capture.speed();
        double durationS = capture.durationS();
        return switch (speed.kind()) {
            case TACH -> TachAngle.find((TachPulses) speed, durationS);
            case KNOWN -> SpeedCurveAngle.find((SpeedReadings) speed, durationS);
            case OBD -> VibrationAngle.withReadings(capture, (SpeedReadings) speed, prior);
            case NONE -> VibrationAngle.alone(capture, prior);
        };
    }
}
