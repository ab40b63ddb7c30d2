package tickover.diagnose;

import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What all captures of a visit say of a line at each order, and of combs of such lines.
 *
 * <p>One line is one line, in however many bands and captures it is seen: bands and captures
 * together say how sure it is that there is a line, but as one order in fifty holds a line of
 * something else, no line says more than that for a rhythm. A rhythm is believed for its multiples,
 * each of which may be missing. What a comb says is held against combs that no part makes, as in
 * {@link RhythmScan}, whose base orders are used.
 */
final class LineMap {
    /** Lines are looked at up to here, orders per crank turn. */
    private static final double TOP_ORDERS = 120;

    private static final int COUNT = RhythmScan.indexOf(TOP_ORDERS) + 1;

    /** All base orders. */
    private static final double[] ORDERS = new double[COUNT];

    static {
        Arrays.setAll(ORDERS, RhythmScan::orderAt);
    }

    /** Chance that a line shows in one band at the part's own point, and at another point. */
    private static final double SHOWS_OWN = 0.35;

    private static final double SHOWS_ELSEWHERE = 0.15;

    /** Chance that an order holds a line of something else. */
    private static final double OTHERS_RATIO = 0.02;

    /** Chance that a line beside another shows, one and two distances away. */
    private static final double[] SIDE_SEEN = {0.4, 0.2};

    /** Lines beside the first two of a rhythm count. */
    private static final int SIDE_MULTIPLES = 2;

    /** Lines wander within a capture by this share. */
    private static final double WANDER_RATIO = 1.5e-3;

    /** The engine's lines, whose skirts are many times higher, by this. */
    private static final double ENGINE_WANDER_RATIO = 3e-3;

    /** Slip differs between captures by up to so many steps, each of which takes off so much. */
    private static final int REACH = 2;

    private static final double STEP_NATS = 0.15;

    /** Which multiples a rhythm is believed for: the chance of each that it makes a line. */
    enum Comb {
        /** Strikes in a bearing: the first is nearly always there, the higher ones blur. */
        STRIKES(0.85, 0.6, 0.4, 0.3),
        /** Noise that swells and fades. */
        SWELL(0.5, 0.5),
        /** Knocks of what is loose, or of a belt. */
        KNOCKS(0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5);

        @SuppressWarnings("ImmutableEnumChecker") // never written to
        private final double[] seen;

        Comb(double... seen) {
            this.seen = seen;
        }
    }

    private final Map<String, double[]> own = new LinkedHashMap<>();
    private final Map<String, double[]> elsewhere = new LinkedHashMap<>();
    private final Map<String, double[]> odds = new HashMap<>();
    private final Map<String, double[]> combs = new HashMap<>();

    LineMap(List<CaptureMeasurement> captures) {
        for (CaptureMeasurement c : captures) {
            List<OrderField> fields = c.bands().stream().map(BandMeasurement::field).toList();
            double[] ownNats = new double[COUNT];
            double[] elsewhereNats = new double[COUNT];
            for (OrderField field : fields) {
                addLines(field, ownNats, elsewhereNats);
            }
            add(own, c.label().point(), ownNats);
            add(elsewhere, c.label().point(), elsewhereNats);
        }
    }

    private static void add(Map<String, double[]> maps, String point, double[] nats) {
        double[] sum = maps.computeIfAbsent(point, k -> new double[COUNT]);
        for (int i = 0; i < COUNT; i++) {
            double best = Double.NEGATIVE_INFINITY;
            for (int d = -REACH; d <= REACH; d++) {
                int at = Math.max(0, Math.min(COUNT - 1, i + d));
                double value = nats[at] - STEP_NATS * Math.abs(d);
                best = value > best ? value : best;
            }
            sum[i] += best;
        }
    }

