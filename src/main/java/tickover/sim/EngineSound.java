package tickover.sim;

import java.util.ArrayList;
import java.util.List;
import tickover.drive.Condition;
import tickover.drive.Engine;
import tickover.drive.Role;

/**
 * The engine's own noise: gas and inertia forces at multiples of half an order, firing impulses
 * with the noise they set off, injectors and valves at their own crank angles.
 */
final class EngineSound {
    static final double CYCLE_TURNS = 2;
    private static final int TOP_HALF_ORDERS = 48;
    static final Place.PlaceDrive CRANK =
            new Place.PlaceDrive(1, 0, LoadGain.constant(Role.CRANK), 1, false);

    private final Engine engine;
    private final Draw draw;
    private final double[] cylinderGain;
    private final FaultKind fault;
    private final String faulty;
    private final double faultRatio;

    /**
     * Draws an engine's noise.
     *
     * @param engine the engine, with its firing order
     * @param draw draws of this engine
     * @param trouble what is wrong with the vehicle
     */
    EngineSound(Engine engine, Draw draw, Trouble trouble) {
        this.engine = engine;
        this.draw = draw;
        this.fault = trouble.kind();
        this.faulty = trouble.component();
        this.faultRatio = trouble.tickRatio();
        this.cylinderGain = new double[engine.cylinders()];
        Draw scatter = draw.branch("cylinders");
        for (int c = 0; c < cylinderGain.length; c++) {
            cylinderGain[c] = 1 + 0.05 * scatter.gaussian();
        }
    }

    /** How much harder the engine fires under the loads that are on. */
    static double firingGain(Condition c) {
        return 1
                + (c.driveGear() ? 0.3 : 0)
                + (c.aircon() ? 0.15 : 0)
                + (c.headlights() ? 0.08 : 0)
                + (c.steering() ? 0.1 : 0);
    }

    /** Crank turns into the cycle at which a cylinder fires. */
    double firingTurns(int cylinder) {
        int place = engine.firingOrder().indexOf(cylinder);
        return CYCLE_TURNS * place / engine.cylinders();
    }

    /** Torsional ripple in turns over one cycle, speed swing of some percent at firing order. */
    double[] rippleTurns(Condition condition) {
        Draw own = draw.branch("ripple");
        double swing = own.between(0.008, 0.03) * 4 / engine.cylinders() * firingGain(condition);
        AngleTable table = new AngleTable();
        for (int half = 1; half <= 24; half++) {
            double order = half / 2.0;
            double shape = Math.pow(order / engine.firingOrders(), -1.3);
            addGas(table, half, swing * shape / (2 * Math.PI * order), own, condition);
        }
        return table.onePeriod(4096);
    }

    /** One gas order as the sum over cylinders, each at its own firing angle. */
    private void addGas(
            AngleTable table, int half, double amplitude, Draw own, Condition condition) {
        double x = 0;
        double y = 0;
        int off = condition.injectorOff().orElse(0);
        for (int c = 1; c <= engine.cylinders(); c++) {
            double gain = c == off ? 0.1 : cylinderGain[c - 1];
            double angle = -2 * Math.PI * half * firingTurns(c) / CYCLE_TURNS;
            x += gain * Math.cos(angle);
            y += gain * Math.sin(angle);
        }
        double size = Math.hypot(x, y) / engine.cylinders();
        double phase = Math.atan2(y, x) / (2 * Math.PI) + own.between(-0.05, 0.05);
        table.add(half, amplitude * size, phase);
    }

    /** Low engine orders, the same nearly everywhere: the engine shakes as one body. */
    Place body(Condition condition) {
        Draw own = draw.branch("body");
        AngleTable table = new AngleTable();
        double gas = own.logBetween(0.6, 2.2) * firingGain(condition);
        for (int half = 1; half <= TOP_HALF_ORDERS; half++) {
            double order = half / 2.0;
            double shape =
                    order < engine.firingOrders()
                            ? 2.5
                            : Math.pow(order / engine.firingOrders(), -1.1);
            addGas(table, half, gas * shape * own.ratioOfDb(3), own, condition);
        }
        double inertia = own.logBetween(0.3, 1.5);
        table.add(4, engine.cylinders() == 4 ? inertia : inertia * 0.1, own.between(0, 1));
        double first = engine.cylinders() == 3 || engine.cylinders() == 5 ? 0.7 : 0.12;
        table.add(2, inertia * first, own.between(0, 1));
        Tones tones = new Tones(table, CYCLE_TURNS, LoadGain.constant(Role.CRANK), 1.1);
        return new Place(
                "engine",
                new Site(-80, 180, -220),
                List.of(new Mode(own.between(12, 22), 0.15, 0.1)),
                CRANK,
                List.of(tones));
    }

