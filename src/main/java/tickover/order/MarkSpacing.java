package tickover.order;

import java.util.Arrays;
import tickover.dsp.Statistics;

/**
 * Where the marks of a part sit, learned from the pulses when they are not evenly spaced.
 *
 * <p>Marks are numbered on and on; mark m sits at {@code floor(m / marks) + place[m mod marks]}
 * turns.
 */
final class MarkSpacing {
    /** Departures from even spacing count when they exceed their own error so many times. */
    private static final double SURE_SIGMAS = 6;

    /** And when they exceed what times written to a fraction of a microsecond can tell, turns. */
    private static final double LEAST_TURNS = 1e-6;

    /** The speed of a running engine swings by less than this within a turn. */
    private static final double INDEX_RATIO = 1.1;

    /** Pulses this far from the median of their mark say nothing about its place. */
    private static final double MISPLACED_SIGMAS = 5;

    /** Distance of the outer deciles of a Gaussian, standard deviations. */
    private static final double DECILES_TO_SIGMA = 2.5631;

    private static final int MOST_TURNS = 2000;

    private final double[] place;
    private final boolean even;
    private final double sigmaTurns;

    private MarkSpacing(double[] place, boolean even, double sigmaTurns) {
        this.place = place;
        this.even = even;
        this.sigmaTurns = sigmaTurns;
    }

    static MarkSpacing even(int marks) {
        double[] place = new double[marks];
        for (int j = 0; j < marks; j++) {
            place[j] = (double) j / marks;
        }
        return new MarkSpacing(place, true, 0);
    }

    int marks() {
        return place.length;
    }

    boolean isEven() {
        return even;
    }

    /** Standard error of the places, rms over the marks, turns; 0 if they were not measured. */
    double sigmaTurns() {
        return sigmaTurns;
    }

    double turnsAt(int mark) {
        return Math.floorDiv(mark, place.length) + place[Math.floorMod(mark, place.length)];
    }

    double turnsBetween(int mark, int next) {
        return turnsAt(next) - turnsAt(mark);
    }

    /** The smaller of the gaps on both sides of a mark, turns. */
    double gapBeside(int mark) {
        return Math.min(turnsBetween(mark - 1, mark), turnsBetween(mark, mark + 1));
    }

    /** The mark nearest to a place so many turns from a given mark. */
    int nearest(int mark, double turns) {
        double wanted = turnsAt(mark) + turns;
        int m = (int) Math.floor(wanted) * place.length;
        while (turnsAt(m + 1) <= wanted) {
            m++;
        }
        return wanted - turnsAt(m) <= turnsAt(m + 1) - wanted ? m : m + 1;
    }

    /** Whether one gap is longer than all others by more than ripple could make it. */
    boolean hasIndex() {
        int longest = afterLongestGap();
        boolean clear = place.length > 1;
        for (int j = 0; j < place.length; j++) {
            double gap = turnsBetween(j - 1, j);
            clear &= j == longest || gap * INDEX_RATIO < turnsBetween(longest - 1, longest);
        }
        return clear;
    }

    /** The number, 0 to marks less one, of the mark after the longest gap. */
    int afterLongestGap() {
        int best = 0;
        for (int j = 1; j < place.length; j++) {
            if (turnsBetween(j - 1, j) > turnsBetween(best - 1, best)) {
                best = j;
            }
        }
        return best;
    }

