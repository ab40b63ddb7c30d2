package tickover.sim;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.drive.BearingGeometry;
import tickover.drive.Belt;
import tickover.drive.Condition;
import tickover.drive.Engine;
import tickover.drive.Face;
import tickover.drive.PassLine;
import tickover.drive.Position;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/**
 * The vehicle pool of an invented county library service: unit ML-07, a mobile library, at three
 * visits. A year ago it was well. Then its idler's bearing wears on the inner ring, while the
 * alternator beside it whines louder and harmlessly. Then the idler has been replaced.
 */
public final class LibraryPool {
    /** Chosen because its draws make the alternator whine louder than the worn idler grinds. */
    private static final long VEHICLE_SEED = 55;

    private static final double SEVERITY_RATIO = 0.55;
    private static final String IDLER = "idler";
    private static final String ALTERNATOR = "alternator";

    /** Typical internals, from memory; makers differ. */
    private static final BearingGeometry SIZE_6203 = new BearingGeometry(8, 6.747, 28.5, 0);

    private static final BearingGeometry SIZE_6303 = new BearingGeometry(7, 8.731, 32, 0);
    private static final BearingGeometry PUMP_SHAFT = new BearingGeometry(9, 6.35, 22.5, 0);
    private static final BearingGeometry DOUBLE_ROW = new BearingGeometry(12, 5.556, 43, 0);

    private LibraryPool() {}

    /**
     * The service a year before.
     *
     * @return a healthy visit
     */
    public static SimulatedVisit lastYear() {
        return visit(
                "5d3c0f8e-6a1b-4c52-9f0e-0a7e5b1c0701",
                LocalDateTime.of(2025, 10, 8, 10, 20),
                161_480,
                "yearly service, no complaint",
                Trouble.NONE,
                List.of(ALTERNATOR, IDLER, "tensioner", "water-pump", "compressor"),
                List.of());
    }

    /**
     * The visit with the complaint.
     *
     * @return a visit with a worn idler bearing
     */
    public static SimulatedVisit complaint() {
        return visit(
                "5d3c0f8e-6a1b-4c52-9f0e-0a7e5b1c0702",
                LocalDateTime.of(2026, 10, 14, 9, 30),
                182_340,
                "whine and grinding from the belt side that climb with engine speed",
                new Trouble(IDLER, FaultKind.BEARING_INNER_RING, SEVERITY_RATIO, 0),
                List.of(ALTERNATOR, IDLER, "tensioner", "water-pump", "compressor", "valve-cover"),
                List.of(
                        new State(ALTERNATOR, Condition.UNLOADED.withHeadlights(true)),
                        new State(IDLER, Condition.UNLOADED.withHeadlights(true)),
                        new State(IDLER, Condition.UNLOADED.withAircon(true)),
                        new State(IDLER, Condition.UNLOADED.withBeltOn(false))));
    }

    /**
     * The visit after the idler was replaced.
     *
     * @return a healthy visit
     */
    public static SimulatedVisit afterRepair() {
        return visit(
                "5d3c0f8e-6a1b-4c52-9f0e-0a7e5b1c0703",
                LocalDateTime.of(2026, 10, 15, 15, 10),
                182_342,
                "idler replaced, check",
                Trouble.NONE,
                List.of(ALTERNATOR, IDLER, "tensioner", "water-pump", "compressor"),
                List.of(new State(IDLER, Condition.UNLOADED.withAircon(true))));
    }

    /**
     * All three, oldest first.
     *
     * @return the visits
     */
    public static List<SimulatedVisit> visits() {
        return List.of(lastYear(), complaint(), afterRepair());
    }

    /** A point under a load. */
    private record State(String point, Condition condition) {
        State {
            Objects.requireNonNull(point, "point");
            Objects.requireNonNull(condition, "condition");
        }
    }

    private static SimulatedVisit visit(
            String id,
            LocalDateTime date,
            int odometerKm,
            String complaint,
            Trouble trouble,
            List<String> points,
            List<State> states) {
        Vehicle vehicle = vehicle();
        TrueDrive drive = drive();
        Machine machine = machine(drive, trouble, id);
        List<State> all = new ArrayList<>();
        points.forEach(p -> all.add(new State(p, Condition.UNLOADED)));
        all.addAll(states);
        List<SimulatedCapture> captures = new ArrayList<>();
        for (State s : all) {
            String file = String.format(java.util.Locale.ROOT, "c%02d", captures.size() + 1);
            captures.add(
                    machine.capture(
                            new CapturePlan(
                                    file,
                                    s.point(),
                                    SimulatedCapture.Regime.IDLE,
                                    drive.idleHz(),
                                    s.condition(),
                                    8)));
        }
        Truth truth = new Truth(trouble.component(), trouble.kind(), trouble.severityRatio());
        return new SimulatedVisit(id, date, odometerKm, complaint, vehicle, captures, truth);
    }

    private static TrueDrive drive() {
        return asItIs(vehicle(), new Draw(VEHICLE_SEED).branch("as-it-is"));
    }

    private static Machine machine(TrueDrive drive, Trouble trouble, String visit) {
        Draw root = new Draw(VEHICLE_SEED);
        return new Machine(drive, trouble, kit(), root.branch("vehicle"), root.branch(visit));
    }

