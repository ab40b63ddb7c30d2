package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.align.AlignedBlock;
import tickover.align.EdgeRun;
import tickover.align.SampleRun;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.link.ByteLink;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingReader;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.EndlessScene;
import tickover.sim.EndlessScene.Tone;
import tickover.sim.EndlessScene.Turning;
import tickover.sim.LineScene;
import tickover.sim.LineTrouble;
import tickover.sim.SceneView;
import tickover.sim.SimulatedAdapter;
import tickover.sim.SimulatedProbe;
import tickover.unit.HostNanos;

/** Recording from simulated devices in real time, by the threads that record from real ones. */
class RecorderTest {
    @TempDir private Path folder;

    private static final EndlessScene SCENE =
            new EndlessScene(
                    new Turning(780, 0.02, 3),
                    List.of(new Tone(1, 0.5, 0), new Tone(5.997, 0.8, 1)),
                    0.05,
                    1,
                    1.0,
                    2.0);

    private static RecordLine probe(LineTrouble.Spec trouble) {
        return probe(SCENE, trouble);
    }

    private static RecordLine probe(LineScene scene, LineTrouble.Spec trouble) {
        SimulatedProbe device = new SimulatedProbe(SimulatedProbe.Spec.ordinary(8000, 40), scene);
        ByteLink link =
                new SimulatedLink(
                        "simulated", device, new LineTrouble(trouble, 1), System.nanoTime());
        Supplier<ByteLink> open = () -> link;
        return new RecordLine(
                SourceInfo.of(Role.PROBE, Language.FRAMES, "simulated", 500_000, "1007"), open);
    }

