package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import tickover.drive.Engine;

/**
 * Which cylinder's injector ticks louder than it should, by the angles at which the ticks come.
 *
 * <p>All injectors tick alike, one firing apart, in the firing order. A capture's mean cycle gives
 * the strength in every slot; which slot is which cylinder is unknown, because nothing marks the
 * first cylinder, so all turns of the firing order stay possible for each capture. At one injector
 * its own tick is the loudest and the others' fall off with the distance, the same at each: an
 * injector that is too loud breaks that pattern, at its own point by its level and at the others by
 * its slot. An unplugged injector's slot is silent. A train may also come from one place, firing or
 * valves, and is then alike at every point; one loud slot in such a train is a valve's.
 *
 * <p>Each band is judged by itself, for each has its own loudest train and its own levels; as they
 * hear the same knocks by the same ways, their odds together count for {@value #BANDS_SHARE}.
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

    /** Chance that the strongest train is that of the injectors rather than of firing or valves. */
    private static final double INJECTOR_SHARE = 0.5;

    /** Scatter of a slot's level around the pattern: injectors, ways and noise. */
    private static final double SCATTER_DB = 4.0;

    /** Scatter of the slots of a train that comes from one place. */
    private static final double FLAT_SCATTER_DB = 2.0;

    /** What one touch and the way to its point do to all slots alike, dB: spread and reach. */
    private static final double GAIN_SPREAD_DB = 5;

    private static final int GAIN_REACH_STEPS = 5;

    /** Chance and scatter of a slot that something else disturbs. */
    private static final double ODD_CHANCE = 0.05;

    private static final double ODD_SCATTER_DB = 12;

    /** By how much an injector or a valve at fault is louder, dB. */
    private static final double[] LOUDER_DB = {6, 9, 12, 15, 18};

    /** Chance that a train of one place is that of the valves, so that a loud valve shows in it. */
    private static final double VALVE_SHARE = 0.5;

    /** Chance that one slot of such a train is louder for another reason. */
    private static final double CHANCE_SHARE = 0.15;

    /** What the bands say together counts for so much of their sum; from the tuning visits. */
    private static final double BANDS_SHARE = 0.5;

    private static final double LEVEL_STEP_DB = 2;
    private static final int LEVEL_STEPS = 17;

    /** The injectors' own level is at most this far above the strongest slot, dB. */
    private static final double LEVEL_ABOVE_DB = 4;

    private static final double NEPERS_PER_DB = Math.log(10) / 10;

    private final int cylinders;
    private final List<Integer> order;

    /** The trains of each band, by its lower edge. */
    private final Map<Double, List<Slots>> bands = new TreeMap<>();

    /** One train's levels, slot by slot in firing order, dB; with the least that can be seen. */
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
                for (BandMeasurement band : c.bands()) {
                    if (Quantities.isRinging(c, band)) {
                        bands.computeIfAbsent(band.loHz(), hz -> new ArrayList<>())
                                .add(slots(c, TickTrain.loudest(band.cycle(), cylinders)));
                    }
                }
            }
        }
    }

    private static Slots slots(CaptureMeasurement c, TickTrain train) {
        double[] db = new double[train.peaks().length];
        Arrays.setAll(db, i -> 10 * Math.log10(train.peaks()[i]));
        return new Slots(
                c.label().point(),
                c.label().condition().injectorOff().orElse(0),
                db,
                10 * Math.log10(train.floor()));
    }

    /**
     * Logarithm of the odds for each injector ticking too loud, against none doing so, nats; index
     * 0 for cylinder 1. The last is that for a valve.
     */
    double[] nats() {
        double[] out = new double[Math.max(0, cylinders) + 1];
        for (List<Slots> captures : bands.values()) {
            double[] one = new OneBand(captures).nats();
            for (int i = 0; i < out.length; i++) {
                out[i] += BANDS_SHARE * one[i];
            }
        }
        return out;
    }

    /** The trains of one band in all captures. */
    private final class OneBand {
        private final List<Slots> captures;
        private final double topDb;

        OneBand(List<Slots> captures) {
            this.captures = captures;
            this.topDb =
                    captures.stream()
                            .flatMapToDouble(s -> Arrays.stream(s.levelDb))
                            .max()
                            .orElseThrow();
        }

        double[] nats() {
            double[] out = new double[cylinders + 1];
            double[] usual = flat(CHANCE_SHARE);
            double healthy = overLevels(0, 0, usual);
            double[] louder = new double[LOUDER_DB.length];
            for (int c = 1; c <= cylinders; c++) {
                for (int i = 0; i < louder.length; i++) {
                    louder[i] = overLevels(c, LOUDER_DB[i], usual);
                }
                out[c - 1] = meanOfExponentials(louder) - healthy;
            }
            out[cylinders] = overLevels(0, 0, flat(VALVE_SHARE)) - healthy;
            return out;
        }

        /**
         * Log-likelihood of every train if it comes from one place, one slot of it perhaps louder.
         */
        private double[] flat(double louderShare) {
            return captures.stream().mapToDouble(s -> flat(s, louderShare)).toArray();
        }

        private double flat(Slots s, double louderShare) {
            double[] byLevel = new double[LEVEL_STEPS];
            double[] loud = new double[cylinders * LOUDER_DB.length];
            for (int i = 0; i < byLevel.length; i++) {
                double usualDb = withFloor(levelDb(i), s.floorDb);
                double even = 0;
                for (double db : s.levelDb) {
                    even += logDensity(db - usualDb, FLAT_SCATTER_DB);
                }
                for (int l = 0; l < LOUDER_DB.length; l++) {
                    double louderDb = withFloor(levelDb(i) + LOUDER_DB[l], s.floorDb);
                    for (int k = 0; k < cylinders; k++) {
                        loud[l * cylinders + k] =
                                even
                                        - logDensity(s.levelDb[k] - usualDb, FLAT_SCATTER_DB)
                                        + logDensity(s.levelDb[k] - louderDb, FLAT_SCATTER_DB);
                    }
                }
                byLevel[i] = mix(louderShare, meanOfExponentials(loud), even);
            }
            return meanOfExponentials(byLevel);
        }

        /** Log-likelihood of all captures, the injectors' own strength being unknown. */
        private double overLevels(int loud, double louderDb, double[] flat) {
            int reach = GAIN_REACH_STEPS;
            double[] out = new double[LEVEL_STEPS];
            for (int c = 0; c < captures.size(); c++) {
                double[] atLevel = new double[LEVEL_STEPS + 2 * reach];
                for (int i = 0; i < atLevel.length; i++) {
                    atLevel[i] = pattern(captures.get(c), levelDb(i - reach), loud, louderDb);
                }
                for (int i = 0; i < out.length; i++) {
                    out[i] += mix(INJECTOR_SHARE, overGains(atLevel, i), flat[c]);
                }
            }
            return meanOfExponentials(out);
        }

        /**
         * Log-likelihood of a train as one of injectors of a level, every turn of the order
         * possible.
         */
        private double pattern(Slots s, double levelDb, int loud, double louderDb) {
            double[] expected = new double[cylinders + 1];
            for (int cylinder = 1; cylinder <= cylinders; cylinder++) {
                double own =
                        levelDb - lossDb(s.point, cylinder) + (cylinder == loud ? louderDb : 0);
                expected[cylinder] =
                        cylinder == s.unplugged ? s.floorDb : withFloor(own, s.floorDb);
            }
            double[] cases = new double[cylinders];
            for (int turn = 0; turn < cylinders; turn++) {
                for (int slot = 0; slot < cylinders; slot++) {
                    int cylinder = order.get((slot + turn) % cylinders);
                    cases[turn] += logDensity(s.levelDb[slot] - expected[cylinder], SCATTER_DB);
                }
            }
            return meanOfExponentials(cases);
        }

        private double levelDb(int step) {
            return topDb + LEVEL_ABOVE_DB - LEVEL_STEP_DB * (LEVEL_STEPS - 1 - step);
        }
    }

    /** Over what a touch and its way may do to all slots alike. */
    private static double overGains(double[] atLevel, int level) {
        double[] cases = new double[2 * GAIN_REACH_STEPS + 1];
        double weights = 0;
        for (int g = 0; g < cases.length; g++) {
            double off = (g - GAIN_REACH_STEPS) * LEVEL_STEP_DB / GAIN_SPREAD_DB;
            weights += Math.exp(-off * off / 2);
            cases[g] = atLevel[level + g] - off * off / 2;
        }
        return meanOfExponentials(cases) + Math.log(cases.length / weights);
    }

    private static double withFloor(double levelDb, double floorDb) {
        return Math.log(Math.exp(levelDb * NEPERS_PER_DB) + Math.exp(floorDb * NEPERS_PER_DB))
                / NEPERS_PER_DB;
    }

    private static double mix(double share, double a, double b) {
        double top = Math.max(a, b);
        return top + Math.log(share * Math.exp(a - top) + (1 - share) * Math.exp(b - top));
    }

    private static double logDensity(double offDb, double scatterDb) {
        double near = offDb / scatterDb;
        double far = offDb / ODD_SCATTER_DB;
        return Math.log(
                (1 - ODD_CHANCE) / scatterDb * Math.exp(-near * near / 2)
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
