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

    /** The moments in which the probe was turned. */
    static List<TimeRange> tilts(double[][] accelMps2, double sampleRateHz) {
        int span = Math.max(1, (int) Math.round(WINDOW_S * sampleRateHz));
        int windows = accelMps2[0].length / span;
        double[][] means = new double[accelMps2.length][windows];
        for (int c = 0; c < means.length; c++) {
            for (int w = 0; w < windows; w++) {
                double sum = 0;
                for (int i = w * span; i < (w + 1) * span; i++) {
                    sum += accelMps2[c][i];
                }
                means[c][w] = sum / span;
            }
        }
        double[] step = new double[windows];
        for (int w = SIDE_WINDOWS; w + SIDE_WINDOWS <= windows; w++) {
            double squares = 0;
            for (double[] m : means) {
                double before = Statistics.median(Arrays.copyOfRange(m, w - SIDE_WINDOWS, w));
                double after = Statistics.median(Arrays.copyOfRange(m, w, w + SIDE_WINDOWS));
                squares += (after - before) * (after - before);
            }
            step[w] = Math.sqrt(squares);
        }
        List<TimeRange> out = new ArrayList<>();
        for (int w = 0; w < windows; w++) {
            int end = w;
            int top = w;
            while (end < windows && step[end] > TILT_MPS2) {
                top = step[end] > step[top] ? end : top;
                end++;
            }
            if (end > w) {
                // A step within a window shows in full at both of the window's edges.
                int last = top + 1 < end && step[top + 1] > SAME_STEP * step[top] ? top + 1 : top;
                int first = top > w && step[top - 1] > SAME_STEP * step[top] ? top - 1 : top;
                double lengthS = span / sampleRateHz;
                out.add(
                        new TimeRange(
                                first * lengthS - WINDOW_S / 2, last * lengthS + WINDOW_S / 2));
                w = end;
            }
        }
        return out;
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
