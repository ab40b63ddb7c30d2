package tickover.drive;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Turns per crank turn of every pulley, found by following belts outward from the crank.
 *
 * <p>All pulleys on one belt share its speed at the pitch line, so turns go as 1/diameter. A belt
 * that does not touch the crank is driven by the pulley it shares with one that does. A pulley on
 * no such belt is taken to be driven by the first crank pulley: its diameter still counts.
 */
final class DriveSpeeds {
    private final Vehicle vehicle;
    private final double beltSlipRatio;
    private final Pulley crank;
    private final Map<String, PulleySpeed> speeds = new HashMap<>();
    private final Map<String, Pulley> drivers = new HashMap<>();
    private final List<String> notes = new ArrayList<>();

    DriveSpeeds(Vehicle vehicle, double beltSlipRatio) {
        this.vehicle = vehicle;
        this.beltSlipRatio = beltSlipRatio;
        this.crank =
                vehicle.crankPulley()
                        .orElseThrow(
                                () ->
                                        new IllegalArgumentException(
                                                "vehicle "
                                                        + vehicle.unit()
                                                        + " has no pulley with role=crank, need"
                                                        + " one with its diameter_mm because every"
                                                        + " speed is relative to it"));
        for (Pulley p : vehicle.pulleys()) {
            if (p.role() == Role.CRANK) {
                speeds.put(p.name(), PulleySpeed.OF_CRANK);
            }
        }
        followBelts();
        fillFromDiameters();
        noteContradictions();
    }

    private void followBelts() {
        List<Belt> open = new ArrayList<>(vehicle.belts());
        while (true) {
            Optional<Belt> next =
                    open.stream()
                            .filter(b -> driver(b).isPresent())
                            .min(Comparator.comparingInt(b -> of(driver(b).get()).belts()));
            if (next.isEmpty()) {
                break;
            }
            Belt belt = next.get();
            Pulley driver = driver(belt).get();
            drivers.put(belt.name(), driver);
            for (String stop : belt.path()) {
                Pulley driven = vehicle.pulley(stop).orElseThrow();
                speeds.computeIfAbsent(stop, s -> of(driver).across(driver, driven, beltSlipRatio));
            }
            open.remove(belt);
        }
        for (Belt belt : open) {
            if (!belt.path().isEmpty()) {
                notes.add(
                        "belt "
                                + belt.name()
                                + " touches neither the crank nor a pulley that another belt"
                                + " drives; its pulleys' turns come from their diameters alone");
            }
            drivers.put(belt.name(), crank);
        }
    }

    private void fillFromDiameters() {
        PulleySpeed crankSpeed = speeds.get(crank.name());
        for (Pulley p : vehicle.pulleys()) {
            speeds.computeIfAbsent(p.name(), name -> crankSpeed.across(crank, p, beltSlipRatio));
        }
    }

    private void noteContradictions() {
        for (Belt belt : vehicle.belts()) {
            Pulley driver = drivers.get(belt.name());
            for (String stop : belt.path()) {
                Pulley p = vehicle.pulley(stop).orElseThrow();
                double byBelt = of(driver).turnsPerCrankTurn() * driver.diameterMm();
                double byPulley = of(p).turnsPerCrankTurn() * p.diameterMm();
                if (Math.abs(byBelt / byPulley - 1) > beltSlipRatio) {
                    notes.add(
                            String.format(
                                    Locale.ROOT,
                                    "belt %s would turn pulley %s %.4f times per crank turn, which"
                                            + " already turns %.4f times; check diameters"
                                            + " and paths",
                                    belt.name(),
                                    stop,
                                    byBelt / p.diameterMm(),
                                    of(p).turnsPerCrankTurn()));
                }
            }
        }
    }

    /** The stop of a path that turns already, nearest to the crank, first in path order. */
    private Optional<Pulley> driver(Belt belt) {
        return belt.path().stream()
                .map(stop -> vehicle.pulley(stop).orElseThrow())
                .filter(p -> speeds.containsKey(p.name()))
                .min(Comparator.comparingInt(p -> of(p).belts()));
    }

    PulleySpeed of(Pulley pulley) {
        return speeds.get(pulley.name());
    }

    /** Belt travel per crank turn at the pitch line. */
    double travelMm(Belt belt) {
        Pulley driver = drivers.get(belt.name());
        return Math.PI * driver.diameterMm() * of(driver).turnsPerCrankTurn();
    }

    List<String> notes() {
        return List.copyOf(notes);
    }
}
