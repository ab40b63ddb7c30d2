package tickover.order;

import java.util.Arrays;
import tickover.dsp.Statistics;

/**
 * The pulses of a marked part put in their places: which of them belong, and at what angle of the
 * part each one lies.
 *
 * <p>From a stretch that is surely whole the pulses are followed forwards and backwards. The time
 * of a turn around each pulse is a running median, which a missed or a double pulse does not move;
 * a pulse then takes the mark nearest to where it lies, or none if it lies far from all.
 */
final class PulseTrain {
    /** A bounce follows sooner than any real mark could: no crank turns faster, Hz. */
    private static final double FASTEST_HZ = 150;

    /** Largest distance from a mark's place, over the gap beside it. */
    private static final double REACH_RATIO = 0.25;

    /** A longer time without pulses is a pause, turns of the marked part. */
    private static final double PAUSE_TURNS = 6;

    /** The typical turn is looked for among so many. */
    private static final int TYPICAL_OF = 24;

    /** A whole turn may differ from the median around it by so much. */
    private static final double WHOLE_TURN_RATIO = 0.1;

    private final double[] timesS;
    private final int[] markOf;
    private final MarkSpacing spacing;
    private final int extra;
    private final int missed;
    private final double[] pausesS;

    private PulseTrain(Walk walk, MarkSpacing spacing, int extra) {
        this.spacing = spacing;
        this.timesS = Arrays.copyOfRange(walk.keptS, walk.first, walk.last);
        this.markOf = Arrays.copyOfRange(walk.keptMark, walk.first, walk.last);
        this.extra = extra;
        this.missed = walk.missed;
        this.pausesS = Arrays.copyOf(walk.pausesS, walk.pauses);
    }

    /** The pulses that belong, s, rising. */
    double[] timesS() {
        return timesS;
    }

    /** Running number of the mark of each pulse: goes up by one per mark. */
    int[] markOf() {
        return markOf;
    }

    /** Where the marks are. */
    MarkSpacing spacing() {
        return spacing;
    }

    /** Pulses that do not belong. */
    int extra() {
        return extra;
    }

    /** Marks that went by without a pulse, pauses not counted. */
    int missed() {
        return missed;
    }

    /** Lengths of the times without pulses, s. */
    double[] pausesS() {
        return pausesS;
    }

    /** Running angle of each pulse, turns of the marked part. */
    double[] turns() {
        double[] turns = new double[markOf.length];
        for (int i = 0; i < turns.length; i++) {
            turns[i] = spacing.turnsAt(markOf[i]);
        }
        return turns;
    }

    /**
     * Puts pulses in their places.
     *
     * @param rawS pulse times as they came, s, not decreasing
     * @param marks marks on the part
     * @param turnsPerCrankTurn how fast the part turns
     * @param evenIfNearlySo whether marks that are about even are known to be exactly so
     * @return the pulses in their places; null if there are too few to tell
     */
    static PulseTrain of(
            double[] rawS, int marks, double turnsPerCrankTurn, boolean evenIfNearlySo) {
        double shortestS = (marks == 1 ? 0.8 : 0.25) / (FASTEST_HZ * turnsPerCrankTurn * marks);
        double[] t = debounced(rawS, shortestS);
        if (t.length < leastPulses(marks)) {
            return null;
        }
        double[] turnS = turnTimes(t, marks);
        MarkSpacing rough = MarkSpacing.even(marks);
        int start = wholeTurn(t, turnS, marks, 0);
        if (start < 0) {
            return null;
        }
        if (marks > 1) {
            start = MarkSpacing.mostTypical(t, wholeTurns(t, turnS, marks, start), marks);
            rough = MarkSpacing.rough(t, turnS, marks, start, WHOLE_TURN_RATIO);
        }
        Walk walk = new Walk(t, turnS, rough, start);
        MarkSpacing fine =
                evenIfNearlySo && rough.isEven()
                        ? rough
                        : rough.refined(walk.times(), walk.marks());
        return new PulseTrain(walk, fine, rawS.length - (walk.last - walk.first));
    }

    static int leastPulses(int marks) {
        return 2 * marks + 3;
    }

    private static double[] debounced(double[] rawS, double shortestS) {
        double[] kept = new double[rawS.length];
        int n = 0;
        for (double t : rawS) {
            if (n == 0 || t - kept[n - 1] >= shortestS) {
                kept[n++] = t;
            }
        }
        return Arrays.copyOf(kept, n);
    }

