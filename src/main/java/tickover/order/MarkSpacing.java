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

    private static final int MOST_TURNS = 2000;

    private final double[] place;
    private final boolean even;

    private MarkSpacing(double[] place, boolean even) {
        this.place = place;
        this.even = even;
    }

    static MarkSpacing even(int marks) {
        double[] place = new double[marks];
        for (int j = 0; j < marks; j++) {
            place[j] = (double) j / marks;
        }
        return new MarkSpacing(place, true);
    }

    int marks() {
        return place.length;
    }

    boolean isEven() {
        return even;
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

    /** The number, 0 to marks less one, of the mark after the longest gap. */
    int afterLongestGap() {
        int best = 0;
        for (int j = 1; j < place.length; j++) {
            if (turnsBetween(j - 1, j) > turnsBetween(best - 1, best) + LEAST_TURNS) {
                best = j;
            }
        }
        return best;
    }

    /**
     * Spacing from the shares that the gaps of whole turns have of their turn: the median over
     * turns, each lined up with the first by the shift that fits best.
     */
    static MarkSpacing rough(double[] t, double[] turnS, int marks, int start, double wholeRatio) {
        double[] template = shares(t, start, marks);
        double[][] columns = new double[marks][MOST_TURNS];
        int rows = 0;
        int k = start;
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
        return even ? even(marks) : new MarkSpacing(place, false);
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
            double sum = 0;
            for (int j = 0; j < n; j++) {
                sum += Math.abs(shares[j] - template[(j + shift) % n]);
            }
            if (sum < least) {
                least = sum;
                best = shift;
            }
        }
        return best;
    }

    /**
     * The same marks, their places measured against the pulses of mark 0 alone: a cubic through
     * four of its pulses tells the angle at which the others came, free of the speed's change.
     *
     * @param t pulses that belong, s
     * @param markOf their running marks
     * @return even spacing if the pulses do not clearly say otherwise
     */
    MarkSpacing refined(double[] t, int[] markOf) {
        int marks = place.length;
        if (marks == 1) {
            return this;
        }
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
        double[] measured = new double[marks];
        boolean sure = false;
        for (int j = 1; j < marks; j++) {
            if (rows[j] < 3) {
                return this;
            }
            double[] column = Arrays.copyOf(columns[j], rows[j]);
            measured[j] = Statistics.median(column);
            double sigma = Statistics.mad(column) * Statistics.MAD_TO_SIGMA;
            // A median of n values has 1.25 times the error of their mean.
            double error = 1.25 * sigma / Math.sqrt(rows[j]);
            double off = Math.abs(measured[j] - (double) j / marks);
            sure |= off > SURE_SIGMAS * error + LEAST_TURNS;
            if (!(measured[j] > measured[j - 1])) {
                return this;
            }
        }
        return sure ? new MarkSpacing(measured, false) : even(marks);
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
