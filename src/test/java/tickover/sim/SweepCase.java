package tickover.sim;

import java.util.ArrayList;
import java.util.List;
import tickover.align.CaptureSignal;
import tickover.align.NoSpeed;
import tickover.align.SpeedReadings;
import tickover.align.SpeedSource;
import tickover.align.TachPulses;
import tickover.drive.Condition;
import tickover.drive.Role;
import tickover.order.AnglePrior;

/**
 * One capture of a drawn engine, hand-held, with belt-driven lines that may out-shout it, and what
 * different speed sources would have told. Seed {@code s}: cylinders and regime go round, the rest
 * is drawn.
 */
final class SweepCase {
    /** Belt-driven lines, strongest against everything below this frequency, Hz. */
    private static final double ENGINE_TOP_HZ = 400;

    private static final double SLIP_WANDER_RATIO = 5e-4;

    final long seed;
    final int cylinders;
    final SimulatedCapture.Regime regime;
    final double beltDb;
    final double rateHz;
    final double[] accelMps2;
    final List<Double> beltOrders = new ArrayList<>();
    private final CrankMotion crank;
    private final TrueDrive drive;
    private final SpeedReadings readings;
    private final TachPulses pulses;

    SweepCase(long seed) {
        this.seed = seed;
        this.cylinders = new int[] {4, 3, 6, 8}[(int) (seed % 4)];
        this.regime =
                seed / 4 % 2 == 0 ? SimulatedCapture.Regime.SWEEP : SimulatedCapture.Regime.IDLE;
        Draw root = new Draw(seed).branch("sweep");
        this.drive = drive(root);
        Draw own = root.branch("case");
        this.beltDb = own.between(-20, 20);
        double topHz = own.between(1800, 2600) / 60;
        CapturePlan plan =
                new CapturePlan(
                        "c01",
                        own.pick(
                                drive.pulleys().stream()
                                        .filter(p -> p.role() != Role.CRANK)
                                        .map(TruePulley::name)
                                        .toList()),
                        regime,
                        topHz,
                        Condition.UNLOADED,
                        own.between(7, 14));
        Probe.Spec probe =
                new Probe.Spec(Probe.Hold.HAND, 160, own.logBetween(0.03, 0.4), 1.5, true, false);
        this.rateHz = own.chance(0.5) ? 6400 : 12_800;
        SimulatedCapture.Recorder recorder =
                new SimulatedCapture.Recorder(
                        (int) rateHz, SimulatedCapture.SampleFormat.FLOAT_32, 160);
        TachSensor tach = new TachSensor("crank", 1, 0, 1e-6, 1e-6, 0, 0);
        ObdAdapter adapter =
                new ObdAdapter(
                        own.between(0.03, 0.2),
                        own.between(0, 0.03),
                        own.logBetween(2, 10),
                        own.between(0.03, 0.2));
        Kit kit = new Kit(probe, recorder, 1, "radial", SpeedRecord.Kind.TACH, tach, adapter, 0.1);
        Draw vehicle = root.branch("vehicle");
        Draw visit = root.branch("visit");
        SimulatedCapture capture =
                new Machine(drive, Trouble.NONE, kit, vehicle, visit).capture(plan);
        this.accelMps2 = capture.accelMps2(0).clone();
        // As the machine draws it, to have the motion itself.
        Draw speed = visit.branch("capture:" + plan.file()).branch("speed");
        double[] speedHz =
                SpeedCurve.speedHz(plan, drive.idleHz(), vehicle.branch("governor"), speed);
        this.crank =
                new CrankMotion(
                        -SpeedCurve.BEFORE_S,
                        speed.between(0, 2),
                        speedHz,
                        new EngineSound(drive.engine(), vehicle.branch("engine"), Trouble.NONE)
                                .rippleTurns(plan.condition()));
        addBeltLines(own.branch("belt"));
        this.pulses = new TachPulses(((SpeedRecord.Tach) capture.speed()).timesS(), 1, 1);
        SpeedRecord.Readings r = adapter.record(crank, plan.durationS(), own.branch("obd"));
        this.readings = new SpeedReadings(r.timesS(), r.speedsRpm(), true);
    }

