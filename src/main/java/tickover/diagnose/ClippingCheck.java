package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import tickover.order.TimeRange;

/**
 * Finds where a channel was driven to the end of its range.
 *
 * <p>A range that is too small piles samples up on one value, to the last bit, at the top, at the
 * bottom or at both: of all samples close to the extreme at least half are the extreme itself. A
 * sine lingers near its peak too, but not on one value. Close means within 1 % of the swing, and
 * within a few steps of the converter, so that a faint signal of few steps does not pass for a
 * clipped one.
 */
final class ClippingCheck {
    /** How near the extreme is close, as a share of half the swing. Common practice. */
    private static final double CLOSE_RATIO = 0.01;

    /** And in steps of the converter: across so many a signal's own distribution thins out. */
    private static final double CLOSE_STEPS = 8;

    /** One value that comes up this often by chance has equals beside it. */
    private static final int FEWEST_SAMPLES = 5;

    /** More than one sample in a thousand at the end of the range is clipping. Common practice. */
    private static final double CLIPPED_RATIO = 1e-3;

    /** The stretch over which that share is taken, blocks: 0.5 s. */
    private static final int STRETCH_BLOCKS = 10;

    private final List<TimeRange> ranges;
    private final double ratio;

    private ClippingCheck(List<TimeRange> ranges, double ratio) {
        this.ranges = ranges;
        this.ratio = ratio;
    }

    /** The blocks that hold clipped samples, where there are enough of them to matter. */
    List<TimeRange> ranges() {
        return ranges;
    }

    /** Share of a channel's samples that are at the end of the range, the worst channel's. */
    double ratio() {
        return ratio;
    }

    static ClippingCheck of(double[][] accelMps2, double sampleRateHz) {
        int span = Math.max(2, (int) Math.round(BlockLevels.BLOCK_S * sampleRateHz));
        int blocks = accelMps2[0].length / span;
        List<TimeRange> ranges = new ArrayList<>();
        double worst = 0;
        for (double[] x : accelMps2) {
            int[] atLimit = atLimit(x, span, blocks);
            int all = 0;
            for (int n : atLimit) {
                all += n;
            }
            worst = Math.max(worst, (double) all / x.length);
            for (int b = 0; b < blocks; b++) {
                if (atLimit[b] > 0 && around(atLimit, b) > CLIPPED_RATIO * STRETCH_BLOCKS * span) {
                    ranges.add(
                            new TimeRange(b * span / sampleRateHz, (b + 1) * span / sampleRateHz));
                }
            }
        }
        return new ClippingCheck(ranges, worst);
    }

    /** Samples at the limit in the stretch around a block. */
    private static int around(int[] atLimit, int block) {
        int from =
                Math.max(0, Math.min(block - STRETCH_BLOCKS / 2, atLimit.length - STRETCH_BLOCKS));
        int sum = 0;
        for (int b = from; b < Math.min(atLimit.length, from + STRETCH_BLOCKS); b++) {
            sum += atLimit[b];
        }
        return sum;
    }

    private static int[] atLimit(double[] x, int span, int blocks) {
        int[] counts = new int[blocks];
        double high = Double.NEGATIVE_INFINITY;
        double low = Double.POSITIVE_INFINITY;
        double step = Double.POSITIVE_INFINITY;
        for (int i = 0; i < x.length; i++) {
            double v = x[i];
            high = v > high ? v : high;
            low = v < low ? v : low;
            double d = i == 0 ? 0 : Math.abs(v - x[i - 1]);
            step = d > 0 && d < step ? d : step;
        }
        if (!(high > low)) {
            return counts;
        }
        double close = Math.max(CLOSE_RATIO * (high - low) / 2, CLOSE_STEPS * step);
        boolean top = pilesUp(x, high, close);
        boolean bottom = pilesUp(x, low, close);
        for (int i = 0; i < blocks * span; i++) {
            if ((top && x[i] == high) || (bottom && x[i] == low)) {
                counts[i / span]++;
            }
        }
        return counts;
    }

    private static boolean pilesUp(double[] x, double extreme, double close) {
        int near = 0;
        int exact = 0;
        for (double v : x) {
            near += Math.abs(v - extreme) <= close ? 1 : 0;
            exact += v == extreme ? 1 : 0;
        }
        return exact >= FEWEST_SAMPLES && 2 * exact >= near;
    }
}
