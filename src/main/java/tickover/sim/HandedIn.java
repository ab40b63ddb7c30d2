package tickover.sim;

import java.util.ArrayList;
import java.util.List;
import tickover.drive.BearingGeometry;
import tickover.drive.Belt;
import tickover.drive.Engine;
import tickover.drive.PassLine;
import tickover.drive.Position;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/** The drive as a workshop measures it: with a tape, from labels, or not at all. */
final class HandedIn {
    private static final double TAPE_RATIO = 0.012;
    private static final double CATALOGUE_RATIO = 0.015;
    private static final double TAPE_STEP_MM = 0.5;
    private static final double POSITION_STEP_MM = 5;

    private final TrueDrive drive;
    private final Draw draw;
    private final Trouble trouble;

    HandedIn(TrueDrive drive, Draw draw, Trouble trouble) {
        this.drive = drive;
        this.draw = draw;
        this.trouble = trouble;
    }

    Vehicle vehicle(String unit, String description) {
        boolean positions = draw.chance(0.55);
        boolean lines = draw.chance(0.6);
        boolean fullEngine = draw.chance(0.6);
        boolean belts = draw.chance(0.9) || trouble.kind() == FaultKind.BELT_DAMAGE;
        boolean lengths = draw.chance(0.6);
        boolean paths = positions || draw.chance(0.8);
        double knowsBearings = draw.between(0.2, 1);
        Engine engine = Engine.of(drive.engine().cylinders(), drive.engine().strokes());
        if (fullEngine) {
            engine =
                    engine.withIdleRpm(drive.engine().idleRpm().orElseThrow())
                            .withFiringOrder(drive.engine().firingOrder());
        }
        List<Pulley> pulleys = new ArrayList<>();
        for (TruePulley p : drive.pulleys()) {
            pulleys.add(pulley(p, positions, lines, knowsBearings));
        }
        List<Belt> handed = new ArrayList<>();
        for (TrueBelt b : belts ? drive.belts() : List.<TrueBelt>of()) {
            List<String> path = paths ? b.path() : List.of();
            double printed =
                    Math.rint(b.run().lengthMm() * (1 + draw.between(-0.002, 0.002)) / 5) * 5;
            handed.add(lengths ? Belt.of(b.name(), printed, path) : Belt.of(b.name(), path));
        }
        return new Vehicle(unit, description, engine, handed, pulleys);
    }

    private Pulley pulley(TruePulley p, boolean positions, boolean lines, double knowsBearings) {
        double measured = p.diameterMm() * (1 + draw.between(-TAPE_RATIO, TAPE_RATIO));
        double rounded = Math.rint(measured / TAPE_STEP_MM) * TAPE_STEP_MM;
        Pulley.Builder out = Pulley.named(p.name(), p.role(), rounded).face(p.face());
        if (positions) {
            out.at(
                    new Position(
                            Math.rint(p.position().xMm() / POSITION_STEP_MM) * POSITION_STEP_MM,
                            Math.rint(p.position().yMm() / POSITION_STEP_MM) * POSITION_STEP_MM));
        }
        boolean readsPlate = p.role() == Role.ALTERNATOR && draw.chance(0.5);
        if (lines || readsPlate) {
            for (PassLine line : p.passLines()) {
                out.line(line);
            }
        }
        for (TrueBearing b : p.bearings()) {
            if (draw.chance(knowsBearings)) {
                out.bearing(bearing(b));
            } else if (draw.chance(0.5)) {
                out.bearing(PulleyBearing.unknown(b.turningRing()));
            }
        }
        return out.build();
    }

    private PulleyBearing bearing(TrueBearing b) {
        boolean catalogue = Character.isDigit(b.designation().charAt(0));
        if (catalogue && draw.chance(0.5)) {
            return PulleyBearing.ofDesignation(b.designation(), b.turningRing());
        }
        BearingGeometry g = b.geometry();
        BearingGeometry off =
                new BearingGeometry(
                        g.balls(),
                        thousandths(g.ballDiameterMm() * near()),
                        thousandths(g.pitchDiameterMm() * near()),
                        0);
        return catalogue && draw.chance(0.5)
                ? PulleyBearing.of(b.designation(), off, b.turningRing())
                : PulleyBearing.ofGeometry(off, b.turningRing());
    }

    private double near() {
        return 1 + draw.between(-CATALOGUE_RATIO, CATALOGUE_RATIO);
    }

    private static double thousandths(double x) {
        return Math.rint(x * 1000) / 1000;
    }
}
