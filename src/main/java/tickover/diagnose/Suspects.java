package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import tickover.drive.BearingOrders;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Engine;
import tickover.drive.PartBearing;
import tickover.drive.PartLine;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;
import tickover.drive.Role;

/**
 * Lists everything that could make the noise. Spreads are standard deviations of tape-measured
 * diameters (about 1 % for a ratio of two), of belt slip and of bearing internals; they are common
 * practice, not measurement.
 */
final class Suspects {
    /** Belts run slow by about this share. */
    static final double USUAL_SLIP_RATIO = 0.008;

    /** Rhythms are sought this many spreads to either side. */
    static final double REACH_SPREADS = 2.6;

    /** Spread of a pulley's turns per crank turn around its nominal value. */
    static final double TURN_SPREAD_RATIO = 0.011;

    /** The same once it has been measured from the shake that it makes. */
    private static final double MEASURED_TURN_SPREAD_RATIO = 0.004;

    /** Spreads of pass rates per turn of the pulley: internals off, and balls that slip. */
    private static final double GIVEN_RACE_SPREAD_RATIO = 0.006;

    private static final double TYPICAL_RACE_SPREAD_RATIO = 0.012;
    private static final double GIVEN_BALL_SPREAD_RATIO = 0.014;
    private static final double TYPICAL_BALL_SPREAD_RATIO = 0.022;

    /** What is loose lands hard every second or third turn. */
    private static final int[] KNOCKS_EVERY_TURNS = {2, 3};

    /** A belt's length from tape-measured positions is off by more than a printed one. */
    static final double BELT_SPREAD_RATIO = 0.015;

    /** Belt turns per crank turn when nothing is known of the belt's length. */
    private static final double LEAST_BELT_ORDERS = 0.15;

    private static final double MOST_BELT_ORDERS = 0.45;

    /**
     * Rates per turn of bearings of unknown internals. Accessory bearings have 6 to 13 balls, the
     * higher numbers in pump shafts, with 0.15 to 0.3 for ball over pitch diameter, seldom more.
     * Races then pass 2.0 to 5.5 (outer) and 3.6 to 7.5 (inner) times, a spot on a ball strikes 3.0
     * to 6.5 times, and the cage turns 0.34 to 0.425 times, or 0.575 to 0.66 where the outer ring
     * turns. From the formulas, rounded, for the sizes that are in use by common practice.
     */
    private static final Rates USUAL =
            new Rates(
                    new Range(2.0, 5.5),
                    new Range(3.6, 7.5),
                    new Range(3.0, 6.5),
                    new Range(0.34, 0.425));

    /**
     * The same with the double-row bearings of air-conditioning pulleys: up to 14 balls in a row,
     * with 0.12 and more for ball over pitch diameter.
     */
    private static final Rates AIR_CONDITIONING =
            new Rates(
                    new Range(2.0, 6.4),
                    new Range(3.6, 8.4),
                    new Range(3.0, 8.5),
                    new Range(0.34, 0.455));

    private record Rates(Range outer, Range inner, Range ball, Range cage) {
        static Rates of(Role role) {
            return role == Role.COMPRESSOR ? AIR_CONDITIONING : USUAL;
        }
    }

    /** Where what is in the engine itself is strongest, as far as a probe gets. */
    static final String BLOCK = "block";

    private record Range(double from, double to) {
        /** The cage's range where the other ring turns. */
        Range fromOtherRing() {
            return new Range(1 - to, 1 - from);
        }
    }

    private final List<Suspect> list = new ArrayList<>();

    private Suspects() {}

    static List<Suspect> of(DriveModel drive) {
        Suspects s = new Suspects();
        for (DrivePart part : drive.parts()) {
            s.pulley(part);
        }
        for (DriveBelt belt : drive.belts()) {
            s.belt(belt);
        }
        s.engine(drive.vehicle().engine());
        s.outside(drive.vehicle().engine());
        return List.copyOf(s.list);
    }