    /** Adds what a band says of a line at each order, at the part's own point and elsewhere. */
    private static void addLines(OrderField field, double[] own, double[] elsewhere) {
        for (int i = 0; i < COUNT; i++) {
            double order = ORDERS[i];
            if (!field.isBlind(order, ENGINE_WANDER_RATIO * order)) {
                double odds = field.lineOdds(order, WANDER_RATIO * order);
                own[i] += Math.log(1 - SHOWS_OWN + SHOWS_OWN * odds);
                elsewhere[i] += Math.log(1 - SHOWS_ELSEWHERE + SHOWS_ELSEWHERE * odds);
            }
        }
    }

    /** What combs say for a part with an own point, for every base order, nats. */
    double[] combs(String ownPoint, Comb comb) {
        return combs.computeIfAbsent(
                comb + " " + known(ownPoint), k -> computeCombs(odds(ownPoint), comb));
    }

    private static double[] computeCombs(double[] odds, Comb comb) {
        double[] sum = new double[RhythmScan.COUNT];
        for (int k = 1; k <= comb.seen.length; k++) {
            double seen = comb.seen[k - 1];
            int shift = RhythmScan.stepsTo(k);
            for (int i = 0; i < sum.length && i + shift < COUNT; i++) {
                sum[i] += Math.log(1 - seen + seen * odds[i + shift]);
            }
        }
        return RhythmScan.overUsual(sum);
    }

    /**
     * What the lines beside those of a rhythm say, which its fault makes, nats; like a comb it is
     * held against what other base orders have beside them.
     *
     * @param ownPoint the part's own point
     * @param apart distance of these lines, orders
     * @param from first base order, an index of {@link RhythmScan}
     * @param to last base order
     * @return one number for each base order
     */
    double[] sides(String ownPoint, double apart, int from, int to) {
        double[] odds = odds(ownPoint);
        double[] out = new double[to - from + 1];
        int first = Math.max(0, from - RhythmScan.NEIGHBOURS);
        int last = Math.min(RhythmScan.COUNT - 1, to + RhythmScan.NEIGHBOURS);
        if (first > last) {
            // Beyond what is looked at, as on a part that turns very fast.
            return out;
        }
        double[] raw = new double[last - first + 1];
        for (int i = 0; i < raw.length; i++) {
            raw[i] = sidesOf(odds, RhythmScan.orderAt(first + i), apart);
        }
        RhythmScan.Usual usual = RhythmScan.Usual.of(raw.clone());
        for (int i = Math.max(from, first); i <= Math.min(to, last); i++) {
            out[i - from] = (raw[i - first] - usual.median()) / usual.spread();
        }
        return out;
    }

    private static double sidesOf(double[] odds, double order, double apart) {
        double sum = 0;
        for (int k = 1; k <= SIDE_MULTIPLES; k++) {
            for (int m = 1; m <= SIDE_SEEN.length; m++) {
                double seen = SIDE_SEEN[m - 1];
                for (int side = -1; side <= 1; side += 2) {
                    double at = k * order + side * m * apart;
                    if (at > RhythmScan.LOWEST_ORDERS && at < TOP_ORDERS) {
                        int index = Math.min(COUNT - 1, RhythmScan.indexOf(at));
                        sum += Math.log(1 - seen + seen * odds[index]);
                    }
                }
            }
        }
        return sum;
    }

    private String known(String point) {
        return own.containsKey(point) ? point : "";
    }

    /** Odds for a line of a part with an own point at every order. */
    private double[] odds(String ownPoint) {
        return odds.computeIfAbsent(known(ownPoint), this::computeOdds);
    }

    private double[] computeOdds(String ownPoint) {
        double[] line = new double[COUNT];
        for (String point : own.keySet()) {
            double[] nats = (point.equals(ownPoint) ? own : elsewhere).get(point);
            for (int i = 0; i < COUNT; i++) {
                line[i] += nats[i];
            }
        }
        for (int i = 0; i < COUNT; i++) {
            double odds = Math.exp(Math.min(100, line[i]));
            line[i] = odds / (1 - OTHERS_RATIO + OTHERS_RATIO * odds);
        }
        return line;
    }
}
