package tickover.wire;

import java.util.Objects;

/**
 * What a probe says of itself.
 *
 * @param major protocol version
 * @param minor protocol version
 * @param device serial number of the board, unsigned; 0 if it has none
 * @param boot changes with every start of the board; 0 if not known
 * @param sensor what it measures with
 * @param axes 1 to 3
 * @param bits width of a sample on the wire: 16 or 24
 * @param resolutionBits significant bits, 1 to 24
 * @param fullScaleMps2 acceleration of 2^(bits-1) counts, m/s², &gt; 0
 * @param rateNum numerator of the sample rate in Hz by the probe's clock, &gt; 0
 * @param rateDen its denominator, &gt; 0
 * @param tickHz nominal ticks per second, &gt; 0
 * @param bandwidthHz upper corner of sensor and filter, Hz; 0 if not known
 * @param hasTach whether it times tach edges
 * @param hasButton whether it has a button
 * @param samplesFollowTicks whether samples are clocked by the tick clock, exactly
 * @param name for people; may be empty
 */
public record Hello(
        int major,
        int minor,
        long device,
        int boot,
        SensorKind sensor,
        int axes,
        int bits,
        int resolutionBits,
        double fullScaleMps2,
        long rateNum,
        long rateDen,
        long tickHz,
        int bandwidthHz,
        boolean hasTach,
        boolean hasButton,
        boolean samplesFollowTicks,
        String name) {
    /** The protocol version that this program speaks. */
    public static final int MAJOR = 1;

    public Hello {
        Objects.requireNonNull(sensor, "sensor");
        Objects.requireNonNull(name, "name");
        if (!(axes >= 1 && axes <= 3)) {
            throw new IllegalArgumentException("axes=" + axes + ", need 1 to 3");
        }
        if (!(bits == 16 || bits == 24)) {
            throw new IllegalArgumentException("bits=" + bits + ", need 16 or 24");
        }
        if (!(fullScaleMps2 > 0)) {
            throw new IllegalArgumentException("fullScaleMps2=" + fullScaleMps2 + ", need > 0");
        }
        if (!(rateNum > 0 && rateDen > 0)) {
            throw new IllegalArgumentException(
                    "rate=" + rateNum + "/" + rateDen + " Hz, need > 0 Hz");
        }
        if (!(tickHz > 0)) {
            throw new IllegalArgumentException("tickHz=" + tickHz + ", need > 0 Hz");
        }
    }

    /**
     * Returns the sample rate by the probe's own clock.
     *
     * @return Hz
     */
    public double rateHz() {
        return (double) rateNum / rateDen;
    }

    /**
     * Returns how long a sample lasts.
     *
     * @return ticks, not a whole number in general
     */
    public double ticksPerSample() {
        return (double) tickHz * rateDen / rateNum;
    }

    /**
     * Returns what one count stands for.
     *
     * @return m/s²
     */
    public double countMps2() {
        return fullScaleMps2 / (1L << (bits - 1));
    }
}
