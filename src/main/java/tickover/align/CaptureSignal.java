package tickover.align;

import java.util.Objects;

/**
 * Acceleration of one capture and what is known of engine speed, on one time base: sample {@code i}
 * of every channel was taken at {@code i / sampleRateHz} seconds.
 *
 * <p>Owns its samples: the constructor takes the arrays over without copying, nobody may write to
 * them afterwards.
 */
public final class CaptureSignal {
    private final double sampleRateHz;
    private final double[][] accelMps2;
    private final SpeedSource speed;

    /**
     * Takes the samples over.
     *
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param accelMps2 one array per channel, m/s², all of one length &gt;= 1; not copied
     * @param speed what is known of engine speed
     * @throws IllegalArgumentException if there is no channel, no sample, or lengths differ
     */
    public CaptureSignal(double sampleRateHz, double[][] accelMps2, SpeedSource speed) {
        Objects.requireNonNull(accelMps2, "accelMps2");
        if (!(sampleRateHz > 0 && Double.isFinite(sampleRateHz))) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        if (!(accelMps2.length >= 1 && accelMps2[0].length >= 1)) {
            throw new IllegalArgumentException("accelMps2 is empty, need at least one sample");
        }
        for (double[] channel : accelMps2) {
            if (channel.length != accelMps2[0].length) {
                throw new IllegalArgumentException(
                        "channel length=" + channel.length + ", need " + accelMps2[0].length);
            }
        }
        this.sampleRateHz = sampleRateHz;
        this.accelMps2 = accelMps2;
        this.speed = Objects.requireNonNull(speed, "speed");
    }

    /**
     * Returns the sample rate.
     *
     * @return Hz
     */
    public double sampleRateHz() {
        return sampleRateHz;
    }

    /**
     * Returns the number of channels.
     *
     * @return &gt;= 1
     */
    public int channels() {
        return accelMps2.length;
    }

    /**
     * Returns the number of samples of each channel.
     *
     * @return &gt;= 1
     */
    public int sampleCount() {
        return accelMps2[0].length;
    }

    /**
     * Returns the samples of one channel, shared and read-only.
     *
     * @param channel 0-based
     * @return m/s²
     */
    public double[] accelMps2(int channel) {
        return accelMps2[channel];
    }

    /**
     * Returns the length in time.
     *
     * @return s
     */
    public double durationS() {
        return sampleCount() / sampleRateHz;
    }

    /**
     * Returns what is known of engine speed.
     *
     * @return the speed source
     */
    public SpeedSource speed() {
        return speed;
    }
}
