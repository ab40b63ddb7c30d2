package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import tickover.dsp.Statistics;

/**
 * What spectra say for a comb of harmonics, for every base order: the logarithm of the odds, in
 * nats.
 *
 * <p>Harmonics are independent given the comb, and each may be missing; so may the comb in some of
 * the spectra. What comes out is held against what neighbouring base orders say, and is smaller
 * where those say much. Base orders are even in the logarithm, the same for every scan.
 */
final class RhythmScan {
    /** Chance that a harmonic of a comb that is there can be seen. */
    private static final double SEEN = 0.5;

    /** Chance that a comb that is there can be seen in one of several bands. */
    private static final double BAND_SEEN = 0.3;

    /** A comb wanders by slip and jitter within a capture by this share. */
    private static final double WANDER_RATIO = 1.5e-3;

    /** Base orders run from here ... orders per crank turn. */
    static final double LOWEST_ORDERS = 0.1;

    /** ... to here. */
    static final double HIGHEST_ORDERS = 30;

    /** Relative distance of base orders. */
    static final double STEP_RATIO = 1.0e-3;

    /** Captures of one visit may differ in slip by this many steps to either side. */
    private static final int REACH = 2;

    /** What a step of slip takes off, nats. */
    private static final double STEP_NATS = 0.15;

    /** Base orders this many steps to either side make what is usual. */
    static final int NEIGHBOURS = 200;

    static final int COUNT = indexOf(HIGHEST_ORDERS) + 1;

    /** All base orders. */
    private static final double[] ORDERS = new double[COUNT];

    static {
        Arrays.setAll(ORDERS, RhythmScan::orderAt);
    }

    private final double[] nats;

    private RhythmScan(double[] nats) {
        this.nats = nats;
    }

    static RhythmScan of(List<OrderField> fields, int harmonics) {
        return ofEach(fields, harmonics)[0];
    }

    /**
     * Scans for several numbers of harmonics at once: fewer are a part of more.
     *
     * @param fields spectra
     * @param harmonics numbers of harmonics, rising
     * @return a scan for each number
     */
    static RhythmScan[] ofEach(List<OrderField> fields, int... harmonics) {
        double[][] out = new double[harmonics.length][COUNT];
        boolean several = fields.size() > 1;
        for (OrderField field : fields) {
            for (int i = 0; i < COUNT; i++) {
                double comb = 0;
                for (int h = 0; h < harmonics.length; h++) {
                    int from = h == 0 ? 1 : harmonics[h - 1] + 1;
                    comb = combNats(field, ORDERS[i], from, harmonics[h], comb);
                    out[h][i] +=
                            several ? Math.log(1 - BAND_SEEN + BAND_SEEN * Math.exp(comb)) : comb;
                }
            }
        }
        return Arrays.stream(out)
                .map(raw -> new RhythmScan(overUsual(raw)))
                .toArray(RhythmScan[]::new);
    }

    /**
     * Holds every base order against its neighbours, which no part makes: in a crowded spectrum
     * many combs find something to fit, so what one says there is worth less.
     */
    static double[] overUsual(double[] raw) {
        int hop = NEIGHBOURS / 2;
        int knots = raw.length / hop + 1;
        double[] median = new double[knots];
        double[] spread = new double[knots];
        for (int k = 0; k < knots; k++) {
            int from = Math.max(0, k * hop - NEIGHBOURS);
            int to = Math.min(raw.length, k * hop + NEIGHBOURS);
            Usual usual = Usual.of(Arrays.copyOfRange(raw, from, to));
            median[k] = usual.median;
            spread[k] = usual.spread;
        }
        double[] out = new double[raw.length];
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

    /** What base orders say that no part makes. */
    record Usual(double median, double spread) {
        /** Of a stretch of them, whose order is lost. */
        static Usual of(double[] nats) {
            double median = Statistics.nth(nats, nats.length, nats.length / 2);
            // The lower half only: other parts' lines lift the upper one.
            double quartile = Statistics.nth(nats, nats.length, nats.length / 4);
            return new Usual(median, Math.max(1, Statistics.MAD_TO_SIGMA * (median - quartile)));
        }
    }

    /** Adds what the harmonics from one to another say. */
    private static double combNats(OrderField field, double base, int from, int to, double before) {
        double sum = before;
        for (int k = from; k <= to; k++) {
            double order = k * base;
            if (order > field.topOrders()) {
                break;
            }
            double odds = field.isBlind(order) ? 0 : field.lineOdds(order, WANDER_RATIO * order);
            sum += Math.log(1 - SEEN + SEEN * odds);
        }
        return sum;
    }

    double at(int index) {
        return index < 0 || index >= COUNT ? 0 : nats[index];
    }

    /** The best at a base order and its close neighbours: slip differs between captures. */
    double around(int index) {
        double best = Double.NEGATIVE_INFINITY;
        for (int step = -REACH; step <= REACH; step++) {
            best = Math.max(best, at(index + step) - STEP_NATS * Math.abs(step));
        }
        return best;
    }

    static double orderAt(int index) {
        return LOWEST_ORDERS * Math.exp(index * Math.log1p(STEP_RATIO));
    }

    /** Steps from a base order to a multiple of it. */
    static int stepsTo(int multiple) {
        return (int) Math.rint(Math.log(multiple) / Math.log1p(STEP_RATIO));
    }

    static int indexOf(double order) {
        return (int) Math.rint(Math.log(order / LOWEST_ORDERS) / Math.log1p(STEP_RATIO));
    }
}
