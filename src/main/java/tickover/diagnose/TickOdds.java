package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import tickover.drive.Engine;

/**
 * Which cylinder's injector ticks louder than it should, by the angles at which the ticks come.
 *
 * <p>All injectors tick alike, one firing apart, in the firing order. A capture's mean cycle gives
 * the strength in every slot; which slot is which cylinder is unknown, because nothing marks the
 * first cylinder, so all turns of the firing order stay possible for each capture. At one injector
 * its own tick is the loudest and the others' fall off with the distance, the same at each: an
 * injector that is too loud breaks that pattern, at its own point by its level and at the others by
 * its slot. An unplugged injector's slot is silent.
 */
final class TickOdds {
    /** Firing orders in use, for engines whose order is not given; from memory. */
    private static final Map<Integer, List<Integer>> USUAL_ORDERS =
            Map.of(
                    3, List.of(1, 3, 2),
                    4, List.of(1, 3, 4, 2),
                    5, List.of(1, 2, 4, 5, 3),
                    6, List.of(1, 5, 3, 6, 2, 4),
                    8, List.of(1, 8, 4, 3, 6, 5, 7, 2));

    private static final double TO_FRONT_MM = 400;

    /** Scatter of a slot's level around the pattern: injectors, ways and noise. */
    private static final double SCATTER_DB = 3.0;

    /** What one touch and the way to its point do to all slots alike, dB, and its spread. */
    private static final double[] GAINS_DB = {-10, -6, -3, 0, 3, 6, 10};

    private static final double GAIN_SPREAD_DB = 5;

    /** Chance and scatter of a slot that something else disturbs. */
    private static final double ODD_CHANCE = 0.05;

    private static final double ODD_SCATTER_DB = 12;

    /** By how much an injector at fault is louder, dB. */
    private static final double[] LOUDER_DB = {6, 9, 12, 15, 18};

    private static final double LEVEL_STEP_DB = 2;
    private static final double LEVEL_REACH_DB = 16;

    private static final double NEPERS_PER_DB = Math.log(10) / 10;

    private final int cylinders;
    private final List<Integer> order;
    private final List<Slots> captures = new ArrayList<>();

    /** One capture's levels, slot by slot in firing order, dB; with the least that can be seen. */
    @SuppressWarnings("ArrayRecordComponent") // never leaves this class
    private record Slots(String point, int unplugged, double[] levelDb, double floorDb) {}

    TickOdds(Engine engine, List<CaptureMeasurement> measured) {
        this.cylinders = (int) Math.rint(engine.firingOrders() / engine.cycleOrder());
        List<Integer> plain = new ArrayList<>();
        for (int c = 1; c <= cylinders; c++) {
            plain.add(c);
        }
        List<Integer> given = engine.firingOrder();
        this.order =
                given.size() == cylinders ? given : USUAL_ORDERS.getOrDefault(cylinders, plain);
        for (CaptureMeasurement c : measured) {
            if (c.label().regime() != Regime.SWEEP && cylinders > 1) {
                captures.add(slots(c));
            }
        }
    }

    private Slots slots(CaptureMeasurement c) {
        TickTrain train = TickTrain.loudest(c, cylinders);
        double[] db = new double[cylinders];
        Arrays.setAll(db, i -> 10 * Math.log10(train.peaks()[i]));
        return new Slots(
                c.label().point(),
                c.label().condition().injectorOff().orElse(0),
                db,
                10 * Math.log10(train.floor()));
    }

    /**
     * Logarithm of the odds for each injector ticking too loud, against none doing so, nats; index
     * 0 for cylinder 1.
     */
    double[] nats() {
        double[] out = new double[Math.max(0, cylinders)];
        if (captures.isEmpty()) {
            return out;
        }
        double top = Double.NEGATIVE_INFINITY;
        for (Slots s : captures) {
            for (double db : s.levelDb) {
                top = Math.max(top, db);
            }
        }
        double healthy = overLevels(0, 0, top);
        for (int c = 1; c <= cylinders; c++) {
            double[] louder = new double[LOUDER_DB.length];
            for (int i = 0; i < louder.length; i++) {
                louder[i] = overLevels(c, LOUDER_DB[i], top);
            }
            out[c - 1] = meanOfExponentials(louder) - healthy;
        }
        return out;
    }

    /** Log-likelihood of all captures, the injectors' own strength being unknown. */
    private double overLevels(int loud, double louderDb, double topDb) {
        int steps = (int) (2 * LEVEL_REACH_DB / LEVEL_STEP_DB) + 1;
        double[] out = new double[steps];
        for (int i = 0; i < steps; i++) {
            double levelDb = topDb - 2 * LEVEL_REACH_DB + 4 + LEVEL_STEP_DB * i;
            for (Slots s : captures) {
                out[i] += logLikelihood(s, levelDb, loud, louderDb);
            }
        }
        return meanOfExponentials(out);
    }

    private double logLikelihood(Slots s, double levelDb, int loud, double louderDb) {
        double[] cases = new double[cylinders * GAINS_DB.length];
        double floor = Math.pow(10, s.floorDb / 10);
        for (int g = 0; g < GAINS_DB.length; g++) {
            double off = GAINS_DB[g] / GAIN_SPREAD_DB;
            for (int turn = 0; turn < cylinders; turn++) {
                double sum = -off * off / 2;
                for (int slot = 0; slot < cylinders; slot++) {
                    int cylinder = order.get((slot + turn) % cylinders);
                    double expectedDb =
                            levelDb
                                    + GAINS_DB[g]
                                    - lossDb(s.point, cylinder)
                                    + (cylinder == loud ? louderDb : 0);
                    double power =
                            cylinder == s.unplugged ? 0 : Math.exp(expectedDb * NEPERS_PER_DB);
                    sum += logDensity(s.levelDb[slot] - Math.log(power + floor) / NEPERS_PER_DB);
                }
                cases[g * cylinders + turn] = sum;
            }
        }
        return meanOfExponentials(cases);
    }

    private static double logDensity(double offDb) {
        double near = offDb / SCATTER_DB;
        double far = offDb / ODD_SCATTER_DB;
        return Math.log(
                (1 - ODD_CHANCE) / SCATTER_DB * Math.exp(-near * near / 2)
                        + ODD_CHANCE / ODD_SCATTER_DB * Math.exp(-far * far / 2)
                        + 1e-6);
    }

    private static double lossDb(String point, int cylinder) {
        int at = InjectorPoint.cylinder(point);
        double apart =
                at > 0
                        ? WayLoss.CYLINDER_APART_MM * Math.abs(at - cylinder)
                        : point.equals(InjectorPoint.VALVE_COVER)
                                ? WayLoss.COVER_TO_INJECTOR_MM
                                : TO_FRONT_MM;
        return WayLoss.lossDb(apart);
    }

    private static double meanOfExponentials(double[] logs) {
        double top = Arrays.stream(logs).max().orElse(0);
        double sum = 0;
        for (double x : logs) {
            sum += Math.exp(x - top);
        }
        return top + Math.log(sum / logs.length);
    }
}
