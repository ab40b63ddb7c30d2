package tickover.sim;

import java.util.ArrayList;
import java.util.List;
import tickover.drive.PassLine;
import tickover.drive.Role;

/**
 * The noise of a belt-driven part: normal run-out, slots, vanes and rolling noise, mild lines of
 * healthy bearings, sometimes a loud but harmless whine, and the fault if it is this part's.
 */
final class PartSound {
    private final TrueDrive drive;
    private final Draw draw;
    private final Trouble trouble;

    /**
     * Draws the parts' noise.
     *
     * @param drive the drive
     * @param draw draws of this vehicle
     * @param trouble what is wrong with it
     */
    PartSound(TrueDrive drive, Draw draw, Trouble trouble) {
        this.drive = drive;
        this.draw = draw;
        this.trouble = trouble;
    }

    /** A pulley and all that it does. */
    Place place(TruePulley pulley) {
        Draw own = draw.branch(pulley.name());
        boolean crank = pulley.role() == Role.CRANK;
        List<Shaker> shakers = new ArrayList<>();
        shakers.add(tones(pulley, own.branch("tones")));
        if (pulley.role() == Role.COMPRESSOR) {
            shakers.add(pistons(pulley, own.branch("pistons")));
        }
        if (!crank) {
            shakers.add(rolling(pulley, own.branch("rolling")));
            mildLines(pulley, own.branch("mild"), shakers);
        }
        addFault(pulley, own.branch("fault"), shakers);
        addSpan(pulley, own.branch("span"), shakers);
        return new Place(
                pulley.name(),
                pulley.site(),
                modes(own.branch("modes")),
                driveOf(pulley, own),
                shakers);
    }

    private Place.PlaceDrive driveOf(TruePulley pulley, Draw own) {
        boolean crank = pulley.role() == Role.CRANK;
        boolean guide = pulley.role() == Role.IDLER || pulley.role() == Role.TENSIONER;
        double slip =
                crank ? 0 : guide ? own.logBetween(0.002, 0.006) : own.logBetween(0.003, 0.013);
        boolean decoupled = pulley.role() == Role.ALTERNATOR && own.chance(0.5);
        double share = crank ? 1 : decoupled ? own.between(0.02, 0.15) : own.between(0.4, 0.95);
        return new Place.PlaceDrive(
                drive.turnsPerCrankTurn(pulley),
                slip,
                new LoadGain(pulley.role(), 1, own.between(0.1, 0.6)),
                share,
                !crank);
    }

    /** A ring or housing has resonances at 2 to 10 kHz and answers more weakly at lower ones. */
    static List<Mode> modes(Draw own) {
        double first = own.between(2000, 4200);
        return List.of(
                new Mode(first, own.logBetween(0.01, 0.05), 1),
                new Mode(first * own.between(1.4, 2.3), own.logBetween(0.01, 0.05), 0.7),
                new Mode(
                        own.between(500, 1500), own.logBetween(0.02, 0.06), own.between(0.1, 0.4)));
    }

    private static Tones tones(TruePulley pulley, Draw own) {
        AngleTable table = new AngleTable();
        double runOut = own.logBetween(0.015, 0.12);
        for (int k = 1; k <= 4; k++) {
            table.add(k, runOut * Math.pow(k, -0.8) * own.ratioOfDb(3), own.between(0, 1));
        }
        double sensitivity = 0;
        for (PassLine line : pulley.passLines()) {
            int perTurn = (int) Math.rint(line.perTurn());
            switch (pulley.role()) {
                case ALTERNATOR -> {
                    double whine =
                            own.chance(0.25) ? own.logBetween(0.8, 4) : own.logBetween(0.03, 0.5);
                    table.add(perTurn, whine, own.between(0, 1));
                    for (int k = 1; k <= 4; k++) {
                        table.add(6 * k, whine * own.between(0.02, 0.2), own.between(0, 1));
                    }
                    for (int k = 8; k <= 13; k++) {
                        table.add(k, own.logBetween(0.005, 0.05), own.between(0, 1));
                    }
                    sensitivity = own.between(0.2, 0.9);
                }
                case WATER_PUMP, FAN -> {
                    double vanes = own.logBetween(0.02, 0.25);
                    table.add(perTurn, vanes, own.between(0, 1));
                    table.add(2 * perTurn, 0.4 * vanes, own.between(0, 1));
                }
                case STEERING_PUMP -> {
                    double vanes =
                            own.chance(0.2) ? own.logBetween(0.4, 1.5) : own.logBetween(0.03, 0.3);
                    table.add(perTurn, vanes, own.between(0, 1));
                    table.add(2 * perTurn, 0.5 * vanes, own.between(0, 1));
                    table.add(3 * perTurn, 0.3 * vanes, own.between(0, 1));
                    sensitivity = own.between(1, 3);
                }
                case CRANK, COMPRESSOR, IDLER, TENSIONER, OTHER -> {}
            }
        }
        return new Tones(table, 1, new LoadGain(pulley.role(), 1, sensitivity), 1.4);
    }

