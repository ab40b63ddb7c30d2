package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;

/** Pieces of a capture, and speed on their time base. */
class CaptureAssemblerTest {
    private static final double TICK_HZ = 1e6;
    private static final HostNanos ORIGIN = new HostNanos(5_000_000_000L);

    /** The first axis of each stretch. */
    private final List<List<Double>> held = new ArrayList<>();

    private CaptureAssembler assembler() {
        StretchSink sink =
                new StretchSink() {
                    @Override
                    public void begin(int stretch, ProbeStart start, int axes) {
                        assertEquals(held.size(), stretch);
                        held.add(new ArrayList<>());
                    }

                    @Override
                    public void samples(SampleRun run) {
                        for (int i = 0; i < run.count(); i++) {
                            held.get(held.size() - 1).add(run.accelMps2()[i * run.axes()]);
                        }
                    }
                };
        return new CaptureAssembler(new CaptureAssembler.Spec(0, 1, 1, 0.5), sink);
    }

    private static ProbeStart start(int source, double rateHz, boolean follows) {
        double each = TICK_HZ / rateHz;
        return new ProbeStart(source, 0, ORIGIN, "", "", 1, rateHz, TICK_HZ, each, follows, 160, 0);
    }

    private static SampleRun run(long first, int count, double tick) {
        double[] accel = new double[count];
        for (int i = 0; i < count; i++) {
            accel[i] = first + i;
        }
        DeviceTicks at = new DeviceTicks(Math.round(tick));
        HostNanos arrival = ORIGIN.plusS(tick / TICK_HZ);
        return new SampleRun(0, 0, first, at, arrival, 1, accel, false);
    }

    @Test
    void edgesOfTheSameBoardLieBetweenTheirSamplesOnBothSidesOfAGap() {
        double rateHz = 3200.25;
        double each = TICK_HZ / rateHz;
        CaptureAssembler assembler = assembler();
        assembler.take(start(0, rateHz, true));
        // The crystal is 40 ppm fast: nothing of that may show in the edges.
        assembler.clock(0, 0, new ClockFit(ORIGIN, 0, 0, 1 / (TICK_HZ * (1 + 40e-6)), 0, 0, true));
        long next = 0;
        for (int i = 0; i < 300; i++) {
            boolean lost = i == 150 || i == 160;
            if (lost) {
                assembler.take(new StreamGap(0, 0, StreamGap.Cause.LOST_ON_LINE, ORIGIN, next, 32));
            } else {
                assembler.take(run(next, 32, next * each));
            }
            next += 32;
        }
        double turn = 31_250;
        long[] edges = new long[90];
        for (int i = 0; i < edges.length; i++) {
            edges[i] = Math.round(1000 + i * turn);
        }
        assembler.take(new EdgeRun(0, 0, 0, ORIGIN, edges));
        AssembledCapture capture = assembler.finish();
        assertEquals(2, capture.pieces().size());
        assertEquals(2, capture.gaps().size());
        assertEquals(1, capture.tooShortS().size());
        for (CapturePiece piece : capture.pieces()) {
            assertEquals(3200, piece.rateHz(), 0);
            assertEquals(0, piece.speedErrorS(), 0);
            double ppm = 1e6 * piece.rateErrorRatio();
            assertEquals(1e6 * (3200.25 * (1 + 40e-6) / 3200 - 1), ppm, 0.01);
            List<Double> x = held.get(piece.stretch());
            assertEquals(piece.samples(), x.size());
            assertEquals((double) piece.firstSample(), x.get(0), 0);
            assertEquals((double) (piece.firstSample() + x.size() - 1), x.get(x.size() - 1), 0);
            double[] pulses = ((TachPulses) piece.speed()).timesS();
            assertTrue(pulses.length > 20);
            for (double pulse : pulses) {
                double tick = (piece.firstSample() + pulse * 3200) * each;
                double off = (tick - 1000) / turn;
                double tickStep = 1.5 / turn; // both were rounded to whole ticks
                assertEquals(Math.rint(off), off, tickStep);
            }
        }
    }