    private void pulley(DrivePart part) {
        double turn = part.turnsPerCrankTurn();
        String name = part.name();
        boolean crank = part.role() == Role.CRANK;
        if (!crank) {
            boolean measured = TurnFinder.isMeasured(part);
            double spread = measured ? MEASURED_TURN_SPREAD_RATIO : TURN_SPREAD_RATIO;
            Suspect.Rhythm once = rhythm(part, turn, spread, List.of());
            add(name, Fault.ECCENTRIC, FaultGroup.ECCENTRIC, "", name, once);
            for (int every : KNOCKS_EVERY_TURNS) {
                add(
                        name,
                        Fault.LOOSE,
                        FaultGroup.LOOSE,
                        "every " + every + " turns",
                        name,
                        rhythm(part, turn / every, spread, List.of()));
            }
            add(name, Fault.BEARING_ROUGH, FaultGroup.ROUGH, "", name, once);
            for (PartBearing bearing : part.bearings()) {
                bearing(part, bearing);
            }
            int unknown = 0;
            for (PulleyBearing b : part.pulley().bearings()) {
                unknown += isUnknown(part, b) ? 1 : 0;
            }
            if (unknown > 0 || part.pulley().bearings().isEmpty()) {
                unknownBearing(part);
            }
        }
    }

    private static boolean isUnknown(DrivePart part, PulleyBearing bearing) {
        if (bearing.geometry().isPresent()) {
            return false;
        }
        return bearing.designation().isEmpty()
                || part.bearings().stream()
                        .noneMatch(b -> b.label().contains(bearing.designation().get()));
    }

    private void bearing(DrivePart part, PartBearing bearing) {
        double turn = part.turnsPerCrankTurn();
        BearingOrders per = bearing.orders();
        boolean outerTurns = bearing.turningRing() == Ring.OUTER;
        double turnSpread =
                TurnFinder.isMeasured(part) ? MEASURED_TURN_SPREAD_RATIO : TURN_SPREAD_RATIO;
        double race =
                Math.hypot(
                        turnSpread,
                        bearing.typical() ? TYPICAL_RACE_SPREAD_RATIO : GIVEN_RACE_SPREAD_RATIO);
        double ball =
                Math.hypot(
                        turnSpread,
                        bearing.typical() ? TYPICAL_BALL_SPREAD_RATIO : GIVEN_BALL_SPREAD_RATIO);
        List<Double> byTurn = List.of(turn);
        List<Double> byCage = List.of(turn * per.cageOrder());
        line(
                part,
                bearing,
                Fault.BEARING_OUTER_RING,
                rhythm(part, turn * per.outerRaceOrder(), race, outerTurns ? byTurn : List.of()));
        line(
                part,
                bearing,
                Fault.BEARING_INNER_RING,
                rhythm(part, turn * per.innerRaceOrder(), race, outerTurns ? List.of() : byTurn));
        line(
                part,
                bearing,
                Fault.ROLLING_ELEMENT,
                rhythm(part, turn * 2 * per.ballSpinOrder(), ball, byCage));
        line(part, bearing, Fault.CAGE, rhythm(part, turn * per.cageOrder(), race, List.of()));
    }

    /** A belt's slip is part of a measured speed already, but not of one from diameters. */
    private static Suspect.Rhythm rhythm(
            DrivePart part, double nominalOrders, double spreadRatio, List<Double> sidebands) {
        double slip = TurnFinder.isMeasured(part) ? 0 : USUAL_SLIP_RATIO;
        return Suspect.Rhythm.around(nominalOrders * (1 - slip), spreadRatio, sidebands);
    }

    private void line(DrivePart part, PartBearing bearing, Fault fault, Suspect.Rhythm rhythm) {
        add(part.name(), fault, FaultGroup.BEARING_LINE, bearing.label(), part.name(), rhythm);
    }