    /** A compressor pumps only when it is engaged. */
    private static Tones pistons(TruePulley pulley, Draw own) {
        AngleTable table = new AngleTable();
        double strength = own.logBetween(0.1, 0.8);
        for (PassLine line : pulley.passLines()) {
            int perTurn = (int) Math.rint(line.perTurn());
            for (int k = 1; k <= 4; k++) {
                table.add(k * perTurn, strength / k * own.ratioOfDb(3), own.between(0, 1));
            }
        }
        return new Tones(table, 1, new LoadGain(Role.COMPRESSOR, 0, 1), 1);
    }

    private static RollingNoise rolling(TruePulley pulley, Draw own) {
        double level = own.chance(0.15) ? own.logBetween(0.15, 0.5) : own.logBetween(0.02, 0.15);
        double cage = pulley.bearings().isEmpty() ? 0.4 : pulley.bearings().get(0).cageOrder();
        return new RollingNoise(
                level,
                own.between(0, 0.25),
                own.between(0, 0.15),
                cage,
                RollingNoise.Crackles.NONE,
                new LoadGain(pulley.role(), 1, own.between(0, 0.4)));
    }

    /** Races are never perfect: faint lines at some pass rates of a healthy bearing. */
    private static void mildLines(TruePulley pulley, Draw own, List<Shaker> shakers) {
        for (TrueBearing bearing : pulley.bearings()) {
            for (FaultKind kind :
                    List.of(
                            FaultKind.BEARING_OUTER_RING,
                            FaultKind.BEARING_INNER_RING,
                            FaultKind.ROLLING_ELEMENT)) {
                if (own.chance(0.3)) {
                    shakers.add(
                            new BearingDefect(
                                    bearing,
                                    kind,
                                    own.logBetween(0.02, 0.15),
                                    own.between(0.005, 0.02),
                                    new LoadZone(own.between(0.3, 0.5), own.between(0.2, 0.6)),
                                    LoadGain.constant(pulley.role())));
                }
            }
        }
    }

    /** The span beside a guide pulley or the alternator can swing. */
    private void addSpan(TruePulley pulley, Draw own, List<Shaker> shakers) {
        boolean guided =
                pulley.role() == Role.IDLER
                        || pulley.role() == Role.TENSIONER
                        || pulley.role() == Role.ALTERNATOR;
        if (guided && own.chance(0.5)) {
            Mode span = new Mode(own.between(55, 160), own.logBetween(0.008, 0.03), 1);
            shakers.add(
                    new SpanTone(
                            span,
                            own.logBetween(0.02, 0.25),
                            drive.engine().firingOrders(),
                            new LoadGain(pulley.role(), 1, own.between(0.05, 0.4))));
        }
    }

