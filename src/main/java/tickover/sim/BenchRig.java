package tickover.sim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tickover.drive.BearingGeometry;
import tickover.drive.Condition;
import tickover.drive.Ring;
import tickover.drive.Role;

/**
 * Draws removed pulleys turned on benches, everything from one seed: what turns them (a hand drill
 * with its gears and wandering speed, a lathe, a motor on the mains), the bearing, what is wrong,
 * the probe and how it is held, the bench's own spindle bearing and its ways to the probe.
 *
 * <p>Seeds from {@link #TUNING_SEEDS_FROM} are for developing; seeds from {@link #TEST_SEEDS_FROM}
 * are for checking and must never be looked at while something is adjusted.
 */
public final class BenchRig {
    /** First seed on which an analysis may be adjusted. */
    public static final long TUNING_SEEDS_FROM = 1;

    /** First seed that is kept for checking. */
    public static final long TEST_SEEDS_FROM = 1_000_001;

    /** Strengths are those at this speed, Hz: 1800 rpm. */
    private static final double REFERENCE_HZ = 30;

    private static final double G_MPS2 = 9.80665;
    private static final double BEFORE_S = 0.5;
    private static final String POINT = "part";
    private static final List<FaultKind> KINDS =
            List.of(
                    FaultKind.NONE,
                    FaultKind.BEARING_OUTER_RING,
                    FaultKind.BEARING_INNER_RING,
                    FaultKind.ROLLING_ELEMENT,
                    FaultKind.CAGE,
                    FaultKind.BEARING_ROUGH,
                    FaultKind.ECCENTRIC,
                    FaultKind.LOOSE);

    /** A steady drill on a stand, Hz: 1480 rpm. */
    private static final double PRACTICE_HZ = 24.7;

    /** The probe of practice: 16 bit over 20 g. */
    static final SimulatedCapture.Recorder PRACTICE_RECORDER =
            new SimulatedCapture.Recorder(
                    25_600, SimulatedCapture.SampleFormat.PCM_16, 20 * 9.80665);

    /** What turns the part. */
    private enum Power {
        HAND_DRILL,
        LATHE,
        MOTOR
    }

    private final Draw root;
    private final TrueBearing bearing;
    private final TrueBearing spindle;
    private final boolean spindleDamaged;
    private final Power power;
    private final double speedHz;
    private final Structure structure;
    private final Probe.Spec probe;
    private final SimulatedCapture.Recorder recorder;
    private final int channels;
    private final double durationS;

    private BenchRig(long seed) {
        this.root = new Draw(seed).branch("bench");
        Draw bench = root.branch("bench");
        Ring turning = bench.chance(0.6) ? Ring.OUTER : Ring.INNER;
        this.bearing = bearing(bench.branch("bearing"), turning);
        this.spindle = bearing(bench.branch("spindle"), Ring.INNER);
        this.spindleDamaged = bench.chance(0.3);
        this.power = Power.values()[bench.pickWeighted(0.4, 0.3, 0.3)];
        this.speedHz = bench.chance(0.4) ? bench.between(29.4, 30.3) : bench.logBetween(11, 42);
        this.structure = new Structure(bench.branch("structure"));
        Probe.Hold hold =
                bench.pickWeighted(
                        List.of(
                                Probe.Hold.HAND,
                                Probe.Hold.MAGNET,
                                Probe.Hold.ADHESIVE,
                                Probe.Hold.STUD),
                        0.15,
                        0.5,
                        0.2,
                        0.15);
        int[] rates = {25600, 12800, 12000, 48000, 51200, 8000};
        int rateHz = rates[bench.pickWeighted(0.45, 0.2, 0.1, 0.1, 0.05, 0.1)];
        this.channels = bench.chance(0.3) ? 3 : 1;
        this.probe =
                new Probe.Spec(
                        hold,
                        50 * G_MPS2,
                        bench.logBetween(0.02, 0.15),
                        bench.between(0.7, 2),
                        true,
                        true);
        this.recorder =
                new SimulatedCapture.Recorder(rateHz, SimulatedCapture.SampleFormat.FLOAT_32, 1);
        this.durationS = bench.between(4, 12);
    }

    /** A bench for practice: a part that is said, on a quiet lathe, the probe on a magnet. */
    private BenchRig(long seed, BearingGeometry geometry, Ring turning, double durationS) {
        this.root = new Draw(seed).branch("bench");
        Draw bench = root.branch("bench");
        this.bearing = new TrueBearing("", geometry, turning, root.branch("slip").between(0, 0.01));
        this.spindle = bearing(bench.branch("spindle"), Ring.INNER);
        this.spindleDamaged = false;
        this.power = Power.LATHE;
        this.speedHz = PRACTICE_HZ;
        this.structure = new Structure(bench.branch("structure"));
        this.channels = 1;
        this.probe =
                new Probe.Spec(
                        Probe.Hold.MAGNET, PRACTICE_RECORDER.scaleMps2(), 0.05, 1, true, false);
        this.recorder = PRACTICE_RECORDER;
        this.durationS = durationS;
    }

