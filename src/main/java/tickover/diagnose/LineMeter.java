package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.OffGridTransform;
import tickover.dsp.Window;

/**
 * Measures single order lines of one record on an even angle grid, segment by segment.
 *
 * <p>A record is cut into segments as a {@link SegmentPlan} lays them, each under a Hann window.
 * The power of a line in a segment is that of the windowed record at the line's order, less the
 * mean of what stands {@value #ASIDE_BINS} segment bins to either side, outside the window's main
 * lobe. So noise alone averages to zero, and the scatter of the segments gives the standard error.
 * Cost: one transform per segment, then O(segments) per line.
 */
final class LineMeter {
    private static final double ASIDE_BINS = 3;

    /** Half-overlapping Hann segments count as this share of independent ones: [Welch1967]. */
    private static final double INDEPENDENT_RATIO = 0.75;

    private final int stepsPerTurn;
    private final int segment;
    private final double windowSum;

    private final OffGridTransform transform;

    /** For every channel and segment the transform under the window. */
    private final OffGridTransform.Spectrum[][] segments;

    /**
     * Prepares a record.
     *
     * @param channels acceleration on an even angle grid, m/s², one array per channel
     * @param stepsPerTurn grid steps per crank turn
     * @param plan where to measure
     * @param firstStep the grid step at which the plan begins
     */
    LineMeter(double[][] channels, int stepsPerTurn, SegmentPlan plan, int firstStep) {
        this.stepsPerTurn = stepsPerTurn;
        this.segment = plan.length();
        double[] window = Window.HANN.periodic(segment);
        this.windowSum = Arrays.stream(window).sum();
        this.transform = new OffGridTransform(segment);
        this.segments = new OffGridTransform.Spectrum[channels.length][plan.count()];
        double[] windowed = new double[segment];
        for (int c = 0; c < channels.length; c++) {
            for (int s = 0; s < plan.count(); s++) {
                int from = firstStep + plan.start(s);
                for (int i = 0; i < segment; i++) {
                    windowed[i] = window[i] * channels[c][from + i];
                }
                segments[c][s] = transform.of(windowed);
            }
        }
    }

    private OffGridTransform.Between at(double order) {
        return transform.between(order / stepsPerTurn);
    }

    /** Orders closer than this cannot be told apart: half the main lobe of a segment's window. */
    double resolutionOrders() {
        return 2 * binOrders();
    }

    private double binOrders() {
        return (double) stepsPerTurn / segment;
    }

    /** Whether a line and its background fit under the highest order of the grid. */
    boolean covers(double order) {
        double aside = ASIDE_BINS * binOrders();
        return order > aside && order + aside < 0.5 * stepsPerTurn;
    }

    /** Power of a line in each segment, background taken off, summed over channels, (m/s²)². */
    double[] segmentPowers(double order) {
        double[] sum = new double[segments[0].length];
        for (double[] channel : channelPowers(order)) {
            for (int s = 0; s < sum.length; s++) {
                sum[s] += channel[s];
            }
        }
        return sum;
    }

    /** The same for each channel by itself: channel, then segment. */
    double[][] channelPowers(double order) {
        double aside = ASIDE_BINS * binOrders();
        OffGridTransform.Between line = at(order);
        OffGridTransform.Between below = at(order - aside);
        OffGridTransform.Between above = at(order + aside);
        double[][] out = new double[segments.length][segments[0].length];
        for (int c = 0; c < out.length; c++) {
            for (int s = 0; s < out[c].length; s++) {
                OffGridTransform.Spectrum x = segments[c][s];
                double beside = 0.5 * (x.squared(below) + x.squared(above));
                out[c][s] = 2 * (x.squared(line) - beside) / (windowSum * windowSum);
            }
        }
        return out;
    }

    /** Mean of segment powers, not below 0, as an rms level, m/s². */
    static double levelRmsMps2(double[] powers) {
        return Math.sqrt(Math.max(0, mean(powers)));
    }

    /** Standard error of {@link #levelRmsMps2}, m/s². */
    static double standardErrorMps2(double[] powers) {
        double mean = mean(powers);
        double squares = 0;
        for (double p : powers) {
            squares += (p - mean) * (p - mean);
        }
        int n = powers.length;
        double ofPower = Math.sqrt(squares / (n - 1) / (n * INDEPENDENT_RATIO));
        double level = Math.sqrt(Math.max(0, mean));
        // The root is straight only where the level is well above its error.
        return ofPower > level * level ? Math.sqrt(ofPower) : ofPower / (2 * level + 1e-300);
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double v : values) {
            sum += v;
        }
        return sum / values.length;
    }
}
