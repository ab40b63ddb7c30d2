package tickover.diagnose;

import java.util.Arrays;
import java.util.List;

/**
 * How well a comb of harmonics fits a spectrum, for every base order: the same number for orders
 * that some part can make and for orders that none can, so that the second give the chance level.
 *
 * <p>For base order f the score is the sum over harmonics k of min(r(kf), {@value #CAP}), where r
 * is power over background, largest within the jitter's reach. Scores are held against the median
 * and spread of the scores of neighbouring base orders: what comes out is in units of that spread.
 */
final class PatternScan {
    /** Base orders run from here ... orders per crank turn. */
    static final double LOWEST_ORDERS = 0.1;

    /** ... to here. */
    static final double HIGHEST_ORDERS = 30;

    /** Relative distance of base orders. */
    static final double STEP_RATIO = 1.0e-3;

    /** A single line can say this much: exp(-CAP) is its chance. */
    private static final double CAP = 12;

    /** Relative width over which a comb may wander within a capture: slip and jitter. */
    private static final double WANDER_RATIO = 1.5e-3;

    /** Scores this far around a base order make its chance level, relative. */
    private static final int NEIGHBOURS = 200;

    /** Spread below this is that of a spectrum with nothing in it; scores are in nats. */
    private static final double LEAST_SPREAD = 0.7;

    /** Captures of one visit may differ in slip by this many steps to either side. */
    private static final int REACH = 2;

    private static final int COUNT =
            (int) (Math.log(HIGHEST_ORDERS / LOWEST_ORDERS) / Math.log1p(STEP_RATIO)) + 1;

    private final double[] score;

    private PatternScan(double[] score) {
        this.score = score;
    }

    /**
     * Scores every base order.
     *
     * @param field the spectrum
     * @param harmonics number of harmonics in the comb, &gt;= 1
     * @return the scan
     */
    static PatternScan of(OrderField field, int harmonics) {
        double[] raw = new double[COUNT];
        for (int i = 0; i < COUNT; i++) {
            raw[i] = combScore(field, orderAt(i), harmonics);
        }
        return new PatternScan(inSpreads(raw));
    }

    private static double combScore(OrderField field, double base, int harmonics) {
        double sum = 0;
        int seen = 0;
        for (int k = 1; k <= harmonics; k++) {
            double order = k * base;
            if (order > field.topOrders()) {
                break;
            }
            if (field.isBlind(order)) {
                continue;
            }
            double reach = Math.max(field.stepOrders(), WANDER_RATIO * order);
            sum += Math.min(CAP, field.ratioNear(order, reach)) / Math.sqrt(k);
            seen++;
        }
        return seen == 0 ? 0 : sum;
    }

    /**
     * The best of several scans at each base order and its close neighbours, less what the best of
     * so many reaches by chance.
     */
    static PatternScan best(List<PatternScan> scans) {
        double[] out = new double[COUNT];
        double chance = scans.size() > 1 ? Math.sqrt(2 * Math.log(scans.size())) : 0;
        for (int i = 0; i < COUNT; i++) {
            double best = Double.NEGATIVE_INFINITY;
            for (PatternScan scan : scans) {
                for (int j = Math.max(0, i - REACH); j <= Math.min(COUNT - 1, i + REACH); j++) {
                    best = Math.max(best, scan.score[j]);
                }
            }
            out[i] = scans.isEmpty() ? 0 : best - chance;
        }
        return new PatternScan(out);
    }

    /** Score at a base order, in spreads above chance; 0 outside the scan. */
    double at(double order) {
        int i = indexOf(order);
        return i < 0 || i >= COUNT ? 0 : score[i];
    }

    static double orderAt(int index) {
        return LOWEST_ORDERS * Math.exp(index * Math.log1p(STEP_RATIO));
    }

    static int indexOf(double order) {
        return (int) Math.rint(Math.log(order / LOWEST_ORDERS) / Math.log1p(STEP_RATIO));
    }

    private static double[] inSpreads(double[] raw) {
        double[] out = new double[raw.length];
        int hop = NEIGHBOURS / 2;
        int knots = raw.length / hop + 1;
        double[] median = new double[knots];
        double[] spread = new double[knots];
        for (int k = 0; k < knots; k++) {
            int from = Math.max(0, k * hop - NEIGHBOURS);
            int to = Math.min(raw.length, k * hop + NEIGHBOURS);
            double[] part = Arrays.copyOfRange(raw, from, to);
            Arrays.sort(part);
            median[k] = part[part.length / 2];
            // The lower half only: other parts' lines lift the upper one.
            spread[k] = Math.max(LEAST_SPREAD, 1.4826 * (median[k] - part[part.length / 4]));
        }
        for (int i = 0; i < raw.length; i++) {
            double at = (double) i / hop;
            int k = Math.min(knots - 1, (int) at);
            int next = Math.min(knots - 1, k + 1);
            double part = at - k;
            double m = median[k] + part * (median[next] - median[k]);
            double s = spread[k] + part * (spread[next] - spread[k]);
            out[i] = (raw[i] - m) / s;
        }
        return out;
    }
}
