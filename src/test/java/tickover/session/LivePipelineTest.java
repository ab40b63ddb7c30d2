package tickover.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tickover.align.EdgeRun;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.align.SpeedReading;
import tickover.align.StreamGap;
import tickover.link.Chunk;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.SimulatedVan;
import tickover.store.VisitFolder;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;

/** The live picture of a stream. */
class LivePipelineTest {
    private static final int RATE_HZ = 3200;
    private static final long TICK_HZ = 1_000_000;
    private static final double TICKS_PER_SAMPLE = (double) TICK_HZ / RATE_HZ;
    private static final double RPM = 900;
    private static final double ORDER = 8.421875;

    private final LivePipeline live = new LivePipeline();

    private static HostNanos at(double timeS) {
        return new HostNanos(Math.round(timeS * 1e9));
    }

    @BeforeEach
    void describe() {
        describe(live, 0, Role.PROBE);
        note(
                live,
                RecordingNote.vehicle(VisitFolder.vehicleText(new SimulatedVan(false).vehicle())));
        start(live, 0, true);
    }

    private static void describe(LivePipeline to, int source, Role role) {
        Language language = role == Role.ADAPTER ? Language.COMMANDS : Language.FRAMES;
        SourceInfo info = SourceInfo.of(role, language, "p" + source, 0, "");
        to.told(new Chunk(Chunk.Kind.SOURCE, source, at(0), info.json()));
    }

    private static void note(LivePipeline to, RecordingNote note) {
        to.told(new Chunk(Chunk.Kind.NOTE, 0, at(0), note.json()));
    }

    private static void start(LivePipeline to, int segment, boolean follows) {
        to.block(
                new ProbeStart(
                        0,
                        segment,
                        at(0),
                        "p",
                        "",
                        1,
                        RATE_HZ,
                        TICK_HZ,
                        TICKS_PER_SAMPLE,
                        follows,
                        40,
                        0));
    }

    private static double felt(int sample, double order, double rms) {
        double turns = RPM / 60 * sample / RATE_HZ;
        return Math.sqrt(2) * rms * Math.cos(2 * Math.PI * order * turns);
    }

    private static SampleRun run(int from, int count, double rms) {
        double[] x = new double[count];
        for (int i = 0; i < count; i++) {
            // A little unrest, so that quiet is not flat.
            x[i] = felt(from + i, ORDER, rms) + 0.001 * ((from + i) % 7);
        }
        return new SampleRun(
                0,
                0,
                from,
                new DeviceTicks(Math.round(from * TICKS_PER_SAMPLE)),
                at((double) (from + count) / RATE_HZ),
                1,
                x,
                false);
    }

    private static EdgeRun edges(int source, double fromS, double toS, double tickHz) {
        long first = (long) Math.ceil(fromS * RPM / 60);
        List<Long> ticks = new ArrayList<>();
        for (long k = first; k * 60 / RPM < toS; k++) {
            ticks.add(Math.round(k * 60 / RPM * tickHz));
        }
        return new EdgeRun(
                source, 0, 0, at(toS), ticks.stream().mapToLong(Long::longValue).toArray());
    }

    /** Seconds of samples in runs, with edges a tenth of a second at a time. */
    private static void play(LivePipeline to, double fromS, double toS, int runSamples) {
        int edge = (int) Math.round(fromS * 10);
        for (int n = (int) (fromS * RATE_HZ); n < toS * RATE_HZ; ) {
            int count = (int) Math.min(runSamples, toS * RATE_HZ - n);
            to.block(run(n, count, 1));
            n += count;
            while ((edge + 1) / 10.0 <= (double) n / RATE_HZ) {
                to.block(edges(0, edge / 10.0, (edge + 1) / 10.0, TICK_HZ));
                edge++;
            }
        }
    }

    private LiveFrame latest() {
        return live.latest().orElseThrow();
    }

    @Test
    void thereIsNothingBeforeTheProbe() {
        assertTrue(live.latest().isEmpty());
    }