    /**
     * Turns a part that is said: one that was taken off a vehicle.
     *
     * @param seed any number; the same number gives the same bench
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     * @param trouble what is wrong with the part; none for a sound sister, probe put down anew
     * @param durationS length of the recording, s
     * @return the recording
     */
    static SimulatedBench.Take practice(
            long seed, BearingGeometry geometry, Ring turning, Trouble trouble, double durationS) {
        BenchRig rig = new BenchRig(seed, geometry, turning, durationS);
        boolean sound = trouble.kind() == FaultKind.NONE;
        return rig.take(
                trouble.kind(),
                trouble.severityRatio(),
                sound ? rig.sister() : rig.bearing,
                rig.root.branch(sound ? "good" : "record"));
    }

    /**
     * Draws a bench.
     *
     * @param seed any number; the same number gives the same bench
     * @return the recordings and what is wrong
     */
    public static SimulatedBench turn(long seed) {
        BenchRig rig = new BenchRig(seed);
        Draw trouble = rig.root.branch("trouble");
        FaultKind kind =
                KINDS.get(trouble.pickWeighted(0.35, 0.13, 0.13, 0.1, 0.04, 0.08, 0.08, 0.09));
        double severity = kind == FaultKind.NONE ? 0 : trouble.between(0, 1);
        return new SimulatedBench(
                stated(rig.bearing.geometry(), rig.root.branch("stated")),
                rig.bearing.turningRing(),
                rig.take(kind, severity, rig.bearing, rig.root.branch("record")),
                rig.take(FaultKind.NONE, 0, rig.sister(), rig.root.branch("good")),
                new SimulatedBench.Fault(kind, severity, rig.spindleDamaged));
    }

    private static TrueBearing bearing(Draw draw, Ring turning) {
        int balls = draw.whole(6, 13);
        double pitchMm = draw.between(18, 60);
        // Neighbouring balls leave room for the cage: their pitch is 1.25 to 1.7 diameters.
        double ballMm = pitchMm * Math.sin(Math.PI / balls) / draw.between(1.25, 1.7);
        return new TrueBearing(
                "",
                new BearingGeometry(balls, ballMm, pitchMm, 0),
                turning,
                draw.between(0, 0.012));
    }

    /** Another of the same kind slips a little differently. */
    private TrueBearing sister() {
        return new TrueBearing(
                "",
                bearing.geometry(),
                bearing.turningRing(),
                root.branch("sister").between(0, 0.012));
    }

    private static BearingGeometry stated(BearingGeometry real, Draw draw) {
        double off = Math.max(-0.02, Math.min(0.02, 0.007 * draw.gaussian()));
        return new BearingGeometry(
                real.balls(), real.ballDiameterMm(), real.pitchDiameterMm() * (1 + off), 0);
    }

    private SimulatedBench.Take take(FaultKind kind, double severity, TrueBearing own, Draw draw) {
        int count = (int) Math.rint(durationS * recorder.sampleRateHz());
        CrankMotion motion = motion(draw.branch("speed"));
        Run run =
                new Run(
                        recorder.sampleRateHz(),
                        count,
                        motion,
                        Condition.UNLOADED,
                        REFERENCE_HZ,
                        draw.branch("run"));
        List<Place> places =
                List.of(
                        place("part", new Site(0, 0, 15), own, kind, severity, draw),
                        rig(root.branch("rig")));
        List<double[]> shaken = places.stream().map(p -> p.render(run)).toList();
        Probe held = new Probe(probe);
        Probe.Touch touch = held.touch(draw.branch("touch"), recorder.sampleRateHz(), count);
        double[][] accel = new double[channels][];
        for (int c = 0; c < channels; c++) {
            double[] arriving =
                    structure.arriving(
                            places,
                            shaken,
                            POINT,
                            new Site(0, 0, 0),
                            "axis" + c,
                            recorder.sampleRateHz());
            touch.hold(arriving, c, draw.branch("channel", c));
            held.convert(arriving, recorder);
            accel[c] = arriving;
        }
        double meanHz = (motion.turnsAt(durationS) - motion.turnsAt(0)) / durationS;
        double off = Math.max(-0.02, Math.min(0.02, 0.008 * draw.gaussian()));
        return new SimulatedBench.Take(
                recorder.sampleRateHz(),
                accel,
                60 * meanHz,
                60 * meanHz * (1 + off),
                pulses(motion, draw.branch("tach")));
    }

    private double[] pulses(CrankMotion motion, Draw draw) {
        TachSensor sensor = new TachSensor(POINT, 1, 0, draw.logBetween(2e-6, 5e-5), 1e-6, 0, 0);
        return sensor.record(new PartMotion(motion, 1, 0, 0), durationS, draw, draw).timesS();
    }

