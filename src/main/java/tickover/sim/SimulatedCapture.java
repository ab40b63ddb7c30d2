package tickover.sim;

import java.util.Locale;
import java.util.Objects;
import tickover.drive.Condition;

/**
 * One recording as a workshop hands it in. Owns its samples; nobody may write to them. They are
 * exactly what the stated format can hold.
 */
public final class SimulatedCapture {
    /** What the speed does. */
    public enum Regime {
        /** Idling. */
        IDLE,
        /** Held at a higher speed. */
        HOLD,
        /** Run up slowly. */
        SWEEP;

        /**
         * Returns the word for it in visit folders.
         *
         * @return lower case
         */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** How samples are kept. */
    public enum SampleFormat {
        /** 16-bit whole numbers. */
        PCM_16,
        /** 24-bit whole numbers. */
        PCM_24,
        /** 32-bit floating point. */
        FLOAT_32
    }

    /**
     * What is written beside a recording.
     *
     * @param file file name without its ending
     * @param point where the probe was
     * @param axis word for its direction
     * @param mount word for how it was held
     * @param regime what the speed did
     * @param condition loads
     */
    public record Label(
            String file,
            String point,
            String axis,
            String mount,
            Regime regime,
            Condition condition) {
        public Label {
            Objects.requireNonNull(file, "file");
            Objects.requireNonNull(point, "point");
            Objects.requireNonNull(axis, "axis");
            Objects.requireNonNull(mount, "mount");
            Objects.requireNonNull(regime, "regime");
            Objects.requireNonNull(condition, "condition");
        }
    }

    /**
     * How the samples are kept.
     *
     * @param sampleRateHz samples per second, Hz; a whole number
     * @param format how a sample is kept
     * @param scaleMps2 m/s² per full scale of whole numbers, per unit of floating point
     */
    public record Recorder(int sampleRateHz, SampleFormat format, double scaleMps2) {
        public Recorder {
            Objects.requireNonNull(format, "format");
            if (!(sampleRateHz > 0)) {
                throw new IllegalArgumentException(
                        "sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
            }
            if (!(scaleMps2 > 0)) {
                throw new IllegalArgumentException("scaleMps2=" + scaleMps2 + ", need > 0 m/s²");
            }
        }
    }

    private final Label label;
    private final Recorder recorder;
    private final double[][] accelMps2;
    private final SpeedRecord speed;

    SimulatedCapture(Label label, Recorder recorder, double[][] accelMps2, SpeedRecord speed) {
        this.label = Objects.requireNonNull(label, "label");
        this.recorder = Objects.requireNonNull(recorder, "recorder");
        this.accelMps2 = Objects.requireNonNull(accelMps2, "accelMps2");
        this.speed = Objects.requireNonNull(speed, "speed");
    }

    /**
     * Returns what is written beside it.
     *
     * @return point, axis, mount, regime, condition
     */
    public Label label() {
        return label;
    }

    /**
     * Returns how the samples are kept.
     *
     * @return rate, format, scale
     */
    public Recorder recorder() {
        return recorder;
    }

    /**
     * Returns the number of channels.
     *
     * @return 1 or 3
     */
    public int channels() {
        return accelMps2.length;
    }

    /**
     * Returns the samples of a channel, shared and read-only.
     *
     * @param channel 0-based
     * @return m/s²
     */
    public double[] accelMps2(int channel) {
        return accelMps2[channel];
    }

    /**
     * Returns what it hands in about speed.
     *
     * @return pulses, readings, or nothing
     */
    public SpeedRecord speed() {
        return speed;
    }
}
