package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;

/**
 * Where the segments of a record lie in which lines are measured: half-overlapping, of one length,
 * and each clear of what is ruled out.
 *
 * <p>A record without anything ruled out gives seven segments of a quarter of its length. Where
 * stretches are ruled out, segments are laid into what is left between them; only where fewer than
 * {@value #FEWEST} of that length fit are they made shorter, by halves, because a longer segment
 * tells closer lines apart.
 */
final class SegmentPlan {
    /** With fewer, their scatter says nothing of the error. */
    static final int FEWEST = 3;

    /** Shorter segments hold no line worth the name, crank turns. */
    private static final int FEWEST_TURNS = 5;

    private final int length;
    private final int[] starts;

    private SegmentPlan(int length, int[] starts) {
        this.length = length;
        this.starts = starts;
    }

    /**
     * Lays segments.
     *
     * @param usable which grid steps can be used
     * @param stepsPerTurn grid steps per crank turn
     */
    static SegmentPlan of(boolean[] usable, int stepsPerTurn) {
        int length = Math.max(2, 2 * (usable.length / 8));
        int[] starts = starts(usable, length);
        while (starts.length < FEWEST && length / 2 >= FEWEST_TURNS * stepsPerTurn) {
            length = Math.max(2, length / 4 * 2);
            starts = starts(usable, length);
        }
        return new SegmentPlan(length, starts);
    }

    private static int[] starts(boolean[] usable, int length) {
        List<Integer> starts = new ArrayList<>();
        int from = 0;
        while (from < usable.length) {
            int to = from;
            while (to < usable.length && usable[to]) {
                to++;
            }
            for (int s = from; s + length <= to; s += length / 2) {
                starts.add(s);
            }
            from = to + 1;
        }
        return starts.stream().mapToInt(Integer::intValue).toArray();
    }

    /** Steps per segment. */
    int length() {
        return length;
    }

    int count() {
        return starts.length;
    }

    /** First step of a segment. */
    int start(int segment) {
        return starts[segment];
    }

    /** Whether there are enough segments to measure anything. */
    boolean isEnough() {
        return starts.length >= FEWEST;
    }
}
