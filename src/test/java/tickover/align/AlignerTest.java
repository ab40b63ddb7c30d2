package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.unit.HostNanos;
import tickover.wire.ButtonEvent;
import tickover.wire.CommandAnswer;
import tickover.wire.FrameDecoder;
import tickover.wire.FrameWriter;
import tickover.wire.Hello;
import tickover.wire.Pong;
import tickover.wire.ProbeStatus;
import tickover.wire.SensorKind;

/** Starts, resets, unplugs and frames that lie. */
class AlignerTest {
    private final List<AlignedBlock> blocks = new ArrayList<>();
    private final Aligner aligner = new Aligner(0, TextScale.AS_PRINTED, blocks::add);
    private final SimulatedProbe probe = new SimulatedProbe(1, aligner);

    private void run(int count) {
        for (int i = 0; i < count; i++) {
            probe.sendBlock();
            probe.deliver();
        }
    }

    private <T> List<T> all(Class<T> type) {
        return blocks.stream().filter(type::isInstance).map(type::cast).toList();
    }

    private void feed(FrameWriter writer) {
        byte[] bytes = writer.take();
        aligner.at(new HostNanos(Math.round(probe.hostS * 1e9)));
        new FrameDecoder().feed(bytes, 0, bytes.length, aligner);
    }

    private void assertAllRight() {
        for (SampleRun run : all(SampleRun.class)) {
            for (int i = 0; i < run.count(); i++) {
                assertTrue(Double.isFinite(run.accelMps2()[i]));
            }
        }
    }

    @Test
    void nothingIsPassedOnBeforeTheProbeSaidWhatItIs() {
        run(20);
        assertTrue(blocks.isEmpty());
        assertTrue(aligner.waitsForHello());
        probe.sendHello();
        probe.deliver();
        assertFalse(aligner.waitsForHello());
        run(5);
        assertEquals(25, all(SampleRun.class).size());
        assertEquals(0, all(SampleRun.class).get(0).firstSample());
        assertTrue(all(StreamGap.class).isEmpty());
        assertAllRight();
    }

    @Test
    void samplesLostBetweenStartAndTheFirstBlockAreTold() {
        probe.sendStarted();
        probe.deliver();
        probe.number += 64;
        run(3);
        aligner.finish();
        StreamGap gap = all(StreamGap.class).get(0);
        assertEquals(StreamGap.Cause.LOST_ON_LINE, gap.cause());
        assertEquals(0, gap.firstMissing());
        assertEquals(64, gap.missing().orElseThrow());
    }

    @Test
    void aResetEndsTheSegmentWithAndWithoutItsHello() {
        for (boolean heard : new boolean[] {true, false}) {
            blocks.clear();
            int before = 50;
            probe.sendStarted();
            run(before);
            probe.restart(123);
            probe.hostS += 3;
            if (heard) {
                probe.sendHello();
            }
            run(30);
            aligner.finish();
            List<ProbeStart> starts = all(ProbeStart.class);
            List<StreamGap> gaps = all(StreamGap.class);
            StreamGap last = gaps.get(gaps.size() - 1);
            assertEquals(StreamGap.Cause.RESET, last.cause());
            assertTrue(last.missing().isEmpty());
            int segment = starts.get(starts.size() - 1).segment();
            List<SampleRun> after =
                    all(SampleRun.class).stream().filter(r -> r.segment() == segment).toList();
            assertEquals(30, after.size());
            assertEquals(SimulatedProbe.accelMps2(0), after.get(0).accelMps2()[0]);
            assertEquals(123, after.get(0).firstTick().value());
        }
    }

    @Test
    void aNewStartIsToldFromAReset() {
        probe.sendStarted();
        run(40);
        long now = probe.tickOf(probe.number);
        int boot = probe.boot;
        probe.restart(now);
        probe.boot = boot;
        probe.sendStarted();
        run(40);
        assertEquals(StreamGap.Cause.RESTARTED, all(StreamGap.class).get(0).cause());
        assertEquals(1, all(StreamGap.class).size());
        assertEquals(80, all(SampleRun.class).size());
    }