    /** Firing impulses through the block, with the broadband noise that they set off. */
    Place block() {
        Draw own = draw.branch("block");
        List<Shaker> shakers = new ArrayList<>();
        double strength = own.logBetween(1.5, 6);
        for (int c = 1; c <= engine.cylinders(); c++) {
            shakers.add(
                    new CyclePulses(
                            c,
                            firingTurns(c) + own.between(0.01, 0.03),
                            CYCLE_TURNS,
                            strength * cylinderGain[c - 1] * own.ratioOfDb(1),
                            1.2,
                            0.003,
                            0,
                            1.2,
                            CyclePulses.Trait.FIRING));
        }
        shakers.add(
                new FiringNoise(
                        engine.firingOrders(), own.between(0.4, 1.1), own.logBetween(0.08, 0.35)));
        List<Mode> modes =
                List.of(
                        new Mode(own.between(180, 420), 0.09, 0.8),
                        new Mode(own.between(500, 1100), 0.07, 1),
                        new Mode(own.between(1200, 2200), 0.06, 0.8),
                        new Mode(own.between(2400, 4200), 0.05, 0.4));
        return new Place("block", new Site(-80, 180, -220), modes, CRANK, shakers);
    }

    /** Every injector, ticking as it opens and closes. */
    List<Place> injectors() {
        Draw own = draw.branch("injectors");
        List<Place> out = new ArrayList<>();
        double strength = own.chance(0.25) ? own.logBetween(6, 14) : own.logBetween(1.2, 6);
        int shots = own.chance(0.5) ? 2 : 1;
        double mainTurns = own.between(-0.04, 0.01);
        double pilotTurns = mainTurns - own.between(0.05, 0.09);
        double openS = own.between(0.0006, 0.0016);
        double mode = own.between(2800, 5200);
        for (int c = 1; c <= engine.cylinders(); c++) {
            double gain = strength * own.ratioOfDb(1.5);
            if (faulty.equals("injector-" + c) && fault == FaultKind.TICK) {
                gain *= faultRatio;
            }
            List<Shaker> shakers = new ArrayList<>();
            for (int s = 0; s < shots; s++) {
                double at = firingTurns(c) + CYCLE_TURNS + (s == 0 ? mainTurns : pilotTurns);
                shakers.add(
                        new CyclePulses(
                                c,
                                at,
                                CYCLE_TURNS,
                                s == 0 ? gain : 0.6 * gain,
                                0.9,
                                0.0006,
                                s == 0 ? openS : 0.5 * openS,
                                0.4,
                                CyclePulses.Trait.INJECTOR));
            }
            List<Mode> modes =
                    List.of(
                            new Mode(mode * own.between(0.93, 1.07), 0.03, 1),
                            new Mode(mode * own.between(1.5, 2.1), 0.03, 0.7),
                            new Mode(own.between(900, 1900), 0.06, 0.25));
            out.add(new Place("injector-" + c, siteOf(c), modes, CRANK, shakers));
        }
        return out;
    }

    /** Valves landing, under the cover. */
    Place valves() {
        Draw own = draw.branch("valves");
        double strength = own.logBetween(0.3, 2);
        double intake = own.between(0.55, 0.7);
        double exhaust = own.between(1.0, 1.12);
        int ticking = 1 + own.whole(0, engine.cylinders() - 1);
        boolean tickIsIntake = own.chance(0.5);
        List<Shaker> shakers = new ArrayList<>();
        for (int c = 1; c <= engine.cylinders(); c++) {
            for (int v = 0; v < 2; v++) {
                double gain = strength * own.ratioOfDb(1.5);
                boolean mine = c == ticking && (v == 0) == tickIsIntake;
                if (mine && faulty.equals("valve-train") && fault == FaultKind.TICK) {
                    gain *= faultRatio;
                }
                shakers.add(
                        new CyclePulses(
                                c,
                                firingTurns(c) + (v == 0 ? CYCLE_TURNS - intake : exhaust),
                                CYCLE_TURNS,
                                gain,
                                1.2,
                                0.0015,
                                0,
                                1.5,
                                CyclePulses.Trait.VALVE));
            }
        }
        List<Mode> modes =
                List.of(
                        new Mode(own.between(700, 1500), 0.05, 0.6),
                        new Mode(own.between(1800, 3200), 0.04, 1),
                        new Mode(own.between(3800, 6500), 0.04, 0.6));
        Site site = new Site(siteOf(ticking).xMm() + 30, 410, siteOf(ticking).zMm());
        return new Place("valve-cover", site, modes, CRANK, shakers);
    }

    /** Cylinder 1 is at the front. */
    Site siteOf(int cylinder) {
        return new Site(-20, 380, -60 - 95.0 * (cylinder - 1));
    }
}
