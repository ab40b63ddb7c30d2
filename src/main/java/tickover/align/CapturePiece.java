package tickover.align;

import java.util.List;
import java.util.Objects;

/**
 * A stretch of a capture without a gap: what is known of its samples, which a {@link StretchSink}
 * has taken, and speed on their time base.
 *
 * <p>Sample {@code i} is at {@code i / rateHz} s by definition, with the whole number of Hz nearest
 * to the real rate. Tach edges are placed between the samples they fell between and then divided by
 * the same rate, so orders are exact whatever the crystal; frequencies in Hz are off by {@code
 * rateErrorRatio}. Edges and readings reach beyond both ends, where they are known.
 *
 * @param stretch which of the stretches that the sink was told of, counted from 0
 * @param rateHz samples per second, a whole number of Hz
 * @param samples samples of each axis
 * @param axes 1 to 3
 * @param speed what is known of engine speed, on the samples' time base
 * @param segment stretch of the probe's life
 * @param firstSample number of its first sample within the segment
 * @param startHostS host time of its first sample, s after the first sample of the capture arrived
 * @param rateErrorRatio how much faster samples really came than the rate says, by the host's clock
 * @param sampleClockErrorS scatter of the sensor's own clock about its fit, s rms; 0 where samples
 *     are clocked by the tick clock
 * @param speedErrorS how far edges or readings may be off by the clocks alone, s; 0 for edges of
 *     the same board
 * @param missedEdges tach edges that the board reports as missed
 * @param edgeGaps where they are missing
 * @param atLimit where the probe says that it was at the end of its range
 */
public record CapturePiece(
        int stretch,
        double rateHz,
        int samples,
        int axes,
        SpeedSource speed,
        int segment,
        long firstSample,
        double startHostS,
        double rateErrorRatio,
        double sampleClockErrorS,
        double speedErrorS,
        long missedEdges,
        List<Stretch> edgeGaps,
        List<Stretch> atLimit) {
    /**
     * A time range.
     *
     * @param fromS begin, s
     * @param toS end, s
     */
    public record Stretch(double fromS, double toS) {}

    public CapturePiece {
        Objects.requireNonNull(speed, "speed");
        edgeGaps = List.copyOf(edgeGaps);
        atLimit = List.copyOf(atLimit);
    }

    /**
     * Returns its length in time.
     *
     * @return s
     */
    public double durationS() {
        return samples / rateHz;
    }
}