    @Test
    void oneFrameThatContradictsTheOthersIsLeftOut() {
        probe.sendStarted();
        run(30);
        int[] counts = new int[SimulatedProbe.SAMPLES];
        long tick = probe.tickOf(probe.number) % (1L << 32);
        feed(new FrameWriter().samples(900_000, tick, 1, 16, false, counts, 0, 32));
        run(10);
        feed(new FrameWriter().samples(5, tick, 1, 16, false, counts, 0, 32));
        run(10);
        assertEquals(2, aligner.tally().implausible());
        assertEquals(50, all(SampleRun.class).size());
        assertTrue(all(StreamGap.class).isEmpty());
        assertEquals(1, all(ProbeStart.class).size());
    }

    @Test
    void framesThatComeTwiceArePassedOnOnce() {
        probe.sendStarted();
        run(10);
        long number = probe.number - 32;
        int[] counts = new int[32];
        for (int i = 0; i < 32; i++) {
            counts[i] = SimulatedProbe.count(number + i);
        }
        long tick = probe.tickOf(number) % (1L << 32);
        feed(new FrameWriter().samples(number, tick, 1, 16, false, counts, 0, 32));
        run(10);
        assertEquals(1, aligner.tally().duplicates());
        assertEquals(20, all(SampleRun.class).size());
    }

    @Test
    void anUnplugIsNeverJoinedAcross() {
        probe.sendStarted();
        run(10);
        aligner.unplugged(new HostNanos(Math.round(probe.hostS * 1e9)));
        probe.hostS += 5;
        // The board kept its power: its numbers would run on.
        run(10);
        assertTrue(aligner.waitsForHello());
        probe.sendHello();
        run(1);
        assertEquals(StreamGap.Cause.UNPLUGGED, all(StreamGap.class).get(0).cause());
        assertEquals(1, all(ProbeStart.class).get(1).segment());
        assertEquals(21, all(SampleRun.class).size());
    }

    @Test
    void aStepOfTheHostEndsTheSegmentAndNumbersGoOn() {
        probe.sendStarted();
        run(1000);
        probe.hostS -= 5;
        run(1000);
        StreamGap gap = all(StreamGap.class).get(0);
        assertEquals(StreamGap.Cause.CLOCK_STEP, gap.cause());
        assertEquals(0, gap.missing().orElseThrow());
        assertEquals(1, all(StreamGap.class).size());
        assertEquals(2000, all(SampleRun.class).size());
    }

    @Test
    void lostPressesAreCounted() {
        probe.sendStarted();
        run(5);
        long tick = probe.tickOf(probe.number) % (1L << 32);
        feed(new FrameWriter().button(new ButtonEvent(tick, 0, true, 65_535)));
        feed(new FrameWriter().button(new ButtonEvent(tick, 0, false, 65_535)));
        feed(new FrameWriter().button(new ButtonEvent(tick, 0, true, 2)));
        List<ButtonPress> presses = all(ButtonPress.class);
        assertEquals(2, presses.size());
        assertEquals(0, presses.get(0).lostBefore());
        assertEquals(2, presses.get(1).lostBefore());
    }

    @Test
    void clockComesOutOfTheSamplesAlone() {
        probe.sendStarted();
        run(2000);
        ClockFit fit = aligner.clock().orElseThrow();
        double ppm = 1e6 * Math.abs(fit.secondsPerTick() * SimulatedProbe.TICK_HZ - 1);
        assertTrue(ppm < 30, ppm + " ppm");
        assertFalse(fit.bracketed());
    }

    /** A board for tach edges alone, 0.4 % slow, whose answers come 3 ms after what they tell. */
    private final class TachBoard {
        private static final double TICK_HZ = 1e6;
        private static final double RATIO = 1 - 0.004;
        private final FrameWriter writer = new FrameWriter();
        private double nowS = 100;
        private long firstTick = 4_290_000_000L;
        private double startedS = nowS;
        private int number;
        private long pings;

        private long tick() {
            double ticks = (nowS - startedS) * TICK_HZ * RATIO;
            return (firstTick + Math.round(ticks)) & 0xFFFFFFFFL;
        }

