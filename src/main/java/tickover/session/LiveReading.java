package tickover.session;

import java.util.OptionalDouble;

/**
 * What a probe felt during one second of its own clock.
 *
 * @param source number of the device in the recording
 * @param segment stretch of the device's life
 * @param endS end of the second, s since the segment began
 * @param rmsMps2 acceleration of the first axis without its mean, m/s² rms
 * @param peakMps2 largest deviation from that mean, m/s²
 * @param samples samples that came, of {@code expectedSamples}
 * @param expectedSamples samples that the second has; as many as came where the probe does not say
 *     its rate
 * @param speedRpmOrNaN crank speed, rpm; NaN if unknown
 * @param atLimit whether a value was at the end of the range
 */
public record LiveReading(
        int source,
        int segment,
        double endS,
        double rmsMps2,
        double peakMps2,
        int samples,
        int expectedSamples,
        double speedRpmOrNaN,
        boolean atLimit) {
    /**
     * Returns the speed.
     *
     * @return crank speed, rpm, if there was a source for it
     */
    public OptionalDouble speedRpm() {
        return Double.isNaN(speedRpmOrNaN)
                ? OptionalDouble.empty()
                : OptionalDouble.of(speedRpmOrNaN);
    }
}
