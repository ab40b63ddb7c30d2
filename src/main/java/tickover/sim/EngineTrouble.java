package tickover.sim;

import java.util.List;
import tickover.drive.BearingGeometry;
import tickover.drive.Engine;
import tickover.drive.Ring;
import tickover.drive.Role;

/**
 * What can be wrong with the engine outside its belt drive, injectors and valves apart: a bearing
 * on a shaft that the crank turns by itself, gears or a chain, or a cylinder that knocks.
 */
final class EngineTrouble {
    /** Behind the last cylinder: where the gearbox begins, and what hangs on the camshaft. */
    private static final double GEARBOX_Z_MM = -150;

    private static final double PUMP_Z_MM = -90;

    /** Beside the sump. */
    private static final Site BALANCE_SHAFT = new Site(-110, 40, -200);

    private EngineTrouble() {}

    /**
     * Draws the place of the trouble and what shakes it.
     *
     * @param engine the engine
     * @param sound where its cylinders are and when they fire
     * @param trouble what is wrong; its component is {@code engine}
     * @param own draws of this vehicle
     */
    static Place place(Engine engine, EngineSound sound, Trouble trouble, Draw own) {
        int cylinders = engine.cylinders();
        Site rear = sound.siteOf(cylinders);
        return switch (own.pickWeighted(0.35, 0.15, 0.2, 0.3)) {
            case 0 -> {
                Site gearbox = new Site(-80, 150, rear.zMm() + GEARBOX_Z_MM);
                yield bearing("gearbox", gearbox, 1, trouble, own);
            }
            case 1 -> bearing("balance-shaft", BALANCE_SHAFT, 2, trouble, own);
            case 2 -> {
                Site pump = new Site(rear.xMm(), rear.yMm(), rear.zMm() + PUMP_Z_MM);
                yield bearing("camshaft", pump, engine.cycleOrder(), trouble, own);
            }
            default -> knock(sound, own.whole(1, cylinders), trouble, own);
        };
    }

    private static Place bearing(
            String name, Site site, double turnsPerCrankTurn, Trouble trouble, Draw own) {
        int balls = own.whole(7, 12);
        double pitchMm = own.between(28, 60);
        // Balls of a ring have to leave room for each other.
        double share = Math.min(own.between(0.18, 0.28), 0.8 * Math.PI / balls);
        TrueBearing bearing =
                new TrueBearing(
                        name,
                        new BearingGeometry(balls, share * pitchMm, pitchMm, 0),
                        Ring.INNER,
                        own.between(-0.002, 0.01));
        BearingDefect defect =
                new BearingDefect(
                        bearing,
                        own.chance(0.5)
                                ? FaultKind.BEARING_OUTER_RING
                                : FaultKind.BEARING_INNER_RING,
                        trouble.strength(1, 25),
                        own.between(0.005, 0.02),
                        new LoadZone(own.between(0.3, 0.5), own.between(0, 0.3)),
                        LoadGain.constant(Role.CRANK));
        Place.PlaceDrive drive =
                new Place.PlaceDrive(turnsPerCrankTurn, 0, LoadGain.constant(Role.CRANK), 1, false);
        return new Place(name, site, PartSound.modes(own.branch("modes")), drive, List.of(defect));
    }

    /** A piston or a rod with play is thrown across by its own firing. */
    private static Place knock(EngineSound sound, int cylinder, Trouble trouble, Draw own) {
        Site head = sound.siteOf(cylinder);
        CyclePulses pulses =
                new CyclePulses(
                        cylinder,
                        sound.firingTurns(cylinder) + own.between(-0.02, 0.06),
                        EngineSound.CYCLE_TURNS,
                        trouble.strength(4, 40),
                        2,
                        0.004,
                        0,
                        1,
                        CyclePulses.Trait.FIRING);
        List<Mode> modes =
                List.of(
                        new Mode(own.between(600, 1400), 0.05, 0.8),
                        new Mode(own.between(1500, 3500), 0.04, 1),
                        new Mode(own.between(3500, 6000), 0.04, 0.4));
        return new Place(
                "cylinder",
                new Site(-90, 150, head.zMm()),
                modes,
                EngineSound.CRANK,
                List.of(pulses));
    }
}
