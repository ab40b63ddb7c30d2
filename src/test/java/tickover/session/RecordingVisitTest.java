package tickover.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.align.CaptureSignal;
import tickover.align.SpeedReadings;
import tickover.align.SpeedSource;
import tickover.align.StreamGap;
import tickover.align.TachPulses;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.order.OrderLine;
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
import tickover.sim.SimulatedTextProbe;
import tickover.store.Visit;
import tickover.store.VisitCapture;
import tickover.unit.HostNanos;
import tickover.wire.TextUnit;

/** From a recording's bytes to a visit whose orders are those that were played. */
class RecordingVisitTest {
    /** Rms of the played orders, m/s². */
    private static final double FIRST_MPS2 = 0.5;

    private static final double SIXTH_MPS2 = 0.8;

    /** The estimator's own error on 8 s under noise of 0.05 m/s² is below 0.2 %. */
    private static final double AMPLITUDE_RATIO = 0.01;

    @TempDir private Path folder;

    private static EndlessScene scene(double swingRatio, double periodS) {
        return new EndlessScene(
                new Turning(900, swingRatio, periodS),
                List.of(
                        new Tone(1, FIRST_MPS2, 0.3),
                        new Tone(2, 2, 0),
                        new Tone(4, 1, 1),
                        new Tone(5.997, SIXTH_MPS2, 1)),
                0.05,
                1);
    }

    private static VirtualRecording.Device probe(LineScene scene, LineTrouble.Spec trouble) {
        return new VirtualRecording.Device(
                SourceInfo.of(Role.PROBE, Language.FRAMES, "simulated", 500_000, "1007"),
                new SimulatedProbe(SimulatedProbe.Spec.ordinary(8000, 40), scene),
                new LineTrouble(trouble, 3));
    }

    private static PlannedCapture at(String point) {
        return new PlannedCapture(
                point, "radial", Mount.MAGNET, Regime.SWEEP, Condition.UNLOADED.withAircon(true));
    }

    private Visit visit(VirtualRecording recording, double lengthS) {
        Path file = folder.resolve("r.tkr");
        recording.write(file, lengthS);
        return RecordingVisit.write(file, RecordingVisit.About.NOTHING, folder.resolve("v"))
                .visit();
    }

    private static List<OrderLine> orders(Visit visit, VisitCapture capture) {
        return TrackedCapture.of(visit.vehicle(), capture).lines(0, List.of(1.0, 5.997));
    }

    @Test
    void ordersOfARecordingAreThoseThatWerePlayed() {
        Visit visit =
                visit(
                        new VirtualRecording(
                                        List.of(
                                                probe(
                                                        scene(0.1, 11),
                                                        new LineTrouble.Spec(0, 0, 0, 0.016))))
                                .capture(at("idler"), 2, 10)
                                .capture(at("alternator"), 11, 19),
                        21);
        assertEquals(
                List.of("c01", "c02"), visit.captures().stream().map(c -> c.label().id()).toList());
        assertEquals(at("alternator").labelled("c02"), visit.captures().get(1).label());
        for (VisitCapture capture : visit.captures()) {
            CaptureSignal signal = capture.load();
            assertEquals(SpeedSource.Kind.TACH, signal.speed().kind());
            // Cut where the notes stand: samples come in blocks of 15 ms, up to 16 ms late.
            assertEquals(8, signal.durationS(), 0.05);
            List<OrderLine> lines = orders(visit, capture);
            assertEquals(FIRST_MPS2, lines.get(0).rms(), AMPLITUDE_RATIO * FIRST_MPS2);
            assertEquals(SIXTH_MPS2, lines.get(1).rms(), AMPLITUDE_RATIO * SIXTH_MPS2);
            assertEquals(Math.toDegrees(0.3), lines.get(0).phaseDeg(), 1, "from the mark, deg");
        }
        assertTrue(Files.exists(folder.resolve("v").resolve("recording.tkr")));
    }

