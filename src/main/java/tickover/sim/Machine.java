package tickover.sim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tickover.drive.Condition;
import tickover.drive.PartLine;
import tickover.drive.Role;

/**
 * A vehicle with its engine running, and a probe held against it. The same vehicle draws give the
 * same vehicle at every visit; visit draws give each touch its own luck. One thread.
 */
final class Machine {
    /** Slow probes are simulated at least this fast and then decimated, Hz. */
    private static final int LEAST_RATE_HZ = 12800;

    private final TrueDrive drive;
    private final Draw vehicle;
    private final Draw visit;
    private final Kit kit;
    private final EngineSound engine;
    private final Structure structure;
    private final List<Place> fixedPlaces;

    /**
     * Builds the vehicle.
     *
     * @param drive engine and drive as they are
     * @param trouble what is wrong
     * @param kit what is recorded with
     * @param vehicle draws of the vehicle
     * @param visit draws of the visit
     */
    Machine(TrueDrive drive, Trouble trouble, Kit kit, Draw vehicle, Draw visit) {
        this.drive = drive;
        this.vehicle = vehicle;
        this.visit = visit;
        this.kit = kit;
        this.engine = new EngineSound(drive.engine(), vehicle.branch("engine"), trouble);
        this.structure = new Structure(vehicle.branch("structure"));
        PartSound parts = new PartSound(drive, vehicle.branch("parts"), trouble);
        List<Place> places = new ArrayList<>();
        drive.pulleys().forEach(p -> places.add(parts.place(p)));
        places.addAll(engine.injectors());
        places.add(engine.valves());
        places.add(engine.block());
        coolingFan(vehicle.branch("cooling-fan"), places);
        if (trouble.component().equals(PartLine.ENGINE)) {
            places.add(
                    EngineTrouble.place(
                            drive.engine(), engine, trouble, vehicle.branch("engine-trouble")));
        }
        this.fixedPlaces = List.copyOf(places);
    }

    private static void coolingFan(Draw draw, List<Place> places) {
        if (!draw.chance(0.4)) {
            return;
        }
        FixedTones fan =
                new FixedTones(
                        draw.between(28, 48),
                        draw.whole(5, 9),
                        draw.logBetween(0.3, 3),
                        draw.logBetween(0.2, 2),
                        draw.chance(0.4));
        places.add(
                new Place(
                        "cooling-fan",
                        new Site(60, 200, 260),
                        List.of(),
                        new Place.PlaceDrive(1, 0, LoadGain.constant(Role.OTHER), 0, false),
                        List.of(fan)));
    }

    /** Points where a probe can be held, in a fixed order. */
    List<String> points() {
        List<String> out = new ArrayList<>();
        drive.pulleys().stream()
                .filter(p -> p.role() != Role.CRANK)
                .forEach(p -> out.add(p.name()));
        out.add("valve-cover");
        for (int c = 1; c <= drive.engine().cylinders(); c++) {
            out.add("injector-" + c);
        }
        out.add("block");
        out.add("bracket");
        return out;
    }

    private Site siteOf(String point) {
        if (drive.pulley(point).isPresent()) {
            return drive.pulley(point).orElseThrow().site();
        }
        if (point.startsWith("injector-")) {
            return engine.siteOf(Integer.parseInt(point.substring("injector-".length())));
        }
        double middle = -60 - 95.0 * (drive.engine().cylinders() - 1) / 2;
        return switch (point) {
            case "valve-cover" -> new Site(10, 420, middle);
            case "block" -> new Site(-90, 170, -110);
            case "bracket" -> bracket();
            default -> throw new IllegalArgumentException("point=" + point + ", need a known one");
        };
    }

    /** The bracket carries the alternator and the pulley after it. */
    private Site bracket() {
        Site first = drive.pulleys().get(1).site();
        Site second = drive.pulleys().get(2).site();
        return new Site((first.xMm() + second.xMm()) / 2, (first.yMm() + second.yMm()) / 2, -50);
    }

    /** Makes one recording. */
    SimulatedCapture capture(CapturePlan plan) {
        int rate = kit.recorder().sampleRateHz();
        int factor = (LEAST_RATE_HZ + rate - 1) / rate;
        double innerRateHz = (double) rate * factor;
        int count = (int) Math.rint(plan.durationS() * rate);
        Draw own = visit.branch("capture:" + plan.file());
        CrankMotion crank = crank(plan, own.branch("speed"));
        Run run =
                new Run(
                        innerRateHz,
                        count * factor,
                        crank,
                        plan.condition(),
                        drive.idleHz(),
                        own.branch("run"));
        List<Place> places = places(plan.condition());
        List<double[]> shaken = places.stream().map(p -> p.render(run)).toList();
        Probe probe = new Probe(kit.probe());
        Probe.Touch touch = probe.touch(own.branch("touch"), innerRateHz, run.count());
        double[][] accel = new double[kit.channels()][];
        for (int c = 0; c < kit.channels(); c++) {
            String axis = c == 0 ? kit.axis() : kit.axis() + "+" + c;
            double[] arriving =
                    structure.arriving(
                            places, shaken, plan.point(), siteOf(plan.point()), axis, innerRateHz);
            touch.hold(arriving, c, own.branch("channel", c));
            accel[c] = Decimator.decimate(arriving, factor, count);
            probe.convert(accel[c], kit.recorder());
        }
        SimulatedCapture.Label label =
                new SimulatedCapture.Label(
                        plan.file(),
                        plan.point(),
                        kit.axis(),
                        kit.probe().hold().word(),
                        plan.regime(),
                        plan.condition());
        return new SimulatedCapture(
                label, kit.recorder(), accel, speed(plan, run, places, own.branch("instrument")));
    }

    private List<Place> places(Condition condition) {
        List<Place> out = new ArrayList<>();
        fixedPlaces.stream().filter(p -> !p.stands(condition)).forEach(out::add);
        out.add(engine.body(condition));
        return out;
    }

    private CrankMotion crank(CapturePlan plan, Draw own) {
        double[] speedHz =
                SpeedCurve.speedHz(plan, drive.idleHz(), vehicle.branch("governor"), own);
        return new CrankMotion(
                -SpeedCurve.BEFORE_S,
                own.between(0, 2),
                speedHz,
                engine.rippleTurns(plan.condition()));
    }

    private SpeedRecord speed(CapturePlan plan, Run run, List<Place> places, Draw own) {
        double durationS = plan.durationS();
        return switch (kit.speed()) {
            case TACH ->
                    places.stream()
                            .filter(p -> p.name().equals(kit.tach().pulley()))
                            .findFirst()
                            .<SpeedRecord>map(
                                    p ->
                                            kit.tach()
                                                    .record(
                                                            p.motion(run),
                                                            durationS,
                                                            visit.branch("marks"),
                                                            own))
                            .orElseGet(SpeedRecord.Silent::new);
            case OBD -> kit.obd().record(run.motion(), durationS, own);
            case KNOWN -> known(run.motion(), durationS);
            case NONE -> new SpeedRecord.Silent();
        };
    }

    private SpeedRecord known(CrankMotion crank, double durationS) {
        int n = (int) Math.floor(durationS / kit.knownStepS()) + 1;
        double[] times = new double[n];
        double[] speeds = new double[n];
        Arrays.setAll(times, i -> i * kit.knownStepS());
        Arrays.setAll(speeds, i -> 60 * crank.meanSpeedHzAt(times[i]));
        return new SpeedRecord.Readings(times, speeds, false);
    }
}
