package tickover.diagnose;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import tickover.drive.LineKind;

/**
 * Measures what a bearing's knocks add to the acceleration, by their rhythm in the squared envelope
 * of every band.
 *
 * <p>Short bursts that come f times per crank turn and have mean square P make a squared envelope
 * of mean 2P, whose component at order f has twice that as its amplitude. So P is a quarter of the
 * amplitude, summed over the bands. It is asked for the first harmonic alone: a smoother rhythm
 * than short bursts reads low, never high. Noise beside the line is taken off as {@link LineMeter}
 * does, and the sign is kept, so that noise alone averages to nothing over segments.
 */
final class KnockMeter {
    /** Lines that ring structures far above their own order instead of moving them at it. */
    private static final Set<String> KNOCKS =
            Set.of(
                    LineKind.BEARING_OUTER_RING,
                    LineKind.BEARING_INNER_RING,
                    LineKind.ROLLING_ELEMENT,
                    LineKind.CAGE);

    private static final double AMPLITUDE_OVER_MEAN_SQUARE = 4;

    private final LineMeter meter;
    private final int bands;
    private final List<OrderField> fields;

    /**
     * Prepares the bands of a capture.
     *
     * @param envelopes squared envelope of each band on an even angle grid, (m/s²)²
     * @param fields their spectra, in which orders are looked for
     * @param stepsPerTurn grid steps per crank turn
     * @param plan where to measure
     * @param firstStep the grid step at which the plan begins
     */
    KnockMeter(
            List<double[]> envelopes,
            List<OrderField> fields,
            int stepsPerTurn,
            SegmentPlan plan,
            int firstStep) {
        Objects.requireNonNull(fields, "fields");
        this.bands = envelopes.size();
        this.meter =
                new LineMeter(envelopes.toArray(double[][]::new), stepsPerTurn, plan, firstStep);
        this.fields = List.copyOf(fields);
    }

    /** Whether a line is measured by its rhythm in the envelopes. */
    boolean measures(String kind) {
        return bands > 0 && isKnock(kind);
    }

    /** Whether a line rings structures far above its own order. */
    static boolean isKnock(String kind) {
        return KNOCKS.contains(kind);
    }

    /** Where, within a tolerance, a rhythm stands out most in any band. */
    double peakOrder(double nominalOrder, double halfWidthOrders) {
        OrderField best = fields.get(0);
        for (OrderField field : fields) {
            if (field.ratioNear(nominalOrder, halfWidthOrders)
                    > best.ratioNear(nominalOrder, halfWidthOrders)) {
                best = field;
            }
        }
        return best.peakOrder(nominalOrder, halfWidthOrders);
    }

    /** Mean square of the knocks in each segment, noise taken off, (m/s²)². */
    double[] segmentPowers(double order) {
        double[][] squares = meter.channelPowers(order);
        double[] out = new double[squares[0].length];
        for (double[] band : squares) {
            for (int s = 0; s < out.length; s++) {
                double amplitude = Math.sqrt(2 * Math.abs(band[s]));
                out[s] += Math.copySign(amplitude, band[s]) / AMPLITUDE_OVER_MEAN_SQUARE;
            }
        }
        return out;
    }
}
