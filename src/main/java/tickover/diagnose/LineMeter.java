package tickover.diagnose;

import java.util.Objects;
import tickover.dsp.Window;

/**
 * Measures single order lines of one record on an even angle grid, segment by segment.
 *
 * <p>A record is cut into segments as a {@link SegmentPlan} lays them, each under a Hann window.
 * The power of a line in a segment is that of the windowed record at the line's order, less the
 * mean of what stands {@value #ASIDE_BINS} segment bins to either side, outside the window's main
 * lobe. So noise alone averages to zero, and the scatter of the segments gives the standard error.
 * Cost: O(samples) per line.
 */
final class LineMeter {
    private static final double ASIDE_BINS = 3;

    /** Half-overlapping Hann segments count as this share of independent ones: [Welch1967]. */
    private static final double INDEPENDENT_RATIO = 0.75;

    private final double[][] channels;
    private final int stepsPerTurn;
    private final SegmentPlan plan;
    private final int firstStep;
    private final int segment;
    private final double[] window;
    private final double windowSum;

    /**
     * Prepares a record.
     *
     * @param channels acceleration on an even angle grid, m/s², one array per channel
     * @param stepsPerTurn grid steps per crank turn
     * @param plan where to measure
     * @param firstStep the grid step at which the plan begins
     */
    LineMeter(double[][] channels, int stepsPerTurn, SegmentPlan plan, int firstStep) {
        this.channels = Objects.requireNonNull(channels, "channels");
        this.stepsPerTurn = stepsPerTurn;
        this.plan = Objects.requireNonNull(plan, "plan");
        this.firstStep = firstStep;
        this.segment = plan.length();
        this.window = Window.HANN.periodic(segment);
        double sum = 0;
        for (double w : window) {
            sum += w;
        }
        this.windowSum = sum;
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
        double aside = ASIDE_BINS * binOrders();
        double[] out = new double[plan.count()];
        for (double[] x : channels) {
            for (int s = 0; s < out.length; s++) {
                int from = firstStep + plan.start(s);
                double background =
                        0.5 * (power(x, from, order - aside) + power(x, from, order + aside));
                out[s] += power(x, from, order) - background;
            }
        }
        return out;
    }

    private double power(double[] x, int from, double order) {
        double step = 2 * Math.PI * order / stepsPerTurn;
        double cos = Math.cos(step);
        double sin = Math.sin(step);
        double re = 1;
        double im = 0;
        double sumRe = 0;
        double sumIm = 0;
        for (int i = 0; i < segment; i++) {
            double v = window[i] * x[from + i];
            sumRe += v * re;
            sumIm += v * im;
            double next = re * cos - im * sin;
            im = re * sin + im * cos;
            re = next;
        }
        double amplitude = 2 * Math.hypot(sumRe, sumIm) / windowSum;
        return 0.5 * amplitude * amplitude;
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
