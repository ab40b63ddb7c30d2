package tickover.diagnose;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import tickover.drive.Engine;

/** Finds what the captures of a visit say of an injector or of the valves. */
final class TickClues {
    /**
     * A lead of one cylinder over the others that an engine with a tick and one without may have
     * alike, dB: away from the head, which all cylinders are about as far from, and on the head,
     * where one is nearest. The middles of tuning visits are 10 with and 3 without, 12 and 5.
     */
    private static final double UNDECIDED_FAR_DB = 6;

    private static final double UNDECIDED_NEAR_DB = 9;

    private static final double ODD_UNIT_DB = 5;

    /** The slots count for so much at most; from the tuning visits. */
    private static final double MOST_SLOT_NATS = 8;

    private final Comparison comparison;
    private final double[] slotNats;

    /** For every steady capture how far one cylinder stands out in it. */
    private final Map<CaptureMeasurement, Double> oddDb = new LinkedHashMap<>();

    /** How much further in dull bands than in sharp ones. */
    private final Map<CaptureMeasurement, Double> dullDb = new LinkedHashMap<>();

    TickClues(Engine engine, List<CaptureMeasurement> captures) {
        this.comparison = new Comparison(captures);
        this.slotNats = heldBack(new TickOdds(engine, captures).nats());
        int cylinders = Math.max(2, slotNats.length - 1);
        for (CaptureMeasurement c : comparison.ordinary()) {
            if (c.label().regime() != Regime.SWEEP) {
                oddDb.put(c, TickTrain.oddDb(c, cylinders));
                dullDb.put(c, TickTrain.dullDb(c, cylinders));
            }
        }
    }

    /**
     * Bounds how sure the slots are that something ticks, but not which it is: what is over the
     * bound is taken off all alike.
     */
    static double[] heldBack(double[] nats) {
        double over = Math.max(0, Arrays.stream(nats).max().orElse(0) - MOST_SLOT_NATS);
        return Arrays.stream(nats).map(n -> n - over).toArray();
    }

    SuspectClues of(Suspect s) {
        List<CaptureMeasurement> own = comparison.ordinaryAt(s.ownPoint());
        List<CaptureMeasurement> all = comparison.ordinary();
        List<CaptureMeasurement> where = own.isEmpty() ? all : own;
        if (where.isEmpty()) {
            return ClueFinder.unheard(s);
        }
        ToDoubleFunction<CaptureMeasurement> level = Quantities::tickDb;
        double odd =
                where.stream()
                        .filter(oddDb::containsKey)
                        .mapToDouble(oddDb::get)
                        .average()
                        .orElse(0);
        Comparison.Place place = comparison.place(s.ownPoint(), level);
        OptionalDouble beltOff = comparison.beltOffDb(level);
        double injectorOff = injectorOffDb(s, level);
        int cylinder = InjectorPoint.cylinder(s.component());
        double slots = slotNats[cylinder > 0 ? cylinder - 1 : slotNats.length - 1];
        Clues clues = new Clues();
        clues.set(Clue.PRIOR, 1);
        clues.set(Clue.SLOTS, Math.max(-1.5, slots / 4));
        clues.set(Clue.ODD, odd(false, UNDECIDED_FAR_DB));
        clues.set(Clue.DULL, ClueFinder.clip(meanDullDb() / ODD_UNIT_DB, -2, 2));
        clues.set(Clue.ODD_NEAR, odd(true, UNDECIDED_NEAR_DB));
        clues.set(Clue.PLACE, ClueFinder.clipDb(place.ownAboveDb()) / 10);
        clues.set(Clue.OUT_OF_REACH, own.isEmpty() ? 1 : 0);
        clues.set(Clue.BELT_OFF, ClueFinder.beltOffClue(beltOff));
        clues.set(Clue.INJECTOR_OFF, ClueFinder.clipDb(injectorOff) / 10);
        clues.set(
                Clue.LEVEL,
                ClueFinder.levelClue(s, where.stream().mapToDouble(level).average().orElse(0)));
        return new SuspectClues(
                s,
                clues,
                s.rhythm().centreOrders(),
                odd,
                place.ownAboveDb(),
                place.rivalPoint(),
                0,
                beltOff.orElse(0),
                injectorOff);
    }

    private double meanDullDb() {
        return dullDb.values().stream().mapToDouble(Double::doubleValue).average().orElse(0);
    }

    /** How far one cylinder stands out, mean over points on the head or away from it, dB. */
    private double meanOddDb(boolean onHead, double undecidedDb) {
        return oddDb.entrySet().stream()
                .filter(e -> isOnHead(e.getKey().label().point()) == onHead)
                .mapToDouble(Map.Entry::getValue)
                .average()
                .orElse(undecidedDb);
    }

    private double odd(boolean onHead, double undecidedDb) {
        return ClueFinder.clip((meanOddDb(onHead, undecidedDb) - undecidedDb) / ODD_UNIT_DB, -1, 2);
    }

    private static boolean isOnHead(String point) {
        return InjectorPoint.cylinder(point) > 0 || point.equals(InjectorPoint.VALVE_COVER);
    }

    private double injectorOffDb(Suspect s, ToDoubleFunction<CaptureMeasurement> levelDb) {
        int number = InjectorPoint.cylinder(s.component());
        if (number == 0) {
            return 0;
        }
        return comparison
                .differenceDb(
                        l -> l.condition().injectorOff().isEmpty(),
                        l -> l.condition().injectorOff().orElse(0) == number,
                        l -> l.condition().withInjectorOff(number).toString(),
                        levelDb)
                .orElse(0);
    }
}
