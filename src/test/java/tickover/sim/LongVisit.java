package tickover.sim;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.drive.Condition;
import tickover.drive.Vehicle;
import tickover.session.SimulatedFolders;

/**
 * Writes the visit folder that {@code docs/speed.md} times: 24 captures of 10 s, one channel at
 * 25.6 kHz, points by loads, a worn idler bearing. Arguments: folder, speed source (tach, obd,
 * known, none).
 */
final class LongVisit {
    private static final long SEED = 24;
    private static final int CAPTURES = 24;
    private static final double LENGTH_S = 10;
    private static final int RATE_HZ = 25_600;
    private static final double RANGE_MPS2 = 200;

    private LongVisit() {}

    public static void main(String[] args) {
        SpeedRecord.Kind speed = SpeedRecord.Kind.valueOf(args[1].toUpperCase(Locale.ROOT));
        SimulatedFolders.write(visit(speed), Path.of(args[0]));
    }

    private static SimulatedVisit visit(SpeedRecord.Kind speed) {
        Draw root = new Draw(SEED);
        Vehicle vehicle = LibraryPool.vehicle();
        TrueDrive drive = LibraryPool.asItIs(vehicle, root.branch("as-it-is"));
        Trouble trouble = new Trouble("idler", FaultKind.BEARING_INNER_RING, 0.5, 0);
        Machine machine =
                new Machine(
                        drive, trouble, kit(speed), root.branch("vehicle"), root.branch("visit"));
        List<SimulatedCapture> captures = new ArrayList<>();
        List<String> points =
                List.of(
                        "alternator",
                        "idler",
                        "tensioner",
                        "water-pump",
                        "compressor",
                        "valve-cover");
        List<Condition> loads =
                List.of(
                        Condition.UNLOADED,
                        Condition.UNLOADED.withHeadlights(true),
                        Condition.UNLOADED.withAircon(true),
                        Condition.UNLOADED.withDriveGear(true));
        for (int i = 0; i < CAPTURES; i++) {
            captures.add(
                    machine.capture(
                            new CapturePlan(
                                    String.format(Locale.ROOT, "c%02d", i + 1),
                                    points.get(i % points.size()),
                                    SimulatedCapture.Regime.IDLE,
                                    drive.idleHz(),
                                    loads.get(i / points.size() % loads.size()),
                                    LENGTH_S)));
        }
        return new SimulatedVisit(
                "0c6a1f52-8a44-4a57-8f3b-3d1f0a6b2402",
                LocalDateTime.of(2026, 10, 14, 9, 30),
                182_340,
                "grinding from the belt side",
                vehicle,
                captures,
                new Truth("idler", FaultKind.BEARING_INNER_RING, 0.5));
    }

    private static Kit kit(SpeedRecord.Kind speed) {
        return new Kit(
                new Probe.Spec(Probe.Hold.MAGNET, RANGE_MPS2, 0.05, 1.5, false, false),
                new SimulatedCapture.Recorder(
                        RATE_HZ, SimulatedCapture.SampleFormat.PCM_16, RANGE_MPS2),
                1,
                "radial",
                speed,
                new TachSensor("crank", 1, 0, 8e-6, 1e-6, 0.001, 0.0005),
                new ObdAdapter(0.15, 0.02, 8, 0.1),
                0.02);
    }
}