    /** A trigger finger wanders, a lathe sags a little, a motor on the mains hardly moves. */
    private CrankMotion motion(Draw draw) {
        double swing =
                switch (power) {
                    case HAND_DRILL -> draw.logBetween(0.0005, 0.006);
                    case LATHE -> draw.logBetween(0.0002, 0.001);
                    case MOTOR -> draw.logBetween(0.0001, 0.0006);
                };
        double swingHz = draw.between(0.1, 0.6);
        double phase = draw.between(0, 2 * Math.PI);
        double base = speedHz * (1 + swing * draw.gaussian());
        double[] speed = new double[(int) ((durationS + 2 * BEFORE_S) / CrankMotion.STEP_S) + 2];
        Arrays.setAll(
                speed,
                i ->
                        base
                                * (1
                                        + swing
                                                * Math.sin(
                                                        2
                                                                        * Math.PI
                                                                        * swingHz
                                                                        * i
                                                                        * CrankMotion.STEP_S
                                                                + phase)));
        return new CrankMotion(-BEFORE_S, draw.between(0, 2), speed, new double[] {0, 0});
    }

    private Place rig(Draw own) {
        List<Shaker> shakers = new ArrayList<>();
        AngleTable turn = new AngleTable();
        double unbalance = own.logBetween(0.05, 0.5);
        for (int k = 1; k <= 12; k++) {
            turn.add(k, unbalance * Math.pow(k, -0.7) * own.ratioOfDb(4), own.between(0, 1));
        }
        if (power == Power.HAND_DRILL) {
            int teeth = own.whole(28, 52);
            double mesh = own.logBetween(0.2, 2.5);
            turn.add(teeth, mesh, own.between(0, 1));
            turn.add(teeth - 1, 0.3 * mesh, own.between(0, 1));
            turn.add(teeth + 1, 0.3 * mesh, own.between(0, 1));
            turn.add(2 * teeth, 0.4 * mesh, own.between(0, 1));
        }
        LoadGain even = LoadGain.constant(Role.OTHER);
        shakers.add(new Tones(turn, 1, even, 1.4));
        if (power != Power.HAND_DRILL) {
            // A mains motor hums at 100 Hz and turns a little below 25 or 50 Hz.
            shakers.add(
                    new FixedTones(
                            power == Power.LATHE ? 24.2 : 49,
                            2,
                            own.logBetween(0.05, 0.5),
                            own.logBetween(0.1, 1),
                            true));
        }
        double hiss =
                power == Power.HAND_DRILL ? own.logBetween(0.1, 0.6) : own.logBetween(0.02, 0.2);
        shakers.add(
                BenchWear.rolling(
                        hiss, own.between(0, 0.15), spindle, even, RollingNoise.Crackles.NONE));
        if (spindleDamaged) {
            FaultKind kind =
                    own.pick(
                            List.of(
                                    FaultKind.BEARING_OUTER_RING,
                                    FaultKind.BEARING_INNER_RING,
                                    FaultKind.ROLLING_ELEMENT));
            shakers.add(BenchWear.defect(spindle, kind, own.logBetween(0.5, 8), own));
        }
        return new Place(
                "rig",
                new Site(own.between(60, 180), 0, 0),
                PartSound.modes(own.branch("modes")),
                turning(),
                shakers);
    }

    private static Place.PlaceDrive turning() {
        return new Place.PlaceDrive(1, 0, LoadGain.constant(Role.OTHER), 0, false);
    }

    private Place place(
            String name, Site site, TrueBearing own, FaultKind kind, double severity, Draw draw) {
        // A part has its own draws, so that the sound sister differs as two parts of a kind do.
        Draw part = draw.branch("part");
        LoadGain even = LoadGain.constant(Role.OTHER);
        List<Shaker> shakers = new ArrayList<>();
        AngleTable table = new AngleTable();
        double runOut = part.logBetween(0.03, 0.3);
        for (int k = 1; k <= 4; k++) {
            table.add(k, runOut * Math.pow(k, -0.8) * part.ratioOfDb(3), part.between(0, 1));
        }
        shakers.add(new Tones(table, 1, even, 1.8));
        double usual = root.branch("usual").logBetween(0.04, 0.25) * part.ratioOfDb(2);
        shakers.add(
                BenchWear.rolling(
                        usual, part.between(0, 0.2), own, even, RollingNoise.Crackles.NONE));
        for (FaultKind mild :
                List.of(
                        FaultKind.BEARING_OUTER_RING,
                        FaultKind.BEARING_INNER_RING,
                        FaultKind.ROLLING_ELEMENT)) {
            if (part.chance(0.3)) {
                shakers.add(BenchWear.defect(own, mild, part.logBetween(0.02, 0.15), part));
            }
        }
        BenchWear.add(
                shakers,
                own,
                kind,
                new Trouble(kind == FaultKind.NONE ? "none" : POINT, kind, severity, 0),
                part);
        return new Place(name, site, PartSound.modes(root.branch("modes")), turning(), shakers);
    }
}