        private void arrive(FrameWriter frames) {
            byte[] bytes = frames.take();
            aligner.at(new HostNanos(0).plusS(nowS + 0.003));
            new FrameDecoder().feed(bytes, 0, bytes.length, aligner);
        }

        void start() {
            startedS = nowS;
            Hello hello =
                    new Hello(
                            1,
                            0,
                            5,
                            9,
                            SensorKind.UNKNOWN,
                            1,
                            16,
                            1,
                            1,
                            1,
                            1,
                            (long) TICK_HZ,
                            0,
                            true,
                            false,
                            false,
                            "tach");
            number = 0;
            arrive(writer.answer(new CommandAnswer(0x43, 0)).hello(hello));
        }

        /** The engine stands; the board says once in 2 s that it lives, and answers a ping. */
        void stand(double forS) {
            for (double untilS = nowS + forS; nowS < untilS; nowS += 2) {
                aligner.pinged(pings, new HostNanos(0).plusS(nowS - 0.001));
                long tick = tick();
                writer.status(new ProbeStatus(tick, 0, 0, -32768, 65535));
                arrive(writer.pong(new Pong(pings++, tick, tick)));
            }
        }

        /** Ten edges a second in frames of two, every so many of them lost. */
        void turn(int frames, int lostEach) {
            for (int i = 0; i < frames; i++) {
                nowS += 0.1;
                long first = tick();
                nowS += 0.1;
                writer.tach(number, 0, new long[] {first, tick()}, 0, 2);
                number = (number + 2) & 0xFFFF;
                if (i % lostEach == lostEach - 1) {
                    writer.take();
                } else {
                    arrive(writer);
                }
            }
        }

        /** The line is down, and the engine turns on. */
        void skip(int edges) {
            for (int i = 0; i < edges; i += 20) {
                nowS += 2;
                number = (number + 20) & 0xFFFF;
                aligner.pinged(pings, new HostNanos(0).plusS(nowS - 0.001));
                writer.pong(new Pong(pings++, tick(), tick()));
                if (i % 1000 == 0) {
                    arrive(writer);
                } else {
                    writer.take();
                }
            }
        }

        long edges() {
            return all(EdgeRun.class).stream().mapToLong(r -> r.ticks().length).sum();
        }

        long missed() {
            return all(EdgeRun.class).stream().mapToLong(EdgeRun::missedBefore).sum();
        }
    }

    @Test
    void aBoardWithoutSamplesHasItsEdgesCounted() {
        TachBoard board = new TachBoard();
        board.start();
        board.turn(101, 10);
        assertEquals(2 * 91, board.edges());
        assertEquals(2 * 10, board.missed());
        long[] last = {0};
        for (EdgeRun run : all(EdgeRun.class)) {
            for (long tick : run.ticks()) {
                assertTrue(tick > last[0], "over the counter's wrap");
                last[0] = tick;
            }
        }
    }

    /** Its number has come round once and says less than was lost; the speed says the rest. */
    @Test
    void edgesThatAreLostByTheTenThousandsAreCounted() {
        TachBoard board = new TachBoard();
        board.start();
        board.turn(10, 100);
        int lost = 65_540;
        board.skip(lost);
        board.turn(10, 100);
        assertEquals(lost, board.missed());
    }

    /** Its clock and the host's disagree by more than a message can be late before it turns. */
    @Test
    void aBoardWithoutSamplesIsBelievedAfterAnHourOfAStandingEngine() {
        TachBoard board = new TachBoard();
        board.start();
        board.turn(10, 100);
        board.stand(3600);
        board.turn(10, 100);
        assertEquals(40, board.edges());
        assertEquals(0, board.missed(), "for the engine stood");
        assertEquals(0, aligner.tally().implausible());
        assertEquals(1, all(ProbeStart.class).size(), "and goes on as it was");
        double drift = 3600 * 4e-3;
        assertTrue(drift > 5, "the test is about more than 5 s");
        double skewPpm = 1e6 * (1 / TachBoard.RATIO - 1);
        assertEquals(skewPpm, 1e6 * (aligner.clock().orElseThrow().secondsPerTick() * 1e6 - 1), 50);
    }
}