    private void unknownBearing(DrivePart part) {
        double turn = part.turnsPerCrankTurn();
        boolean outerTurns =
                part.pulley().bearings().isEmpty()
                        ? part.role() == Role.IDLER || part.role() == Role.TENSIONER
                        : part.pulley().bearings().get(0).turningRing() == Ring.OUTER;
        Rates rates = Rates.of(part.role());
        Range cage = outerTurns ? rates.cage.fromOtherRing() : rates.cage;
        List<Double> byTurn = List.of(turn);
        List<Double> byCage = List.of(turn * Math.sqrt(cage.from * cage.to));
        unknownLine(part, Fault.BEARING_OUTER_RING, rates.outer, outerTurns ? byTurn : List.of());
        unknownLine(part, Fault.BEARING_INNER_RING, rates.inner, outerTurns ? List.of() : byTurn);
        unknownLine(part, Fault.ROLLING_ELEMENT, rates.ball, byCage);
        unknownLine(part, Fault.CAGE, cage, List.of());
    }

    private void unknownLine(DrivePart part, Fault fault, Range range, List<Double> sidebands) {
        add(
                part.name(),
                fault,
                FaultGroup.UNKNOWN_BEARING,
                "bearing of unknown internals",
                part.name(),
                wide(part.turnsPerCrankTurn(), range, sidebands));
    }

    private static Suspect.Rhythm wide(double turn, Range range, List<Double> sidebands) {
        double from = turn * range.from;
        double to = turn * range.to;
        return new Suspect.Rhythm(
                from, to, Math.sqrt(from * to), Math.log(to / from) / 2, sidebands);
    }

    private void belt(DriveBelt belt) {
        Suspect.Rhythm rhythm =
                belt.order().isPresent()
                        ? Suspect.Rhythm.around(
                                belt.order().getAsDouble(), BELT_SPREAD_RATIO, List.of())
                        : new Suspect.Rhythm(
                                LEAST_BELT_ORDERS,
                                MOST_BELT_ORDERS,
                                Math.sqrt(LEAST_BELT_ORDERS * MOST_BELT_ORDERS),
                                0.5,
                                List.of());
        add(DriveBelt.partName(belt.name()), Fault.BELT_DAMAGE, FaultGroup.BELT, "", "", rhythm);
    }

    private void engine(Engine engine) {
        double cycle = engine.cycleOrder();
        Suspect.Rhythm rhythm = new Suspect.Rhythm(cycle, cycle, cycle, 1e-6, List.of());
        for (int i = 1; i <= engine.cylinders(); i++) {
            String name = "injector-" + i;
            add(name, Fault.TICK, FaultGroup.INJECTOR_TICK, "", name, rhythm);
        }
        add(
                "valve-train",
                Fault.TICK,
                FaultGroup.VALVE_TICK,
                "",
                InjectorPoint.VALVE_COVER,
                rhythm);
    }

    /**
     * What is outside the belt drive and no tick of an injector or a valve: bearings on shafts that
     * turn with the crank, as at the gearbox, twice as fast, as balance shafts do, or with the
     * working cycle, as what a camshaft drives; and a cylinder that knocks. Nobody hands in their
     * internals.
     */
    private void outside(Engine engine) {
        double cycle = engine.cycleOrder();
        shaft("a shaft that turns with the crank", 1);
        shaft("a shaft that turns twice as fast as the crank", 2);
        if (cycle < 1) {
            shaft("a shaft that turns with the camshaft", cycle);
        }
        add(
                PartLine.ENGINE,
                Fault.UNSPECIFIED,
                FaultGroup.ENGINE_KNOCK,
                "",
                BLOCK,
                new Suspect.Rhythm(cycle, cycle, cycle, 1e-6, List.of()));
    }

    private void shaft(String words, double turn) {
        shaftLine(words, turn, USUAL.outer, List.of());
        shaftLine(words, turn, USUAL.inner, List.of(turn));
    }

    private void shaftLine(String words, double turn, Range range, List<Double> sidebands) {
        add(
                PartLine.ENGINE,
                Fault.UNSPECIFIED,
                FaultGroup.ENGINE_BEARING,
                words,
                BLOCK,
                wide(turn, range, sidebands));
    }

    private void add(
            String component,
            Fault fault,
            FaultGroup group,
            String detail,
            String ownPoint,
            Suspect.Rhythm rhythm) {
        list.add(new Suspect(component, fault, group, detail, ownPoint, rhythm));
    }
}