    /**
     * The turn among several whole ones that the others are most like: a turn of as many pulses as
     * marks may still hold a missed and a double one.
     *
     * @param turns pulses at which whole turns begin
     * @return one of them
     */
    static int mostTypical(double[] t, int[] turns, int marks) {
        double[][] shares = new double[turns.length][];
        Arrays.setAll(shares, i -> shares(t, turns[i], marks));
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < turns.length; i++) {
            double[] apart = new double[turns.length];
            for (int j = 0; j < turns.length; j++) {
                int shift = bestShift(shares[j], shares[i]);
                apart[j] = distance(shares[j], shares[i], shift);
            }
            double typical = Statistics.median(apart);
            if (typical < least) {
                least = typical;
                best = i;
            }
        }
        return turns[best];
    }

    /**
     * Spacing from the shares that the gaps of whole turns have of their turn: the median over
     * turns, each lined up by the shift that fits best.
     *
     * @param start pulse of mark 0, at which a typical turn begins
     */
    static MarkSpacing rough(double[] t, double[] turnS, int marks, int start, double wholeRatio) {
        double[] template = shares(t, start, marks);
        double[][] columns = new double[marks][MOST_TURNS];
        int rows = 0;
        int k = 0;
        while (k + marks < t.length && rows < MOST_TURNS) {
            if (!PulseTrain.isWhole(t, turnS, marks, k)) {
                k++;
                continue;
            }
            double[] shares = shares(t, k, marks);
            int shift = bestShift(shares, template);
            for (int j = 0; j < marks; j++) {
                columns[(j + shift) % marks][rows] = shares[j];
            }
            rows++;
            k += marks;
        }
        double[] gaps = new double[marks];
        for (int j = 0; j < marks; j++) {
            gaps[j] = Statistics.median(Arrays.copyOf(columns[j], rows));
        }
        double sum = Arrays.stream(gaps).sum();
        double[] place = new double[marks];
        boolean even = true;
        for (int j = 0; j < marks; j++) {
            even &= Math.abs(gaps[j] / sum * marks - 1) < wholeRatio;
            if (j > 0) {
                place[j] = place[j - 1] + gaps[j - 1] / sum;
            }
        }
        return even ? even(marks) : new MarkSpacing(place, false, 0);
    }

    private static double[] shares(double[] t, int from, int marks) {
        double[] shares = new double[marks];
        for (int j = 0; j < marks; j++) {
            shares[j] = (t[from + j + 1] - t[from + j]) / (t[from + marks] - t[from]);
        }
        return shares;
    }

    private static int bestShift(double[] shares, double[] template) {
        int n = shares.length;
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int shift = 0; shift < n; shift++) {
            double sum = distance(shares, template, shift);
            if (sum < least) {
                least = sum;
                best = shift;
            }
        }
        return best;
    }

    private static double distance(double[] shares, double[] template, int shift) {
        double sum = 0;
        for (int j = 0; j < shares.length; j++) {
            sum += Math.abs(shares[j] - template[(j + shift) % shares.length]);
        }
        return sum;
    }

    /**
     * The same marks, their places measured.
     *
     * @param t pulses that belong, s
     * @param markOf their running marks
     * @return even spacing if the pulses do not clearly say otherwise
     */
    MarkSpacing refined(double[] t, int[] markOf) {
        if (place.length == 1) {
            return this;
        }
        Measured measured = new Measured(t, markOf);
        if (!measured.usable) {
            return this;
        }
        MarkSpacing regular = even(place.length);
        return measured.departsFrom(regular.place)
                ? new MarkSpacing(measured.place, false, measured.sigmaTurns())
                : regular;
    }

    /** The same marks counted over a cycle of several turns, which takes the place of the turn. */
    MarkSpacing overCycle(int turns) {
        int marks = place.length;
        double[] over = new double[turns * marks];
        for (int j = 0; j < over.length; j++) {
            over[j] = turnsAt(j) / turns;
        }
        return new MarkSpacing(over, even, sigmaTurns / turns);
    }

    /**
     * Where the marks would have to sit for a shaft without ripple to give these pulses: the places
     * with what the shaft is ahead at each, less the mean.
     *
     * @return this if no ripple stands clearly out of the jitter
     */
    MarkSpacing withRipple(double[] t, int[] markOf) {
        if (place.length == 1) {
            return this;
        }
        Measured measured = new Measured(t, markOf);
        if (!measured.usable || !measured.departsFrom(place)) {
            return this;
        }
        double mean = 0;
        for (int j = 0; j < place.length; j++) {
            mean += (measured.place[j] - place[j]) / place.length;
        }
        double[] shifted = measured.place.clone();
        for (int j = 0; j < place.length; j++) {
            shifted[j] -= mean;
        }
        return new MarkSpacing(shifted, false, measured.sigmaTurns());
    }

    /** Largest distance of a mark from its place in another spacing of as many, turns. */
    double farthestFrom(MarkSpacing other) {
        double farthest = 0;
        for (int j = 0; j < place.length; j++) {
            farthest = Math.max(farthest, Math.abs(place[j] - other.place[j]));
        }
        return farthest;
    }

    /**
     * Places measured against the pulses of mark 0 alone: a cubic through four of its pulses tells
     * the angle at which the others came, free of the speed's change.
     */
    private final class Measured {
        private final double[] place = new double[marks()];
        private final double[] error = new double[marks()];
        private boolean usable = true;

        Measured(double[] t, int[] markOf) {
            int marks = marks();
            double[][] columns = new double[marks][MOST_TURNS];
            int[] rows = new int[marks];
            int[] zeros = zeroPulses(markOf);
            for (int z = 1; z + 2 < zeros.length; z++) {
                if (markOf[zeros[z + 2]] - markOf[zeros[z - 1]] != 3 * marks) {
                    continue;
                }
                for (int i = zeros[z] + 1; i < zeros[z + 1]; i++) {
                    int j = Math.floorMod(markOf[i], marks);
                    if (rows[j] < MOST_TURNS) {
                        columns[j][rows[j]++] = cubic(t, zeros, z, t[i]);
                    }
                }
            }
            for (int j = 1; j < marks && usable; j++) {
                double[] column = Arrays.copyOf(columns[j], rows[j]);
                usable = rows[j] >= 3;
                if (usable) {
                    double sigma = spread(column);
                    place[j] = clippedMean(column, MISPLACED_SIGMAS * sigma);
                    error[j] = sigma / Math.sqrt(rows[j]);
                    usable = place[j] > place[j - 1];
                }
            }
        }

        boolean departsFrom(double[] other) {
            boolean departs = false;
            for (int j = 1; j < place.length; j++) {
                double off = Math.abs(place[j] - (other[j] - other[0]));
                departs |= off > SURE_SIGMAS * error[j] + LEAST_TURNS;
            }
            return departs;
        }

        double sigmaTurns() {
            return Math.sqrt(Arrays.stream(error).map(e -> e * e).average().orElse(0));
        }
    }

    /**
     * Standard deviation by deciles. The median absolute deviation would see one cluster only where
     * odd turns differ from even ones.
     */
    private static double spread(double[] x) {
        return (Statistics.quantile(x, 0.9) - Statistics.quantile(x, 0.1)) / DECILES_TO_SIGMA;
    }

    /**
     * Mean of what lies so near to the median. The median alone would fall on either side at random
     * where odd turns differ from even ones.
     */
    private static double clippedMean(double[] x, double reach) {
        double median = Statistics.median(x);
        return Arrays.stream(x).filter(v -> Math.abs(v - median) <= reach).average().orElse(median);
    }

    private int[] zeroPulses(int[] markOf) {
        int[] zeros = new int[markOf.length];
        int n = 0;
        for (int i = 0; i < markOf.length; i++) {
            if (Math.floorMod(markOf[i], place.length) == 0) {
                zeros[n++] = i;
            }
        }
        return Arrays.copyOf(zeros, n);
    }

    /** Angle at a time, turns after pulse z of mark 0, by Lagrange's cubic. */
    private static double cubic(double[] t, int[] zeros, int z, double time) {
        double sum = 0;
        for (int a = -1; a <= 2; a++) {
            double term = a;
            for (int b = -1; b <= 2; b++) {
                if (b != a) {
                    term *= (time - t[zeros[z + b]]) / (t[zeros[z + a]] - t[zeros[z + b]]);
                }
            }
            sum += term;
        }
        return sum;
    }
}