    @Test
    void edgesOfAnotherBoardGoOverBothClocks() {
        CaptureAssembler assembler = assembler();
        assembler.take(start(0, 3200, true));
        assembler.take(start(1, 100, true));
        double probeRate = 1 + 30e-6;
        double tachRate = 1 - 0.004;
        assembler.clock(
                0, 0, new ClockFit(ORIGIN, 500_000, 0, probeRate / TICK_HZ, 0.3e-3, 1e-6, true));
        assembler.clock(
                1,
                0,
                new ClockFit(ORIGIN, 9_000_000, 0.25, tachRate / TICK_HZ, 0.4e-3, 1e-6, true));
        for (int i = 0; i < 400; i++) {
            assembler.take(run(32L * i, 32, 32 * i * 312.5));
        }
        long[] edges = new long[60];
        for (int i = 0; i < edges.length; i++) {
            edges[i] = 9_000_000 + 40_000L * i;
        }
        assembler.take(new EdgeRun(1, 0, 0, ORIGIN, edges));
        CapturePiece piece = assembler.finish().pieces().get(0);
        double[] pulses = ((TachPulses) piece.speed()).timesS();
        assertEquals(60, pulses.length);
        for (int i = 0; i < pulses.length; i++) {
            double hostS = 0.25 + 0.04 * i * tachRate;
            double probeTick = 500_000 + hostS / probeRate * TICK_HZ;
            double rounding = 2e-9; // host times are whole nanoseconds
            assertEquals(probeTick / 312.5 / 3200, pulses[i], rounding);
        }
        assertTrue(piece.speedErrorS() >= 0.7e-3 && piece.speedErrorS() < 0.8e-3);
    }

    @Test
    void withoutPingsTheUnknownDelayIsPartOfTheStatedError() {
        CaptureAssembler assembler = assembler();
        assembler.take(start(0, 3200, true));
        assembler.take(start(1, 100, true));
        assembler.clock(0, 0, new ClockFit(ORIGIN, 0, 0, 1 / TICK_HZ, 0.1e-3, 0, true));
        assembler.clock(1, 0, new ClockFit(ORIGIN, 0, 0, 1 / TICK_HZ, 0.1e-3, 0, false));
        for (int i = 0; i < 400; i++) {
            assembler.take(run(32L * i, 32, 32 * i * 312.5));
        }
        assembler.take(new EdgeRun(1, 0, 0, ORIGIN, new long[] {100_000, 140_000}));
        double frameS = 22e-3; // 250 bytes at 115200 baud: the tick is taken before they are sent
        assertTrue(assembler.finish().pieces().get(0).speedErrorS() > frameS);
    }

    @Test
    void readingsKeepTheirArrivalTimes() {
        CaptureAssembler assembler = assembler();
        assembler.take(start(0, 3200, true));
        assembler.clock(0, 0, new ClockFit(ORIGIN, 0, 0, 1 / TICK_HZ, 0, 0, true));
        for (int i = 0; i < 400; i++) {
            assembler.take(run(32L * i, 32, 32 * i * 312.5));
            if (i % 50 == 0) {
                HostNanos answered = ORIGIN.plusS(0.01 * i + 0.2);
                assembler.take(new SpeedReading(1, ORIGIN.plusS(0.01 * i), answered, 800 + i));
            }
        }
        CapturePiece piece = assembler.finish().pieces().get(0);
        SpeedReadings speed = (SpeedReadings) piece.speed();
        assertTrue(speed.lagUnknown());
        assertEquals(0.2, speed.timesS()[0], 1e-9);
        assertEquals(0.7, speed.timesS()[1], 1e-9);
    }

    @Test
    void aSensorWithAClockOfItsOwnIsFollowedThroughItsDrift() {
        Random random = new Random(11);
        CaptureAssembler assembler = assembler();
        assembler.take(start(0, 3200, false));
        double fetchS = 2e-3;
        int blocks = 12_000;
        double[] real = new double[blocks];
        double tick = 0;
        for (int i = 0; i < blocks; i++) {
            // 3 % slow, and slower by 0.02 % at the end of two minutes.
            double each = 312.5 * (1.03 + 2e-4 * i / blocks);
            real[i] = tick;
            double fetched = tick + fetchS * TICK_HZ * (random.nextDouble() - 0.5);
            assembler.take(run(32L * i, 32, fetched));
            tick += 32 * each;
        }
        long[] edges = new long[blocks / 10];
        for (int i = 0; i < edges.length; i++) {
            edges[i] = Math.round(real[10 * i]);
        }
        assembler.take(new EdgeRun(0, 0, 0, ORIGIN, edges));
        CapturePiece piece = assembler.finish().pieces().get(0);
        assertEquals(3107, piece.rateHz(), 1);
        double[] pulses = ((TachPulses) piece.speed()).timesS();
        double worst = 0;
        int shift = edges.length - pulses.length;
        for (int i = 0; i < pulses.length; i++) {
            double realS = 320 * (i + shift) / piece.rateHz();
            worst = Math.max(worst, Math.abs(pulses[i] - realS));
        }
        double rmsOfFetches = fetchS / Math.sqrt(12);
        assertEquals(rmsOfFetches, piece.sampleClockErrorS(), 0.1 * rmsOfFetches);
        double aimS = 0.25e-3; // an eighth of the fetches' scatter
        assertTrue(worst < aimS, "off by " + worst + " s");
    }