    /** Running median of the time from each pulse to the one a turn later. */
    private static double[] turnTimes(double[] t, int marks) {
        int n = t.length - marks;
        double[] spans = new double[n];
        for (int k = 0; k < n; k++) {
            spans[k] = t[k + marks] - t[k];
        }
        int reach = Math.min(Math.max(4, 2 * marks), (n - 1) / 2);
        int stride = Math.max(1, reach / 8);
        double[] out = new double[t.length];
        double[] at = new double[n / stride + 2];
        double[] median = new double[n / stride + 2];
        int points = 0;
        for (int k = 0; k < n; k += stride) {
            int from = Math.max(0, Math.min(k - reach, n - 2 * reach - 1));
            at[points] = k + marks / 2.0;
            median[points] =
                    Statistics.median(
                            Arrays.copyOfRange(spans, from, Math.min(n, from + 2 * reach + 1)));
            points++;
        }
        int p = 0;
        for (int k = 0; k < t.length; k++) {
            while (p + 2 < points && at[p + 1] < k) {
                p++;
            }
            if (points == 1) {
                out[k] = median[0];
            } else {
                double share = Math.max(0, Math.min(1, (k - at[p]) / (at[p + 1] - at[p])));
                out[k] = median[p] + share * (median[p + 1] - median[p]);
            }
        }
        return out;
    }

    /** First pulse, from {@code from} on, after which two turns are whole; -1 if none. */
    static int wholeTurn(double[] t, double[] turnS, int marks, int from) {
        for (int k = from; k + 2 * marks < t.length; k++) {
            if (isWhole(t, turnS, marks, k) && isWhole(t, turnS, marks, k + marks)) {
                return k;
            }
        }
        return -1;
    }

    /** Pulses at which whole turns begin, some of them, from the given one on. */
    private static int[] wholeTurns(double[] t, double[] turnS, int marks, int from) {
        int[] out = new int[TYPICAL_OF];
        int n = 0;
        int step = Math.max(marks, t.length / (4 * TYPICAL_OF));
        for (int k = from; k < t.length && n < out.length; k++) {
            if (isWhole(t, turnS, marks, k)) {
                out[n++] = k;
                k += step - 1;
            }
        }
        return Arrays.copyOf(out, n);
    }

    static boolean isWhole(double[] t, double[] turnS, int marks, int k) {
        return k + marks < t.length
                && Math.abs((t[k + marks] - t[k]) / turnS[k] - 1) < WHOLE_TURN_RATIO;
    }

    /** Follows the pulses from a sure start to both ends. */
    private static final class Walk {
        private final double[] t;
        private final double[] turnS;
        private final MarkSpacing spacing;
        private final double[] keptS;
        private final int[] keptMark;
        private final double[] pausesS;
        private int first;
        private int last;
        private int missed;
        private int pauses;

        Walk(double[] t, double[] turnS, MarkSpacing spacing, int start) {
            this.t = t;
            this.turnS = turnS;
            this.spacing = spacing;
            this.keptS = new double[2 * t.length];
            this.keptMark = new int[2 * t.length];
            this.pausesS = new double[t.length];
            first = t.length;
            last = t.length;
            keep(last++, start, 0);
            follow(start, 1);
            follow(start, -1);
        }

        double[] times() {
            return Arrays.copyOfRange(keptS, first, last);
        }

        int[] marks() {
            return Arrays.copyOfRange(keptMark, first, last);
        }

        private void keep(int place, int pulse, int mark) {
            keptS[place] = t[pulse];
            keptMark[place] = mark;
        }

        private void follow(int start, int direction) {
            int at = start;
            int mark = 0;
            int refused = 0;
            for (int k = start + direction; k >= 0 && k < t.length; k += direction) {
                double elapsed = 2 * Math.abs(t[k] - t[at]) / (turnS[k] + turnS[at]);
                boolean lost = refused > 2 * spacing.marks() + 2;
                int next = spacing.nearest(mark, direction * elapsed);
                double off = Math.abs(spacing.turnsBetween(mark, next) - direction * elapsed);
                boolean fits = off <= REACH_RATIO * spacing.gapBeside(next);
                boolean pause = elapsed > PAUSE_TURNS;
                if (next == mark || !(fits || pause || lost)) {
                    refused++;
                    continue;
                }
                if (pause) {
                    pausesS[pauses++] = Math.abs(t[k] - t[at]);
                } else {
                    missed += Math.abs(next - mark) - 1;
                }
                refused = 0;
                mark = next;
                at = k;
                keep(direction > 0 ? last++ : --first, k, mark);
            }
        }
    }
}