    private void addFault(TruePulley pulley, Draw own, List<Shaker> shakers) {
        boolean mine = trouble.component().equals(pulley.name());
        LoadGain load = faultLoad(pulley, own);
        switch (trouble.kind()) {
            case BEARING_OUTER_RING, BEARING_INNER_RING, ROLLING_ELEMENT, CAGE -> {
                if (mine) {
                    double scale = trouble.kind() == FaultKind.CAGE ? 1.3 : 1;
                    shakers.add(
                            new BearingDefect(
                                    pulley.bearings().get(trouble.bearing()),
                                    trouble.kind(),
                                    scale * trouble.strength(0.3, 10),
                                    own.between(0.005, 0.02),
                                    new LoadZone(own.between(0.3, 0.5), own.between(0, 0.3)),
                                    load));
                }
            }
            case BEARING_ROUGH -> {
                if (mine) {
                    double rms = trouble.strength(0.1, 1.5);
                    shakers.add(
                            new RollingNoise(
                                    rms,
                                    own.between(0.1, 0.6),
                                    own.between(0.1, 0.5),
                                    pulley.bearings().get(trouble.bearing()).cageOrder(),
                                    new RollingNoise.Crackles(own.between(10, 80), 2 * rms),
                                    load));
                }
            }
            case ECCENTRIC -> addEccentric(pulley, mine, own, shakers);
            case LOOSE -> {
                if (mine) {
                    shakers.add(
                            new Knocks(
                                    trouble.strength(0.8, 12),
                                    own.chance(0.7) ? 2 : 3,
                                    own.between(0.1, 0.5),
                                    drive.engine().firingOrders(),
                                    own.between(0.05, 0.25),
                                    load));
                }
            }
            case BELT_DAMAGE -> addBeltHits(pulley, own, shakers);
            case TICK, UNSPECIFIED, NONE -> {}
        }
    }

    /** Compressor pulley bearings turn always and hardly notice the clutch. */
    private static LoadGain faultLoad(TruePulley pulley, Draw own) {
        double sensitivity =
                pulley.role() == Role.COMPRESSOR ? own.between(0, 0.12) : own.between(0.15, 0.9);
        return new LoadGain(pulley.role(), 1, sensitivity);
    }

    /** The pulley's own wobble, and the belt tension that it moves at its neighbours. */
    private void addEccentric(TruePulley pulley, boolean mine, Draw own, List<Shaker> shakers) {
        if (mine) {
            AngleTable table = new AngleTable();
            double amplitude = trouble.strength(0.25, 3);
            for (int k = 1; k <= 4; k++) {
                table.add(k, amplitude * Math.pow(0.35, k - 1), own.between(0, 1));
            }
            shakers.add(new Tones(table, 1, LoadGain.constant(pulley.role()), 1.8));
            return;
        }
        for (TrueBelt belt : drive.belts()) {
            int here = belt.path().indexOf(pulley.name());
            int there = belt.path().indexOf(trouble.component());
            if (here < 0 || there < 0) {
                continue;
            }
            int apart = Math.abs(here - there);
            boolean next = Math.min(apart, belt.path().size() - apart) == 1;
            TruePulley source = drive.pulley(trouble.component()).orElseThrow();
            AngleTable table = new AngleTable();
            double amplitude = trouble.strength(0.25, 3) * (next ? 0.15 : 0.06);
            table.add(1, amplitude * own.ratioOfDb(3), own.between(0, 1));
            table.add(2, 0.4 * amplitude * own.ratioOfDb(3), own.between(0, 1));
            double ownTurns = drive.turnsPerCrankTurn(pulley) / drive.turnsPerCrankTurn(source);
            shakers.add(new Tones(table, ownTurns, LoadGain.constant(pulley.role()), 1.5));
        }
    }

    private void addBeltHits(TruePulley pulley, Draw own, List<Shaker> shakers) {
        for (TrueBelt belt : drive.belts()) {
            int here = belt.path().indexOf(pulley.name());
            if (here < 0 || !trouble.component().equals("belt:" + belt.name())) {
                continue;
            }
            // Bending is sharper on small pulleys.
            double bend = Math.pow(80 / pulley.diameterMm(), 0.5) * own.ratioOfDb(3);
            double creep = draw.branch("creep:" + belt.name()).between(0.001, 0.005);
            shakers.add(
                    new BeltHits(
                            belt.name(),
                            drive.beltOrder(belt) * (1 - creep),
                            belt.run().entryTurns(here),
                            belt.run().wrapTurns(here),
                            bend * trouble.strength(0.8, 10),
                            bend * trouble.strength(0.3, 4),
                            new LoadGain(Role.IDLER, 1, own.between(0, 0.4))));
        }
    }
}