    @Test
    void aSpeedFromAnAdapterIsLateAndStillFindsTheOrders() {
        EndlessScene scene = scene(0.15, 14);
        SimulatedAdapter adapter = new SimulatedAdapter(SimulatedAdapter.Spec.ORDINARY, scene, 5);
        Visit visit =
                visit(
                        new VirtualRecording(
                                        List.of(
                                                probe(
                                                        SceneView.withoutMark(scene),
                                                        LineTrouble.Spec.NONE),
                                                new VirtualRecording.Device(
                                                        SourceInfo.of(
                                                                Role.ADAPTER,
                                                                Language.COMMANDS,
                                                                "obd",
                                                                38_400,
                                                                ""),
                                                        adapter,
                                                        new LineTrouble(LineTrouble.Spec.NONE, 4))))
                                .capture(at("idler"), 8, 22),
                        25);
        VisitCapture capture = visit.captures().get(0);
        assertEquals(SpeedSource.Kind.OBD, capture.load().speed().kind());
        // Without a mark the amplitude rests on the speed found from the vibration; 5 % is what is
        // promised there for low orders.
        double promised = 0.05;
        assertEquals(FIRST_MPS2, orders(visit, capture).get(0).rms(), promised * FIRST_MPS2);
    }

    /** The clock of the second life says nothing of the first: its ticks count from elsewhere. */
    @Test
    void readingsKeepTheirPlaceBeforeAReset() {
        EndlessScene scene = scene(0.15, 14);
        Visit visit =
                visit(
                        new VirtualRecording(
                                        List.of(
                                                probe(
                                                        SceneView.withoutMark(scene),
                                                        LineTrouble.Spec.NONE),
                                                new VirtualRecording.Device(
                                                        SourceInfo.of(
                                                                Role.ADAPTER,
                                                                Language.COMMANDS,
                                                                "obd",
                                                                38_400,
                                                                ""),
                                                        new SimulatedAdapter(
                                                                SimulatedAdapter.Spec.ORDINARY,
                                                                scene,
                                                                5),
                                                        new LineTrouble(LineTrouble.Spec.NONE, 4))))
                                .capture(at("idler"), 8, 32)
                                .unplug(20),
                        34);
        assertEquals(2, visit.captures().size());
        for (VisitCapture capture : visit.captures()) {
            CaptureSignal signal = capture.load();
            SpeedReadings readings = (SpeedReadings) signal.speed();
            double[] times = readings.timesS();
            long within =
                    Arrays.stream(times).filter(t -> t >= 0 && t <= signal.durationS()).count();
            // The adapter answers at least five times a second.
            assertTrue(within > 5 * (signal.durationS() - 1), within + " readings");
        }
    }

    @Test
    void nothingIsJoinedAcrossAnUnplug() {
        Path file = folder.resolve("r.tkr");
        new VirtualRecording(List.of(probe(scene(0, 1), LineTrouble.Spec.NONE)))
                .capture(at("idler"), 1, 13)
                .unplug(6)
                .write(file, 15);
        RecordingVisit.Made made =
                RecordingVisit.write(file, RecordingVisit.About.NOTHING, folder.resolve("v"));
        List<VisitCapture> captures = made.visit().captures();
        assertEquals(List.of("c01", "c01-2"), captures.stream().map(c -> c.label().id()).toList());
        assertEquals(5, captures.get(0).load().durationS(), 0.05);
        assertEquals(6, captures.get(1).load().durationS(), 0.05);
        assertTrue(
                made.remarks().stream()
                        .anyMatch(
                                r ->
                                        r.contains(
                                                "(how many samples are missing is not known) and"
                                                        + " became 2 captures")),
                made.remarks().toString());
        for (VisitCapture capture : captures) {
            assertEquals(
                    FIRST_MPS2,
                    orders(made.visit(), capture).get(0).rms(),
                    AMPLITUDE_RATIO * FIRST_MPS2);
        }
        RecordingContent content = RecordingContent.of(file);
        assertEquals("unplugged", content.gaps().get(0).cause());
    }

    private static StreamGap gap(StreamGap.Cause cause, long missing) {
        return new StreamGap(0, 0, cause, new HostNanos(0), 100, missing);
    }

    @Test
    void gapsSayWhatIsKnownOfThem() {
        StreamGap one = gap(StreamGap.Cause.LOST_ON_LINE, 1);
        StreamGap many = gap(StreamGap.Cause.DROPPED_BY_PROBE, 30);
        StreamGap unplug = gap(StreamGap.Cause.UNPLUGGED, -1);
        StreamGap step = gap(StreamGap.Cause.CLOCK_STEP, 0);
        assertEquals("1 sample is missing", CaptureDrafts.missing(List.of(one)));
        assertEquals("31 samples are missing", CaptureDrafts.missing(List.of(one, many, step)));
        assertEquals(
                "at least 31 samples are missing",
                CaptureDrafts.missing(List.of(one, unplug, many)));
        assertEquals(
                "how many samples are missing is not known",
                CaptureDrafts.missing(List.of(unplug)));
        assertEquals(
                "no sample is missing, but a clock stepped", CaptureDrafts.missing(List.of(step)));
    }