    @Test
    void aSoundStreamShowsTraceSpeedRowsAndLevels() {
        play(live, 0, 8, 64);
        LiveFrame f = latest();
        assertEquals(8, f.timeS(), 0.05);
        assertEquals(LiveFrame.Speed.EDGES, f.speed());
        // Edges come on whole ticks: a microsecond of a turn of 67 ms.
        assertEquals(RPM, f.speedRpm(), RPM * 4e-6 / 0.067);
        assertTrue(f.sharpOrders() > 100, "" + f.sharpOrders());
        assertEquals(1, f.rmsMps2(), 0.01);
        double highest = 0;
        for (long i = f.stretches() - 100; i < f.stretches(); i++) {
            highest = Math.max(highest, f.high(i));
        }
        assertEquals(Math.sqrt(2), highest, 0.02);
        long row = f.motion().rows() - 1;
        int bin = (int) Math.rint(ORDER * f.setup().turnsPerFrame());
        // The order stands a quarter of a bin off: 0.1 dB by Hann's main lobe.
        assertEquals(1, f.motion().row(row)[bin], 0.06);
        int rowsPerS = f.setup().rowsPerS();
        assertEquals(rowsPerS * (8 - 16 / 15.0), (double) f.motion().rows(), 10);
        int pump = f.setup().parts().indexOf("water-pump");
        assertEquals(1, f.levels().levelMps2(pump), 0.02);
        assertTrue(f.levels().hasErrors());
        assertFalse(f.isClipped() || f.isLifted() || f.isFlat() || f.missedEdges());
        assertFalse(f.lostSamples());
    }

    @Test
    void theSameStreamInOtherRunsGivesTheSameToTheLastBit() {
        LivePipeline other = new LivePipeline();
        describe(other, 0, Role.PROBE);
        note(
                other,
                RecordingNote.vehicle(VisitFolder.vehicleText(new SimulatedVan(false).vehicle())));
        start(other, 0, true);
        play(live, 0, 6, 64);
        play(other, 0, 6, 640);
        // The last edges come behind the last samples, and are seen with the next ones.
        live.block(run(6 * RATE_HZ, 640, 1));
        other.block(run(6 * RATE_HZ, 640, 1));
        LiveFrame a = latest();
        LiveFrame b = other.latest().orElseThrow();
        assertEquals(a.motion().rows(), b.motion().rows());
        for (long r = a.motion().rows() - LiveFall.ROWS; r < a.motion().rows(); r++) {
            assertArrayEquals(a.motion().row(r), b.motion().row(r), "row " + r);
            assertEquals(a.motion().rpm(r), b.motion().rpm(r));
        }
        for (int p = 0; p < a.setup().parts().size(); p++) {
            assertEquals(a.levels().levelMps2(p), b.levels().levelMps2(p));
        }
        assertEquals(a.stretches(), b.stretches());
        for (long s = a.stretches() - LiveFrame.TRACE; s < a.stretches(); s++) {
            assertEquals(a.high(s), b.high(s));
        }
    }

    @Test
    void withoutEdgesThereIsNoSpeedButATrace() {
        for (int n = 0; n < 2 * RATE_HZ; n += 64) {
            live.block(run(n, 64, 1));
        }
        LiveFrame f = latest();
        assertEquals(LiveFrame.Speed.NONE, f.speed());
        assertEquals(0, f.motion().rows());
        assertTrue(f.stretches() > 500);
    }

    @Test
    void anEngineThatStopsHasNoSpeedAnyMore() {
        play(live, 0, 4, 64);
        for (int n = 4 * RATE_HZ; n < 6 * RATE_HZ; n += 64) {
            live.block(run(n, 64, 1));
        }
        assertEquals(LiveFrame.Speed.NONE, latest().speed());
    }

    @Test
    void readingsGiveTheSpeedWhereThereIsNoTach() {
        describe(live, 1, Role.ADAPTER);
        for (int n = 0; n < 8 * RATE_HZ; n += 64) {
            live.block(run(n, 64, 1));
            if (n % 640 == 0) {
                double now = (double) n / RATE_HZ;
                live.block(new SpeedReading(1, at(now), at(now + 0.02), RPM));
            }
        }
        LiveFrame f = latest();
        assertEquals(LiveFrame.Speed.READINGS, f.speed());
        assertEquals(RPM, f.speedRpm(), 1e-6);
        int bin = (int) Math.rint(ORDER * f.setup().turnsPerFrame());
        assertEquals(1, f.motion().row(f.motion().rows() - 1)[bin], 0.06);
    }

    @Test
    void aTachBoardOfItsOwnGivesTheSpeed() {
        describe(live, 1, Role.TACH);
        live.block(new ProbeStart(1, 0, at(0), "t", "", 1, 0, 16e6, 0, false, 0, 0));
        for (int n = 0; n < 8 * RATE_HZ; n += 320) {
            live.block(run(n, 320, 1));
            double from = (double) n / RATE_HZ;
            live.block(edges(1, from, from + 0.1, 16e6));
        }
        LiveFrame f = latest();
        assertEquals(LiveFrame.Speed.EDGES, f.speed());
        assertEquals(RPM, f.speedRpm(), 1);
    }

