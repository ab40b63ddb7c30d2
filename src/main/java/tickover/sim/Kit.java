package tickover.sim;

import java.util.Objects;

/**
 * What a workshop records with.
 *
 * @param probe the accelerometer
 * @param recorder rate and format
 * @param channels 1 or 3
 * @param axis word for the direction of the first channel
 * @param speed where speed comes from
 * @param tach the pulse counter, used if speed comes from it
 * @param obd the adapter, used if speed comes from it
 * @param knownStepS spacing of a known curve, s, used if speed is known
 */
record Kit(
        Probe.Spec probe,
        SimulatedCapture.Recorder recorder,
        int channels,
        String axis,
        SpeedRecord.Kind speed,
        TachSensor tach,
        ObdAdapter obd,
        double knownStepS) {
    Kit {
        Objects.requireNonNull(probe, "probe");
        Objects.requireNonNull(recorder, "recorder");
        Objects.requireNonNull(axis, "axis");
        Objects.requireNonNull(speed, "speed");
        Objects.requireNonNull(tach, "tach");
        Objects.requireNonNull(obd, "obd");
        if (!(channels == 1 || channels == 3)) {
            throw new IllegalArgumentException("channels=" + channels + ", need 1 or 3");
        }
    }
}