    @Test
    void aRecordingWithoutUsableSamplesIsRefusedWithASentence() {
        Path file = folder.resolve("short.tkr");
        new VirtualRecording(List.of(probe(scene(0, 1), LineTrouble.Spec.NONE)))
                .capture(at("idler"), 0.5, 1)
                .write(file, 2);
        AcquisitionException e =
                assertThrows(
                        AcquisitionException.class,
                        () ->
                                RecordingVisit.write(
                                        file, RecordingVisit.About.NOTHING, folder.resolve("v")));
        assertTrue(e.getMessage().contains("holds no stretch of 1.5 s"), e.getMessage());
        assertFalse(Files.exists(folder.resolve("v")));
    }

    @Test
    void aRecordingWithoutANoteOfACaptureIsOneCapture() {
        Visit visit =
                visit(new VirtualRecording(List.of(probe(scene(0, 1), LineTrouble.Spec.NONE))), 6);
        assertEquals(1, visit.captures().size());
        assertEquals("unnamed", visit.captures().get(0).label().point());
    }

    @Test
    void aPlainTextProbeIsReadInItsUnit() {
        SourceInfo info =
                SourceInfo.of(Role.PROBE, Language.TEXT, "hobby", 115_200, "")
                        .withText("", TextUnit.G, 0);
        Visit visit =
                visit(
                        new VirtualRecording(
                                        List.of(
                                                new VirtualRecording.Device(
                                                        info,
                                                        new SimulatedTextProbe(
                                                                scene(0.05, 9), 1000, false),
                                                        new LineTrouble(
                                                                new LineTrouble.Spec(
                                                                        0, 0, 0.001, 0),
                                                                1))))
                                .capture(at("idler"), 2, 14),
                        16);
        CaptureSignal signal = visit.captures().get(0).load();
        assertEquals(1000, signal.sampleRateHz(), "Hz");
        double sum = 0;
        for (double a : signal.accelMps2(0)) {
            sum += a * a;
        }
        // Orders 1, 2, 4, 5.997 and the noise add by power; part turns move it by a per cent.
        double played = Math.sqrt(0.25 + 4 + 1 + 0.64 + 0.0025);
        assertEquals(played, Math.sqrt(sum / signal.sampleCount()), 0.03 * played);
        assertEquals(SpeedSource.Kind.NONE, signal.speed().kind());
    }

    private static VirtualRecording.Device adapter(LineScene scene) {
        return new VirtualRecording.Device(
                SourceInfo.of(Role.ADAPTER, Language.COMMANDS, "obd", 38_400, ""),
                new SimulatedAdapter(SimulatedAdapter.Spec.ORDINARY, scene, 5),
                new LineTrouble(LineTrouble.Spec.NONE, 4));
    }

    private static VirtualRecording.Device tachBoard(LineScene scene) {
        return new VirtualRecording.Device(
                SourceInfo.of(Role.TACH, Language.FRAMES, "tach", 500_000, "2003"),
                new SimulatedProbe(
                        new SimulatedProbe.Spec(
                                100, 1, 16_000_000, -35e-6, 0, 16, 40, 123_456L, 2003),
                        SceneView.markAlone(scene)),
                new LineTrouble(new LineTrouble.Spec(0, 0, 0, 0.016), 9));
    }

    private static double[] times(CaptureSignal signal) {
        return signal.speed() instanceof SpeedReadings r
                ? r.timesS()
                : ((TachPulses) signal.speed()).timesS();
    }

    /** What was said just before a capture began, and just after it ended, holds its ends. */
    @Test
    void speedIsKnownAtBothEndsOfACapture() {
        EndlessScene scene = scene(0.1, 11);
        for (VirtualRecording.Device other : List.of(adapter(scene), tachBoard(scene))) {
            Path file = folder.resolve(other.info().port() + ".tkr");
            new VirtualRecording(List.of(blind(scene), other))
                    .capture(at("idler"), 8, 14)
                    .write(file, 18);
            Visit visit =
                    RecordingVisit.write(
                                    file,
                                    RecordingVisit.About.NOTHING,
                                    folder.resolve(other.info().port()))
                            .visit();
            CaptureSignal signal = visit.captures().get(0).load();
            double[] times = times(signal);
            assertTrue(times[0] <= 0, other.info().port() + " from " + times[0] + " s");
            double last = times[times.length - 1];
            assertTrue(last >= signal.durationS(), other.info().port() + " to " + last + " s");
        }
    }

