package tickover.diagnose;

import java.util.List;
import java.util.function.ToDoubleFunction;
import tickover.drive.Engine;

/** Finds what the captures of a visit say of an injector or of the valves. */
final class TickClues {
    /** Trains of ticks that are looked at in one capture. */
    private static final int TRAINS = 2;

    private final Comparison comparison;
    private final double[] slotNats;

    TickClues(Engine engine, List<CaptureMeasurement> captures) {
        this.comparison = new Comparison(captures);
        this.slotNats = new TickOdds(engine, captures).nats();
    }

    SuspectClues of(Suspect s) {
        List<CaptureMeasurement> own = comparison.ordinaryAt(s.ownPoint());
        List<CaptureMeasurement> all = comparison.ordinary();
        List<CaptureMeasurement> where = own.isEmpty() ? all : own;
        if (where.isEmpty()) {
            return ClueFinder.unheard(s);
        }
        ToDoubleFunction<CaptureMeasurement> level = Quantities::tickDb;
        double odd = own.stream().mapToDouble(this::oddDb).average().orElse(0);
        Comparison.Place place = comparison.place(s.ownPoint(), level);
        double beltOff = comparison.beltOffDb(level);
        double injectorOff = injectorOffDb(s, level);
        int cylinder = InjectorPoint.cylinder(s.component());
        double slots = slotNats[cylinder > 0 ? cylinder - 1 : slotNats.length - 1];
        Clues clues = new Clues();
        clues.set(Clue.PRIOR, 1);
        clues.set(Clue.SLOTS, ClueFinder.clip(slots / 4, -1.5, 4));
        clues.set(Clue.PLACE, ClueFinder.clipDb(place.ownAboveDb()) / 10);
        clues.set(Clue.OUT_OF_REACH, own.isEmpty() ? 1 : 0);
        clues.set(Clue.BELT_OFF, ClueFinder.clipDb(beltOff) / 10);
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
                beltOff,
                injectorOff);
    }

    /** How far one slot of a train of ticks rises above the others, dB. */
    private double oddDb(CaptureMeasurement c) {
        double odd = 0;
        if (c.label().regime() != Regime.SWEEP) {
            for (TickTrain train : TickTrain.of(c, Math.max(2, slotNats.length - 1), TRAINS)) {
                odd = Math.max(odd, train.oddDb());
            }
        }
        return odd;
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