    @Test
    void aCaptureBeginsItsLevelsAnew() {
        play(live, 0, 8, 64);
        assertTrue(latest().levels().segments() > 3);
        note(
                live,
                RecordingNote.begins(
                        1,
                        new PlannedCapture(
                                "idler",
                                "radial",
                                tickover.diagnose.Mount.HAND,
                                tickover.diagnose.Regime.IDLE,
                                tickover.drive.Condition.UNLOADED)));
        play(live, 8, 8.5, 64);
        assertEquals(0, latest().levels().segments());
        play(live, 8.5, 12, 64);
        assertTrue(latest().levels().segments() > 0);
    }

    @Test
    void troubleIsToldForAWhile() {
        play(live, 0, 4, 64);
        live.block(new StreamGap(0, 0, StreamGap.Cause.LOST_ON_LINE, at(4), 4L * RATE_HZ, 32));
        play(live, 4.1, 5, 64);
        assertTrue(latest().lostSamples());
        play(live, 5, 9, 64);
        assertFalse(latest().lostSamples());
    }

    @Test
    void aProbeThatBeginsAnewIsANewPicture() {
        play(live, 0, 3, 64);
        LiveSetup before = latest().setup();
        start(live, 1, true);
        SampleRun again = run(0, 640, 1);
        live.block(
                new SampleRun(
                        0, 1, 0, again.firstTick(), again.arrival(), 1, again.accelMps2(), false));
        assertTrue(latest().setup().stream() > before.stream());
        assertEquals(0, latest().motion().rows());
    }

    @Test
    void aSnapshotIsLeftAloneUntilTheNextIsAskedFor() {
        play(live, 0, 3, 64);
        LiveFrame held = latest();
        long number = held.number();
        float[] row = held.motion().row(held.motion().rows() - 1).clone();
        play(live, 3, 6, 64);
        assertEquals(number, held.number());
        assertArrayEquals(row, held.motion().row(held.motion().rows() - 1));
        LiveFrame next = latest();
        assertTrue(next.number() > number);
        assertSame(next, latest());
    }

    /** Two threads, and every snapshot is whole: all of its rows carry the number they should. */
    @Test
    void readerAndWriterNeverMeet() throws InterruptedException {
        Thread writer = new Thread(() -> play(live, 0, 10, 64));
        writer.start();
        long seen = 0;
        double lastS = 0;
        while (writer.isAlive()) {
            LiveFrame f = live.latest().orElse(null);
            if (f == null || f.motion().rows() == 0) {
                continue;
            }
            seen++;
            double nowS = f.motion().endS(f.motion().rows() - 1);
            assertTrue(nowS >= lastS && nowS <= f.timeS() + 1e-9, nowS + " after " + lastS);
            for (long r = Math.max(1, f.motion().rows() - LiveFall.ROWS + 1);
                    r < f.motion().rows();
                    r++) {
                assertTrue(f.motion().endS(r) > f.motion().endS(r - 1), "row " + r);
            }
            lastS = nowS;
        }
        writer.join();
        assertTrue(seen > 0);
        assertNotNull(latest());
    }

    @Test
    void aProbeThatDoesNotSayItsRateIsListenedToFirst() {
        LivePipeline text = new LivePipeline();
        describe(text, 0, Role.PROBE);
        text.block(new ProbeStart(0, 0, at(0), "", "", 1, 0, TICK_HZ, 0, false, 0, 0));
        Random random = new Random(1);
        for (int n = 0; n < 3 * RATE_HZ; n += 16) {
            SampleRun exact = run(n, 16, 1);
            long tick = exact.firstTick().value() + random.nextInt(500);
            text.block(
                    new SampleRun(
                            0,
                            0,
                            n,
                            new DeviceTicks(tick),
                            exact.arrival(),
                            1,
                            Arrays.copyOf(exact.accelMps2(), 16),
                            false));
        }
        LiveSetup setup = text.latest().orElseThrow().setup();
        // Half a millisecond of stray in a second.
        assertEquals(RATE_HZ, setup.sampleRateHz(), RATE_HZ * 1e-3);
        assertTrue(setup.parts().isEmpty());
    }
}
