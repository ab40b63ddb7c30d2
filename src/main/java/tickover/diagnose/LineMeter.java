package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.CosSin;
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

    private final int stepsPerTurn;
    private final int segment;
    private final double windowSum;

    /** For every channel and segment what is even about its middle, under the window. */
    private final double[][][] even;

    /** The same of what is odd. */
    private final double[][][] odd;

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
        this.even = new double[channels.length][plan.count()][];
        this.odd = new double[channels.length][plan.count()][];
        for (int c = 0; c < channels.length; c++) {
            for (int s = 0; s < plan.count(); s++) {
                fold(channels[c], firstStep + plan.start(s), window, c, s);
            }
        }
    }

    /** The window's first weight is zero, so the rest is symmetric about the middle. */
    private void fold(double[] x, int from, double[] window, int channel, int at) {
        int half = segment / 2;
        double[] sum = new double[half];
        double[] difference = new double[half];
        sum[0] = window[half] * x[from + half];
        for (int d = 1; d < half; d++) {
            double after = x[from + half + d];
            double before = x[from + half - d];
            sum[d] = window[half + d] * (after + before);
            difference[d] = window[half + d] * (after - before);
        }
        even[channel][at] = sum;
        odd[channel][at] = difference;
    }

    /**
     * Cosines and sines of a line and of what stands to either side of it, from the middle of a
     * segment on: the same for all meters over the same plan.
     */
    static final class Probe {
        private final double[][] cos;
        private final double[][] sin;

        private Probe(double[] stepTurns, int half) {
            this.cos = new double[stepTurns.length][half];
            this.sin = new double[stepTurns.length][half];
            double[] turns = new double[half];
            for (int k = 0; k < stepTurns.length; k++) {
                for (int d = 0; d < half; d++) {
                    turns[d] = d * stepTurns[k];
                }
                CosSin.ofTurns(turns, half, cos[k], sin[k]);
            }
        }
    }

    /** Prepares the measurement of a line. */
    Probe probe(double order) {
        double aside = ASIDE_BINS * binOrders();
        double[] stepTurns = {
            order / stepsPerTurn, (order - aside) / stepsPerTurn, (order + aside) / stepsPerTurn
        };
        return new Probe(stepTurns, segment / 2);
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
        return segmentPowers(probe(order));
    }

    /** The same for a line that another meter over the same plan has prepared. */
    double[] segmentPowers(Probe probe) {
        double[] out = new double[even[0].length];
        double[] re = new double[3];
        double[] im = new double[3];
        for (int c = 0; c < even.length; c++) {
            for (int s = 0; s < out.length; s++) {
                products(even[c][s], probe.cos, re);
                products(odd[c][s], probe.sin, im);
                double background = 0.5 * (power(re[1], im[1]) + power(re[2], im[2]));
                out[s] += power(re[0], im[0]) - background;
            }
        }
        return out;
    }

    private double power(double re, double im) {
        return 2 * (re * re + im * im) / (windowSum * windowSum);
    }

    /** Scalar products with three arrays; two sums each, for a sum waits for its last addition. */
    private static void products(double[] x, double[][] with, double[] out) {
        double[] a = with[0];
        double[] b = with[1];
        double[] c = with[2];
        double a0 = 0;
        double a1 = 0;
        double b0 = 0;
        double b1 = 0;
        double c0 = 0;
        double c1 = 0;
        int pairs = x.length / 2;
        for (int i = 0; i < pairs; i++) {
            double x0 = x[2 * i];
            double x1 = x[2 * i + 1];
            a0 += x0 * a[2 * i];
            a1 += x1 * a[2 * i + 1];
            b0 += x0 * b[2 * i];
            b1 += x1 * b[2 * i + 1];
            c0 += x0 * c[2 * i];
            c1 += x1 * c[2 * i + 1];
        }
        if (x.length % 2 == 1) {
            int last = x.length - 1;
            a0 += x[last] * a[last];
            b0 += x[last] * b[last];
            c0 += x[last] * c[last];
        }
        out[0] = a0 + a1;
        out[1] = b0 + b1;
        out[2] = c0 + c1;
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
