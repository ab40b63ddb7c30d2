package tickover.diagnose;

import java.util.ArrayList;
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

    /** Chance that a multiple of a rhythm that is there makes a line. */
    private static final double SEEN = 0.5;

    /** Lines wander within a capture by this share, the engine's as well. */
    private static final double WANDER_RATIO = 1.5e-3;

    /** Slip differs between captures by up to so many steps, each of which takes off so much. */
    private static final int REACH = 2;

    private static final double STEP_NATS = 0.15;

    private final Map<String, double[]> own = new LinkedHashMap<>();
    private final Map<String, double[]> elsewhere = new LinkedHashMap<>();
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
            double wander = WANDER_RATIO * order;
            if (!field.isBlind(order, wander)) {
                double odds = field.lineOdds(order, wander);
                own[i] += Math.log(1 - SHOWS_OWN + SHOWS_OWN * odds);
                elsewhere[i] += Math.log(1 - SHOWS_ELSEWHERE + SHOWS_ELSEWHERE * odds);
            }
        }
    }

    /**
     * What combs with so many lines say for a part with an own point, for every base order, nats.
     */
    double[] combs(String ownPoint, int multiples) {
        return combs.computeIfAbsent(
                multiples + " " + (own.containsKey(ownPoint) ? ownPoint : ""),
                k -> computeCombs(ownPoint, multiples));
    }

    private double[] computeCombs(String ownPoint, int multiples) {
        double[] line = new double[COUNT];
        for (String point : new ArrayList<>(own.keySet())) {
            double[] nats = (point.equals(ownPoint) ? own : elsewhere).get(point);
            for (int i = 0; i < COUNT; i++) {
                line[i] += nats[i];
            }
        }
        for (int i = 0; i < COUNT; i++) {
            double odds = Math.exp(Math.min(100, line[i]));
            double capped = odds / (1 - OTHERS_RATIO + OTHERS_RATIO * odds);
            line[i] = Math.log(1 - SEEN + SEEN * capped);
        }
        double[] sum = new double[RhythmScan.COUNT];
        for (int k = 1; k <= multiples; k++) {
            int shift = (int) Math.rint(Math.log(k) / Math.log1p(RhythmScan.STEP_RATIO));
            for (int i = 0; i < sum.length && i + shift < COUNT; i++) {
                sum[i] += line[i + shift];
            }
        }
        return RhythmScan.overUsual(sum);
    }
}