    /** What a probe feels that is held to a point of the van. */
    static SimulatedCapture heldTo(
            String point, Condition condition, boolean repaired, double durationS) {
        TrueDrive drive = drive();
        Trouble trouble =
                repaired
                        ? Trouble.NONE
                        : new Trouble(IDLER, FaultKind.BEARING_INNER_RING, SEVERITY_RATIO, 0);
        return machine(drive, trouble, "held")
                .capture(
                        new CapturePlan(
                                point + " " + condition,
                                point,
                                SimulatedCapture.Regime.IDLE,
                                drive.idleHz(),
                                condition,
                                durationS));
    }

    /** What the van is recorded with. */
    /** What is wrong with a part of the van that came with a noise. */
    static FaultKind wearOf(String part) {
        return part.equals(IDLER) ? FaultKind.BEARING_INNER_RING : FaultKind.NONE;
    }

    static SimulatedCapture.Recorder recorder() {
        return kit().recorder();
    }

    private static Kit kit() {
        double rangeMps2 = 200;
        return new Kit(
                new Probe.Spec(Probe.Hold.MAGNET, rangeMps2, 0.05, 1.5, false, false),
                new SimulatedCapture.Recorder(
                        25600, SimulatedCapture.SampleFormat.PCM_16, rangeMps2),
                1,
                "radial",
                SpeedRecord.Kind.TACH,
                new TachSensor("crank", 1, 0, 8e-6, 1e-6, 0.001, 0.0005),
                new ObdAdapter(0.15, 0.02, 8, 0.1),
                0.02);
    }

    /** The drive as the pool's workshop measured it. */
    static Vehicle vehicle() {
        List<Pulley> pulleys =
                List.of(
                        Pulley.named("crank", Role.CRANK, 154).at(new Position(0, 0)).build(),
                        Pulley.named("compressor", Role.COMPRESSOR, 116)
                                .at(new Position(195, 75))
                                .line(new PassLine("pistons", 6))
                                .bearing(PulleyBearing.ofGeometry(DOUBLE_ROW, Ring.OUTER))
                                .build(),
                        Pulley.named(IDLER, Role.IDLER, 78.4)
                                .face(Face.FLAT)
                                .at(new Position(225, 215))
                                .bearing(PulleyBearing.of("6203", SIZE_6203, Ring.OUTER))
                                .build(),
                        Pulley.named(ALTERNATOR, Role.ALTERNATOR, 60)
                                .at(new Position(180, 345))
                                .line(new PassLine("slots", 36))
                                .bearing(PulleyBearing.of("6303", SIZE_6303, Ring.INNER))
                                .bearing(PulleyBearing.of("6203", SIZE_6203, Ring.INNER))
                                .build(),
                        Pulley.named("water-pump", Role.WATER_PUMP, 128)
                                .at(new Position(-45, 300))
                                .line(new PassLine("vanes", 7))
                                .bearing(PulleyBearing.ofGeometry(PUMP_SHAFT, Ring.INNER))
                                .build(),
                        Pulley.named("tensioner", Role.TENSIONER, 72)
                                .face(Face.FLAT)
                                .at(new Position(-88, 140))
                                .bearing(PulleyBearing.of("6203", SIZE_6203, Ring.OUTER))
                                .build());
        List<String> path = pulleys.stream().map(Pulley::name).toList();
        Engine engine = Engine.of(4, 4).withIdleRpm(780).withFiringOrder(List.of(1, 3, 4, 2));
        return new Vehicle(
                "ML-07",
                "Mobile library, 2.2 l diesel van",
                engine,
                List.of(Belt.of("main", path)),
                pulleys);
    }

    /** Tape and catalogue are right to half a percent; the drive itself is not what they say. */
    static TrueDrive asItIs(Vehicle vehicle, Draw draw) {
        List<TruePulley> pulleys = new ArrayList<>();
        for (Pulley p : vehicle.pulleys()) {
            List<TrueBearing> bearings = new ArrayList<>();
            for (PulleyBearing b : p.bearings()) {
                BearingGeometry g = b.geometry().orElseThrow();
                bearings.add(
                        new TrueBearing(
                                b.designation().orElse("own"),
                                new BearingGeometry(
                                        g.balls(),
                                        g.ballDiameterMm() * (1 + draw.between(-0.006, 0.006)),
                                        g.pitchDiameterMm() * (1 + draw.between(-0.004, 0.004)),
                                        0),
                                b.turningRing(),
                                draw.between(0, 0.005)));
            }
            pulleys.add(
                    new TruePulley(
                            p.name(),
                            p.role(),
                            p.diameterMm() * (1 + draw.between(-0.004, 0.004)),
                            p.face(),
                            p.position().orElseThrow(),
                            bearings,
                            p.passLines()));
        }
        BeltRun run =
                BeltRun.of(pulleys)
                        .orElseThrow(() -> new IllegalStateException("belt path is impossible"));
        List<String> path = pulleys.stream().map(TruePulley::name).toList();
        return new TrueDrive(vehicle.engine(), pulleys, List.of(new TrueBelt("main", path, run)));
    }
}
