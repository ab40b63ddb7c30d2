package tickover.diagnose;

import java.util.List;
import java.util.Random;
import tickover.drive.Belt;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.order.ShaftAngle;

/** Captures made by hand at a steady speed: noise, bursts and tones at angles that are known. */
final class SteadyCaptures {
    static final double RATE_HZ = 12_800;
    static final double LENGTH_S = 8;
    static final double TURNS_HZ = 13.7;

    private static final double RING_HZ = 3000;
    private static final double DECAY_S = 1.2e-3;

    private SteadyCaptures() {}

    static DriveModel drive() {
        return DriveModel.of(
                new Vehicle(
                        "ML-07",
                        "",
                        Engine.of(4, 4).withFiringOrder(List.of(1, 3, 4, 2)),
                        List.of(Belt.of("main", 1800, List.of())),
                        List.of(
                                Pulley.named("crank", Role.CRANK, 165).build(),
                                Pulley.named("alternator", Role.ALTERNATOR, 60).build(),
                                Pulley.named("idler", Role.IDLER, 78).build())));
    }

    static double[] noise(long seed, double rmsMps2) {
        Random random = new Random(seed);
        double[] x = new double[(int) (LENGTH_S * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = rmsMps2 * random.nextGaussian();
        }
        return x;
    }

    /** Adds a ringing burst every so many turns, from an angle on. */
    static void bursts(double[] x, double fromTurns, double everyTurns, double peakMps2) {
        bursts(x, fromTurns, everyTurns, peakMps2, RING_HZ);
    }

    /** The same, ringing at another frequency. */
    static void bursts(
            double[] x, double fromTurns, double everyTurns, double peakMps2, double ringHz) {
        for (double at = fromTurns; at < LENGTH_S * TURNS_HZ; at += everyTurns) {
            double startS = at / TURNS_HZ;
            int first = (int) Math.ceil(startS * RATE_HZ);
            int length = (int) (6 * DECAY_S * RATE_HZ);
            for (int i = first; i < Math.min(x.length, first + length); i++) {
                double t = i / RATE_HZ - startS;
                x[i] += peakMps2 * Math.exp(-t / DECAY_S) * Math.sin(2 * Math.PI * ringHz * t);
            }
        }
    }

    /** Adds a tone of so many waves per turn. */
    static void tone(double[] x, double orders, double peakMps2) {
        for (int i = 0; i < x.length; i++) {
            x[i] += peakMps2 * Math.sin(2 * Math.PI * orders * TURNS_HZ * i / RATE_HZ + orders);
        }
    }

    static CaptureMeasurement at(String point, double[] x) throws UnusableCaptureException {
        CaptureLabel label =
                new CaptureLabel(
                        "c-" + point, point, "radial", Mount.STUD, Regime.IDLE, Condition.UNLOADED);
        CaptureInput input =
                new CaptureInput(
                        label,
                        RATE_HZ,
                        new double[][] {x},
                        ShaftAngle.steady(TURNS_HZ, LENGTH_S),
                        "known");
        return CaptureMeasurement.of(input, drive());
    }
}