    private static VirtualRecording.Device blind(LineScene scene) {
        return probe(SceneView.withoutMark(scene), LineTrouble.Spec.NONE);
    }

    @Test
    void aTachOnTheProbesOwnBoardWinsOverAnAdapter() {
        EndlessScene scene = scene(0.1, 11);
        Visit visit =
                visit(
                        new VirtualRecording(
                                        List.of(
                                                probe(scene, LineTrouble.Spec.NONE),
                                                adapter(scene)))
                                .capture(at("idler"), 4, 10),
                        12);
        assertEquals(SpeedSource.Kind.TACH, visit.captures().get(0).load().speed().kind());
    }

    @Test
    void aSecondBoardsTachFindsTheOrders() {
        EndlessScene scene = scene(0.1, 11);
        Visit visit =
                visit(
                        new VirtualRecording(List.of(blind(scene), tachBoard(scene)))
                                .capture(at("idler"), 20, 28),
                        31);
        VisitCapture capture = visit.captures().get(0);
        assertEquals(SpeedSource.Kind.TACH, capture.load().speed().kind());
        // Simulated bytes wait for the next step of 2 ms on their way to the host and not on the
        // way back, so each clock's middle between the two is off by up to 1 ms: at 900 rpm, deg.
        double clocksDeg = 2 * 0.001 * 15 * 360;
        OrderLine first = orders(visit, capture).get(0);
        assertEquals(FIRST_MPS2, first.rms(), AMPLITUDE_RATIO * FIRST_MPS2);
        assertEquals(Math.toDegrees(0.3), first.phaseDeg(), clocksDeg, "from the mark, deg");
    }

    /** Cut into parts, nothing is lost or doubled between them, and each has its speed. */
    @Test
    void partsOfALongCaptureFollowOneAnotherToTheSample() {
        Path file = folder.resolve("long.tkr");
        new VirtualRecording(List.of(probe(scene(0.1, 11), LineTrouble.Spec.NONE)))
                .capture(at("idler"), 2, 14)
                .write(file, 16);
        Visit whole =
                RecordingVisit.write(file, RecordingVisit.About.NOTHING, folder.resolve("whole"))
                        .visit();
        RecordingVisit.Made made =
                RecordingVisit.write(
                        file, RecordingVisit.About.NOTHING, folder.resolve("parts"), 40_000);
        double[] all = whole.captures().get(0).load().accelMps2(0);
        assertEquals(3, made.visit().captures().size());
        int at = 0;
        for (VisitCapture part : made.visit().captures()) {
            double[] x = part.load().accelMps2(0);
            assertTrue(x.length <= 40_000);
            assertArrayEquals(Arrays.copyOfRange(all, at, at + x.length), x);
            at += x.length;
            assertEquals(
                    FIRST_MPS2,
                    orders(made.visit(), part).get(0).rms(),
                    2 * AMPLITUDE_RATIO * FIRST_MPS2);
        }
        assertEquals(all.length, at);
        assertTrue(
                made.remarks().stream().anyMatch(r -> r.contains("c01-3 goes on where")),
                made.remarks().toString());
    }

    @Test
    void nothingIsLeftOfAnImportThatFails() throws IOException {
        Path file = folder.resolve("short.tkr");
        new VirtualRecording(List.of(probe(scene(0, 1), LineTrouble.Spec.NONE)))
                .capture(at("idler"), 0.5, 1)
                .write(file, 2);
        assertThrows(
                AcquisitionException.class,
                () ->
                        RecordingVisit.write(
                                file, RecordingVisit.About.NOTHING, folder.resolve("v")));
        try (Stream<Path> left = Files.list(folder)) {
            assertEquals(List.of(file), left.toList());
        }
    }

    /** A program that was killed left its folder; the next attempt does not trip over it. */
    @Test
    void whatAKilledImportLeftIsReplaced() throws IOException {
        Path left = Files.createDirectory(folder.resolve(".v.part"));
        Files.writeString(left.resolve("c01.wav"), "half");
        Visit visit =
                visit(new VirtualRecording(List.of(probe(scene(0, 1), LineTrouble.Spec.NONE))), 6);
        assertEquals(1, visit.captures().size());
        assertFalse(Files.exists(left));
    }
}
