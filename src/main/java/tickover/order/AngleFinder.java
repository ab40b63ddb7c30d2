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
    private static final AngleNote NO_RIPPLE_SEEN =
            new AngleNote(
                    AngleNote.Kind.RIPPLE,
                    0,
                    "Torsional ripple was neither left in nor taken out, for only a tach with"
                            + " several marks shows it.");

    private AngleFinder() {}

    /**
     * Finds the angle.
     *
     * @param capture samples and speed source
     * @param prior what is known of the engine; matters only without pulses or an exact curve
     * @return the angle with notes, or why there is none
     */
    public static AngleFinding find(CaptureSignal capture, AnglePrior prior) {
        return find(capture, prior, Ripple.AS_SEEN);
    }

    /**
     * Finds the angle with torsional ripple left in or taken out. Matters with tach pulses only: an
     * exact curve is taken as it is, and the other sources do not show ripple.
     *
     * @param capture samples and speed source
     * @param prior what is known of the engine; with pulses only the length of its cycle matters
     * @param ripple what to do with ripple; a note says what came of it
     * @return the angle with notes, or why there is none
     */
    public static AngleFinding find(CaptureSignal capture, AnglePrior prior, Ripple ripple) {
        Objects.requireNonNull(ripple, "ripple");
        Objects.requireNonNull(prior, "prior");
        SpeedSource speed = capture.speed();
        double durationS = capture.durationS();
        AngleFinding found =
                switch (speed.kind()) {
                    case TACH -> TachRatio.find(capture, (TachPulses) speed, ripple, prior);
                    case KNOWN -> SpeedCurveAngle.find((SpeedReadings) speed, durationS);
                    case OBD -> VibrationAngle.withReadings(capture, (SpeedReadings) speed, prior);
                    case NONE -> VibrationAngle.alone(capture, prior);
                };
        boolean asked = ripple != Ripple.AS_SEEN && speed.kind() != SpeedSource.Kind.TACH;
        return asked ? found.with(NO_RIPPLE_SEEN) : found;
    }
}
