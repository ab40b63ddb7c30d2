package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tickover.dsp.Statistics;
import tickover.order.TimeRange;

/**
 * Finds where a probe was turned to another angle, and where its hold changed for good.
 *
 * <p>A sensor that measures a constant acceleration shows a share of gravity that depends on its
 * angle. One that does not cannot show a lasting step either, so nothing has to be known of its
 * kind. A hold that changes moves the mount's resonance, and so the treble against the bass.
 */
final class HoldCheck {
    /** Means over this long: several turns at idle, several swings of a trembling hand, s. */
    static final double WINDOW_S = 0.5;

    /** So many windows before and after a step have to agree on it. */
    private static final int SIDE_WINDOWS = 3;

    /**
     * A turn by 15 degrees moves gravity's share by 2 g sin(7.5°), m/s². A hand wavers by a few
     * degrees without meaning to.
     */
    private static final double TILT_MPS2 = 2 * 9.80665 * Math.sin(Math.toRadians(7.5));

    /** Two looks at one step agree within the wavering of a hand. */
    private static final double SAME_STEP = 0.8;

    /** Each side of a change of hold has to last this many windows, 2 s. */
    private static final int LASTING_WINDOWS = 4;

    /** Treble against bass has to change by a factor of two in amplitude, dB. */
    private static final double HOLD_DB = 6;

    /** And by this many times its usual scatter from window to window. */
    private static final double HOLD_SIGMAS = 4;

    private HoldCheck() {}

    /**
     * The moments in which the probe was turned.
     *
     * @param accelMps2 all channels
     * @param sampleRateHz samples per second, Hz
     * @param ruledOut what not to look at; a probe that was off may come back at another angle
     */
    static List<TimeRange> tilts(
            double[][] accelMps2, double sampleRateHz, List<TimeRange> ruledOut) {
        int span = Math.max(1, (int) Math.round(WINDOW_S * sampleRateHz));
        List<double[]> means = new ArrayList<>();
        List<Double> startsS = new ArrayList<>();
        for (int from = 0; from + span <= accelMps2[0].length; from += span) {
            double fromS = from / sampleRateHz;
            double toS = (from + span) / sampleRateHz;
            if (ruledOut.stream().noneMatch(r -> r.meets(fromS, toS))) {
                means.add(means(accelMps2, from, span));
                startsS.add(fromS);
            }
        }
        double[] step = new double[means.size()];
        for (int w = SIDE_WINDOWS; w + SIDE_WINDOWS <= step.length; w++) {
            step[w] = step(means, w);
        }
        List<TimeRange> out = new ArrayList<>();
        for (int w = 0; w < step.length; w++) {
            int end = w;
            int top = w;
            while (end < step.length && step[end] > TILT_MPS2) {
                top = step[end] > step[top] ? end : top;
                end++;
            }
            if (end > w) {
                // A step shows in full from the windows before it to those after, its place in the
                // middle of them.
                int first = top;
                int last = top;
                while (first > w && step[first - 1] > SAME_STEP * step[top]) {
                    first--;
                }
                while (last + 1 < end && step[last + 1] > SAME_STEP * step[top]) {
                    last++;
                }
                double atS = (startsS.get(first) + startsS.get(last)) / 2;
                out.add(new TimeRange(atS - WINDOW_S / 2, atS + WINDOW_S / 2));
                w = end;
            }
        }
        return out;
    }

    private static double[] means(double[][] accelMps2, int from, int span) {
        double[] means = new double[accelMps2.length];
        for (int c = 0; c < means.length; c++) {
            for (int i = from; i < from + span; i++) {
                means[c] += accelMps2[c][i] / span;
            }
        }
        return means;
    }

    /** Length of the step between the medians of the windows before and after, m/s². */
    private static double step(List<double[]> means, int at) {
        double squares = 0;
        for (int c = 0; c < means.get(at).length; c++) {
            double change = median(means, c, at) - median(means, c, at - SIDE_WINDOWS);
            squares += change * change;
        }
        return Math.sqrt(squares);
    }

    private static double median(List<double[]> means, int channel, int from) {
        return Statistics.median(
                means.subList(from, from + SIDE_WINDOWS).stream()
                        .mapToDouble(m -> m[channel])
                        .toArray());
    }

    /**
     * From when on the hold was another one.
     *
     * @param levels the capture's blocks
     * @param ruledOut what not to look at
     * @return from the change to the end; empty if there is none
     */
    static List<TimeRange> changes(BlockLevels levels, List<TimeRange> ruledOut) {
        int span = (int) Math.round(WINDOW_S / levels.blockS());
        int windows = levels.count() / span;
        List<double[]> kept = new ArrayList<>();
        for (int w = 0; w < windows; w++) {
            double fromS = levels.startS(w * span);
            double toS = levels.startS((w + 1) * span);
            if (ruledOut.stream().noneMatch(r -> r.meets(fromS, toS))) {
                kept.add(new double[] {fromS, trebleOverBassDb(levels, w * span, span)});
            }
        }
        double[] db = kept.stream().mapToDouble(k -> k[1]).toArray();
        int best = -1;
        double largest = HOLD_DB;
        for (int w = LASTING_WINDOWS; w + LASTING_WINDOWS <= db.length; w++) {
            double[] before = Arrays.copyOfRange(db, 0, w);
            double[] after = Arrays.copyOfRange(db, w, db.length);
            double change = Math.abs(Statistics.median(after) - Statistics.median(before));
            double scatter =
                    Statistics.MAD_TO_SIGMA
                            * Math.max(Statistics.mad(before), Statistics.mad(after));
            if (change > largest && change > HOLD_SIGMAS * scatter) {
                largest = change;
                best = w;
            }
        }
        return best < 0
                ? List.of()
                : List.of(new TimeRange(kept.get(best)[0], levels.startS(levels.count())));
    }

    private static double trebleOverBassDb(BlockLevels levels, int from, int count) {
        double treble = 0;
        double bass = 0;
        for (int b = from; b < from + count; b++) {
            treble += levels.treble()[b] * levels.treble()[b];
            bass += levels.bass()[b] * levels.bass()[b];
        }
        return 10 * Math.log10((treble + Double.MIN_NORMAL) / (bass + Double.MIN_NORMAL));
    }
}