    private TrueDrive drive(Draw root) {
        for (int i = 0; ; i++) {
            TrueDrive drawn = DriveDraw.draw(root.branch("drive", i));
            if (drawn.engine().cylinders() == cylinders) {
                return drawn;
            }
        }
    }

    /** Up to three pulleys out of true, the loudest as many dB above the engine as drawn. */
    private void addBeltLines(Draw draw) {
        double engine = lowRms();
        int lines = draw.whole(1, 3);
        for (int n = 0; n < lines; n++) {
            TruePulley pulley = draw.pick(drive.pulleys());
            if (pulley.role() == Role.CRANK) {
                continue;
            }
            double order = drive.turnsPerCrankTurn(pulley) * (1 - draw.between(0.002, 0.012));
            double db = beltDb - (n == 0 ? 0 : draw.between(0, 12));
            double rms = engine * Math.pow(10, db / 20);
            double wanderHz = draw.between(0.1, 0.5);
            for (int k = 1; k <= 3; k++) {
                beltOrders.add(k * order);
                double size = rms * Math.sqrt(2) * Math.pow(k, -1.5);
                double phase = draw.between(0, 1);
                for (int i = 0; i < accelMps2.length; i++) {
                    double t = i / rateHz;
                    double w = 2 * Math.PI * wanderHz;
                    double turns =
                            order
                                    * (crank.meanTurnsAt(t)
                                            + 15 * SLIP_WANDER_RATIO * Math.sin(w * t) / w);
                    accelMps2[i] += size * Math.cos(2 * Math.PI * (k * turns + phase));
                }
            }
        }
    }

    private double lowRms() {
        double keep = Math.exp(-2 * Math.PI * ENGINE_TOP_HZ / rateHz);
        double high = Math.exp(-2 * Math.PI * 5 / rateHz);
        double low = 0;
        double slow = accelMps2[0];
        double sum = 0;
        for (double v : accelMps2) {
            low = keep * low + (1 - keep) * v;
            slow = high * slow + (1 - high) * low;
            sum += (low - slow) * (low - slow);
        }
        return Math.sqrt(sum / accelMps2.length);
    }

    /** Whether a line that was added stands so near that no level is the engine's own. */
    boolean besideBelt(double order, double orders) {
        return beltOrders.stream().anyMatch(belt -> Math.abs(belt - order) < orders);
    }

    double durationS() {
        return accelMps2.length / rateHz;
    }

    /** True mean angle, without the ripple that repeats with every cycle, turns. */
    double turnsAt(double timeS) {
        return crank.meanTurnsAt(timeS);
    }

    double rpmAt(double timeS) {
        return 60 * crank.meanSpeedHzAt(timeS);
    }

    CaptureSignal withPulses() {
        return signal(pulses);
    }

    CaptureSignal withReadings() {
        return signal(readings);
    }

    CaptureSignal alone() {
        return signal(new NoSpeed());
    }

    private CaptureSignal signal(SpeedSource speed) {
        return new CaptureSignal(rateHz, new double[][] {accelMps2}, speed);
    }

    /** What the vehicle's file would tell: cylinders, idle, and diameters by tape measure. */
    AnglePrior prior() {
        List<Double> orders = new ArrayList<>();
        Draw tape = new Draw(seed).branch("tape");
        for (TruePulley pulley : drive.pulleys()) {
            if (pulley.role() != Role.CRANK) {
                orders.add(drive.turnsPerCrankTurn(pulley) * (1 + 0.005 * tape.gaussian()));
            }
        }
        AnglePrior prior =
                AnglePrior.of(cylinders, 4)
                        .withIdleRpm(60 * drive.idleHz())
                        .withDriveOrders(orders);
        return regime == SimulatedCapture.Regime.IDLE ? prior.atIdle() : prior;
    }
}
