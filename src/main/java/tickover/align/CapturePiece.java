package tickover.align;

import java.util.List;
import java.util.Objects;

/**
 * A stretch of one capture without a gap.
 *
 * <p>Sample {@code i} is at {@code i / sampleRateHz} s by definition, with the whole number of Hz
 * nearest to the real rate. Tach edges are placed between the samples they fell between and then
 * divided by the same rate, so orders are exact whatever the crystal; frequencies in Hz are off by
 * {@code rateErrorRatio}.
 *
 * @param signal samples and speed
 * @param segment the probe's segment
 * @param firstSample number of the first sample within the segment
 * @param startHostS when it was taken, s after the assembler's first block, as far as is known
 * @param rateErrorRatio real rate over the signal's, less 1, as far as is known
 * @param sampleClockErrorS how far the samples' ticks stray from even steps, s rms; 0 if exact
 * @param speedErrorS half-width of what the speed's times can be wrong by against the samples, s; 0
 *     on one board
 * @param missedEdges tach edges that are known to be missing within the piece
 * @param edgeGaps where, s
 * @param atLimit stretches in which the probe marked values as being at the end of the range, s
 */
public record CapturePiece(
        CaptureSignal signal,
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
     * A stretch of time on a piece's base.
     *
     * @param fromS s
     * @param toS s
     */
    public record Stretch(double fromS, double toS) {}

    public CapturePiece {
        Objects.requireNonNull(signal, "signal");
        edgeGaps = List.copyOf(edgeGaps);
        atLimit = List.copyOf(atLimit);
    }
}