    private static void readings(CaptureAssembler assembler, int source, double toS) {
        for (int i = 0; i < 10 * toS; i++) {
            HostNanos at = ORIGIN.plusS(0.1 * i);
            assembler.take(new SpeedReading(source, at, at, 800));
        }
    }

    private static void edges(
            CaptureAssembler assembler, int source, int segment, double fromS, double toS) {
        int count = (int) (10 * (toS - fromS));
        long[] ticks = new long[count];
        for (int i = 0; i < count; i++) {
            ticks[i] = Math.round((fromS + 0.1 * i) * TICK_HZ);
        }
        assembler.take(new EdgeRun(source, segment, 0, ORIGIN, ticks));
    }

    private static SpeedSource.Kind kind(CapturePiece piece) {
        return piece.speed().kind();
    }

    /** A probe and another board, whose clocks run alike. */
    private CaptureAssembler twoBoards() {
        CaptureAssembler assembler = assembler();
        ClockFit same = new ClockFit(ORIGIN, 0, 0, 1 / TICK_HZ, 0.2e-3, 0, true);
        assembler.take(start(0, 3200, true));
        assembler.clock(0, 0, same);
        assembler.clock(1, 0, same);
        return assembler;
    }

    /** A tach lead that comes off at a reset: the pieces have to be asked one by one. */
    @Test
    void eachPieceHasTheBestSpeedThatItHas() {
        CaptureAssembler assembler = twoBoards();
        // Four stretches of 1 s: own edges; a second board's alone; readings alone; own and others.
        for (int i = 0; i < 400; i++) {
            if (i % 100 != 0) {
                assembler.take(run(32L * i, 32, 32 * i * 312.5));
            }
        }
        edges(assembler, 0, 0, 0, 1);
        edges(assembler, 0, 0, 3.2, 4);
        edges(assembler, 1, 0, 1, 2);
        edges(assembler, 1, 0, 3, 4);
        readings(assembler, 2, 4);
        List<CapturePiece> pieces = assembler.finish().pieces();
        assertEquals(
                List.of(
                        SpeedSource.Kind.TACH,
                        SpeedSource.Kind.TACH,
                        SpeedSource.Kind.OBD,
                        SpeedSource.Kind.TACH),
                pieces.stream().map(CaptureAssemblerTest::kind).toList());
        assertEquals(0, pieces.get(0).speedErrorS(), 0, "of the probe's own board");
        assertTrue(pieces.get(1).speedErrorS() > 0, "over two clocks");
        // The last second: its own board's edges cover 0.7 of 1 s, the other's all of it.
        assertTrue(pieces.get(3).speedErrorS() > 0, "the board that saw every turn");
    }

    /** Nothing is wired to the probe's own input, and it counts what it picks up. */
    @Test
    void ownEdgesThatContradictTheNamedBoardAreLeftOut() {
        for (double perS : new double[] {10, 50}) {
            held.clear();
            CaptureAssembler assembler = twoBoards();
            for (int i = 0; i < 400; i++) {
                assembler.take(run(32L * i, 32, 32 * i * 312.5));
            }
            long[] own = new long[(int) (4 * perS)];
            for (int i = 0; i < own.length; i++) {
                own[i] = Math.round(i * TICK_HZ / perS);
            }
            assembler.take(new EdgeRun(0, 0, 0, ORIGIN, own));
            edges(assembler, 1, 0, 0, 4);
            CapturePiece piece = assembler.finish().pieces().get(0);
            int pulses = ((TachPulses) piece.speed()).timesS().length;
            assertEquals(40, pulses, perS + " edges a second on the probe's own board");
            assertEquals(perS == 10, piece.speedErrorS() == 0, "own edges, where both agree");
        }
    }

    @Test
    void edgesOnEitherSideHoldAPiecesEnds() {
        CaptureAssembler assembler = assembler();
        assembler.take(start(0, 3200, true));
        for (int i = 50; i < 250; i++) {
            assembler.take(run(32L * i, 32, 32 * i * 312.5));
        }
        edges(assembler, 0, 0, 0.03, 3);
        double[] pulses = ((TachPulses) assembler.finish().pieces().get(0).speed()).timesS();
        assertTrue(pulses[0] < 0, "first pulse at " + pulses[0] + " s");
        assertTrue(pulses[pulses.length - 1] > 2, "last at " + pulses[pulses.length - 1] + " s");
    }
}