    private static PlannedCapture capture() {
        return new PlannedCapture("idler", "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED);
    }

    private RecordPlan plan(boolean byPress, double lengthS) {
        return new RecordPlan(
                folder.resolve("a.tkr"),
                "",
                List.of(capture()),
                byPress,
                lengthS,
                0,
                20,
                1,
                "crank");
    }

    /** A block in words that differ if a single bit of it does. */
    private static String words(AlignedBlock block) {
        if (block instanceof SampleRun run) {
            StringBuilder b = new StringBuilder();
            b.append(run.segment()).append(' ').append(run.firstSample()).append(' ');
            b.append(run.firstTick()).append(run.arrival());
            for (double v : run.accelMps2()) {
                b.append(' ').append(Double.doubleToRawLongBits(v));
            }
            return b.toString();
        }
        if (block instanceof EdgeRun run) {
            StringBuilder b = new StringBuilder();
            b.append(run.segment()).append(run.arrival()).append(run.missedBefore());
            for (long t : run.ticks()) {
                b.append(' ').append(t);
            }
            return b.toString();
        }
        return block.toString();
    }

    /** Blocks, and the level and speed of each second, in words. */
    private static final class Derived implements StreamListener {
        final List<String> words = new ArrayList<>();
        private final LiveMeter meter =
                new LiveMeter(
                        r ->
                                words.add(
                                        r
                                                + " "
                                                + Double.doubleToRawLongBits(r.rmsMps2())
                                                + " "
                                                + Double.doubleToRawLongBits(r.speedRpmOrNaN())));

        @Override
        public void told(Chunk chunk) {
            meter.told(chunk);
        }

        @Override
        public void block(AlignedBlock block) {
            words.add(words(block));
            meter.accept(block);
        }

        long count(String beginning) {
            return words.stream().filter(w -> w.startsWith(beginning)).count();
        }

        long secondsWithSpeed() {
            return words.stream()
                    .filter(w -> w.startsWith("LiveReading") && !w.contains("OrNaN=NaN"))
                    .count();
        }
    }

    private List<String> replayed() {
        Derived derived = new Derived();
        StreamPipeline pipeline = new StreamPipeline(derived::block);
        RecordingReader.open(folder.resolve("a.tkr"))
                .forEach(
                        new ChunkSink() {
                            @Override
                            public void chunk(Chunk chunk) {
                                derived.told(chunk);
                                pipeline.accept(chunk);
                            }

                            @Override
                            public void damaged(long offset, long bytes, HostNanos lastGood) {
                                pipeline.damaged(lastGood);
                            }
                        });
        pipeline.end();
        return derived.words;
    }

    /** Records until the plan ends; what is derived meanwhile has to come out of the file again. */
    private Derived recordedAndReplayedAlike(double totalS, RecordLine... lines)
            throws InterruptedException {
        RecordPlan plan =
                new RecordPlan(
                        folder.resolve("a.tkr"),
                        "",
                        List.of(capture()),
                        false,
                        totalS,
                        0,
                        20,
                        1,
                        "crank");
        Derived live = new Derived();
        try (Recorder recorder = Recorder.start(plan, List.of(lines), Clock.systemUTC(), live)) {
            assertTrue(recorder.await(20), "ends by itself");
            assertEquals("", recorder.status().failure());
        }
        assertEquals(live.words, replayed());
        assertTrue(live.count("LiveReading") >= 2, live.count("LiveReading") + " seconds");
        return live;
    }

    @Test
    void liveAndReplayedBlocksAreBitEqual() throws InterruptedException {
        Derived live =
                recordedAndReplayedAlike(3.5, probe(new LineTrouble.Spec(1e-5, 0.01, 0.004, 0.01)));
        assertTrue(live.words.size() > 100, live.words.size() + " blocks");
        assertTrue(live.count("StreamGap") > 0, "a line this bad loses something");
        assertTrue(live.secondsWithSpeed() > 0, "a speed from its own edges");
    }

    @Test
    void adaptersBlocksAreBitEqualToo() throws InterruptedException {
        ByteLink adapter =
                new SimulatedLink(
                        "adapter",
                        new SimulatedAdapter(SimulatedAdapter.Spec.ORDINARY, SCENE, 3),
                        new LineTrouble(LineTrouble.Spec.NONE, 3),
                        System.nanoTime());
        RecordLine line =
                new RecordLine(
                        SourceInfo.of(Role.ADAPTER, Language.COMMANDS, "adapter", 38_400, ""),
                        () -> adapter);
        Derived live =
                recordedAndReplayedAlike(
                        6, probe(SceneView.withoutMark(SCENE), LineTrouble.Spec.NONE), line);
        assertTrue(live.count("SpeedReading") > 5, live.count("SpeedReading") + " readings");
        assertTrue(live.secondsWithSpeed() > 0, "a speed from the readings");
    }

    /** Two boards, each with a clock of its own, behind lines that cut and delay. */
    @Test
    void aSecondBoardsEdgesAreBitEqualToo() throws InterruptedException {
        SimulatedProbe board =
                new SimulatedProbe(
                        new SimulatedProbe.Spec(
                                100, 1, 16_000_000, -35e-6, 0, 16, 40, 123_456L, 2003),
                        SceneView.markAlone(SCENE));
        ByteLink tach =
                new SimulatedLink(
                        "tach",
                        board,
                        new LineTrouble(new LineTrouble.Spec(1e-4, 0.01, 0, 0.016), 9),
                        System.nanoTime());
        RecordLine line =
                new RecordLine(
                        SourceInfo.of(Role.TACH, Language.FRAMES, "tach", 500_000, "2003"),
                        () -> tach);
        Derived live =
                recordedAndReplayedAlike(
                        5,
                        probe(
                                SceneView.withoutMark(SCENE),
                                new LineTrouble.Spec(1e-5, 0.01, 0.004, 0.01)),
                        line);
        assertTrue(live.secondsWithSpeed() > 0, "a speed from the second board's edges");
    }

    /** A board that prints lines, 500 a second, and takes no commands. */
    private static final class Printing implements ByteLink {
        private static final double RATE_HZ = 500;

        private final long originNanos = System.nanoTime();
        private final String header;
        private long printed = -1;

        Printing(String header) {
            this.header = header;
        }

        @Override
        public String name() {
            return "printing";
        }

        @Override
        public int read(byte[] into) {
            try {
                Thread.sleep(7);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            StringBuilder lines = new StringBuilder(printed < 0 ? header : "");
            printed = Math.max(printed, 0);
            long due = Math.round((System.nanoTime() - originNanos) * 1e-9 * RATE_HZ);
            for (; printed < due && lines.length() < into.length - 100; printed++) {
                lines.append(Math.round(printed * 1e6 / RATE_HZ)).append(',');
                lines.append(Math.round(300 * Math.sin(0.3 * printed))).append(",17\n");
            }
            byte[] bytes = lines.toString().getBytes(StandardCharsets.US_ASCII);
            System.arraycopy(bytes, 0, into, 0, bytes.length);
            return bytes.length;
        }

        @Override
        public void write(byte[] bytes) {
            // It has no ears.
        }

        @Override
        public void close() {
            // Nothing is held.
        }
    }

    @Test
    void textProbesBlocksAreBitEqualToo() throws InterruptedException {
        RecordLine line =
                new RecordLine(
                        SourceInfo.of(Role.PROBE, Language.TEXT, "printing", 115_200, ""),
                        () -> new Printing("t_us,ax_mg,ay_mg\n"));
        Derived live = recordedAndReplayedAlike(3.5, line);
        long runs = live.words.stream().filter(w -> Character.isDigit(w.charAt(0))).count();
        assertTrue(runs > 20, live.words.size() + " blocks");
    }

    @Test
    void aTextProbeWithoutAHeaderIsToldFromSilence() throws InterruptedException {
        RecordLine line =
                new RecordLine(
                        SourceInfo.of(Role.PROBE, Language.TEXT, "printing", 115_200, ""),
                        () -> new Printing(""));
        try (Recorder recorder =
                Recorder.start(plan(false, 1), List.of(line), Clock.systemUTC(), b -> {})) {
            String problem = "";
            for (int i = 0; i < 2000 && problem.isEmpty(); i++) {
                sleep(0.01);
                problem = recorder.status().lines().get(0).problem();
            }
            assertTrue(problem.contains("--columns t_us,ax,ay,az"), problem);
        }
    }

    @Test
    void buttonBeginsAndEndsTheCapture() throws InterruptedException {
        try (Recorder recorder =
                Recorder.start(
                        plan(true, 0),
                        List.of(probe(LineTrouble.Spec.NONE)),
                        Clock.systemUTC(),
                        b -> {})) {
            assertTrue(recorder.await(20), "ends by itself");
        }
        RecordingContent content = RecordingContent.of(folder.resolve("a.tkr"));
        assertTrue(content.closed());
        assertEquals(1, content.captures().size());
        // Pressed 1 s apart; a press is heard with the next frames, and acted on within 50 ms.
        double lateS = 0.1;
        assertEquals(
                1.0, content.captures().get(0).toS() - content.captures().get(0).fromS(), lateS);
        RecordingContent.Source source = content.sources().get(0);
        assertEquals(
                source.bytes(),
                source.framedBytes() + source.rejectedBytes() + source.pendingBytes());
        assertEquals(0, source.rejectedBytes());
        assertEquals("simulated probe", source.name());
    }

    /** A link whose host does not read for a while. */
    private static ByteLink paused(ByteLink link, double fromS, double toS) {
        long begin = System.nanoTime();
        return new LinkThrough(link) {
            @Override
            public int read(byte[] into) {
                double nowS = (System.nanoTime() - begin) / 1e9;
                if (nowS >= fromS && nowS < toS) {
                    sleep(toS - nowS);
                }
                return super.read(into);
            }
        };
    }

    private static void sleep(double forS) {
        try {
            Thread.sleep(Math.round(1000 * forS));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Test
    void pressesThatComeAtOnceAllCount() throws InterruptedException {
        RecordLine probe = probe(LineTrouble.Spec.NONE);
        // Pressed at 1 s and 2 s; both are read at 2.2 s.
        RecordLine late = new RecordLine(probe.info(), () -> paused(probe.open().get(), 0.8, 2.2));
        try (Recorder recorder =
                Recorder.start(plan(true, 0), List.of(late), Clock.systemUTC(), b -> {})) {
            assertTrue(recorder.await(10), "begun by the first, ended by the second");
        }
        assertEquals(1, RecordingContent.of(folder.resolve("a.tkr")).captures().size());
    }

    @Test
    void aPortThatCannotBeOpenedLeavesNoFile() {
        RecordLine broken =
                new RecordLine(
                        SourceInfo.of(Role.PROBE, Language.FRAMES, "nowhere", 9600, ""),
                        () -> {
                            throw new tickover.link.LinkException(
                                    tickover.link.LinkException.Reason.NO_SUCH_PORT,
                                    "there is no port nowhere",
                                    null);
                        });
        AcquisitionException e =
                org.junit.jupiter.api.Assertions.assertThrows(
                        AcquisitionException.class,
                        () ->
                                Recorder.start(
                                        plan(false, 1),
                                        List.of(broken),
                                        Clock.systemUTC(),
                                        b -> {}));
        assertEquals("there is no port nowhere", e.getMessage());
        assertTrue(Files.notExists(folder.resolve("a.tkr")));
    }

    /** A device that hangs: it sends, but takes nothing, and a write to it never returns. */
    private static final class Hung implements ByteLink {
        private final ByteLink sends;
        private final CountDownLatch closed = new CountDownLatch(1);

        Hung(ByteLink sends) {
            this.sends = sends;
        }

        @Override
        public String name() {
            return sends.name();
        }

        @Override
        public int read(byte[] into) {
            return sends.read(into);
        }

        @Override
        public void write(byte[] bytes) {
            try {
                closed.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }

        @Override
        public void close() {
            closed.countDown();
            sends.close();
        }
    }

    @Test
    void aDeviceThatTakesNothingDoesNotHoldUpTheOthers() throws InterruptedException {
        RecordLine probe = probe(LineTrouble.Spec.NONE);
        RecordLine hung =
                new RecordLine(
                        SourceInfo.of(Role.TACH, Language.FRAMES, "hung", 9600, ""),
                        () -> new Hung(probe(LineTrouble.Spec.NONE).open().get()));
        try (Recorder recorder =
                Recorder.start(plan(false, 2), List.of(probe, hung), Clock.systemUTC(), b -> {})) {
            assertTrue(recorder.await(20), "ends by itself");
            assertEquals("", recorder.status().failure());
        }
        RecordingContent content = RecordingContent.of(folder.resolve("a.tkr"));
        assertTrue(content.closed());
        // 2 s at 8000 Hz, less what the first block takes to fill.
        assertTrue(content.captures().get(0).samples() > 15_000, content.captures().toString());
    }

    @Test
    void aListenerThatFailsCostsTheDisplayAndNotTheRecording() throws InterruptedException {
        try (Recorder recorder =
                Recorder.start(
                        new RecordPlan(
                                folder.resolve("a.tkr"), "", List.of(), false, 0, 0, 2, 1, "crank"),
                        List.of(probe(LineTrouble.Spec.NONE)),
                        Clock.systemUTC(),
                        b -> {
                            throw new IllegalStateException("made to fail");
                        })) {
            assertTrue(recorder.await(20), "ends by itself");
            assertTrue(
                    recorder.status().lines().get(0).problem().contains("made to fail"),
                    recorder.status().toString());
        }
        RecordingContent content = RecordingContent.of(folder.resolve("a.tkr"));
        assertTrue(content.closed());
        // It fails at the first block; of 2 s at 8000 Hz a busy machine takes the first half
        // second.
        assertTrue(content.sources().get(0).samples() > 8000, content.sources().toString());
    }
}
