package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.BearingGeometry;
import tickover.drive.Condition;
import tickover.drive.Ring;
import tickover.session.PlannedCapture;
import tickover.session.RecordingVisit;
import tickover.session.SourceInfo;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.session.VirtualRecording;
import tickover.sim.BenchScene;
import tickover.sim.LineScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.sim.SimulatedVan;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.VisitFolder;

/** Recordings that run again at the console, faster than they were made. */
class ReplayedRecordingTest {
    private static final double PATIENCE_S = 60;
    private static final double PACE = 8;
    private static final Condition HEADLIGHTS = Condition.UNLOADED.withHeadlights(true);

    @TempDir Path temp;

    private static VirtualRecording of(LineScene scene, double scaleMps2, int rateHz) {
        return new VirtualRecording(
                List.of(
                        new VirtualRecording.Device(
                                SourceInfo.of(
                                        Role.PROBE, Language.FRAMES, "simulated", 500_000, "1007"),
                                new SimulatedProbe(
                                        SimulatedProbe.Spec.ordinary(rateHz, scaleMps2), scene),
                                new LineTrouble(LineTrouble.Spec.NONE, 3))));
    }

    private static PlannedCapture at(String point, Condition condition) {
        return new PlannedCapture(point, "radial", Mount.HAND, Regime.IDLE, condition);
    }

    private ConsoleModel replaying(Path file) {
        return new ConsoleModel(
                new ConsoleOptions(
                        LogPlace.folder(temp.resolve("data")), false, file.toString(), PACE, ""),
                new DirectErrands());
    }

    private static void tickUntil(Runnable tick, BooleanSupplier wanted)
            throws InterruptedException {
        long until = System.nanoTime() + Math.round(1e9 * PATIENCE_S);
        while (!wanted.getAsBoolean()) {
            assertTrue(System.nanoTime() < until, "it does not happen");
            tick.run();
            Thread.sleep(20);
        }
    }

    @Test
    void roundRunsAgainWithItsOwnCapturesAndIsTakenInOnce() throws Exception {
        SimulatedVan van = new SimulatedVan(false);
        van.hold("idler", Condition.UNLOADED);
        Path file = temp.resolve("round.tkr");
        of(van, van.recorder().scaleMps2(), van.recorder().sampleRateHz())
                .vehicle(VisitFolder.vehicleText(van.vehicle()))
                .capture(at("idler", Condition.UNLOADED), 2, 7)
                .capture(at("alternator", HEADLIGHTS), 9, 14)
                .write(file, 17);
        ConsoleModel console = replaying(file);
        console.begin();
        assertEquals(Screen.LIVE, console.screen().get());
        assertEquals("ML-07", console.unit().get());
        RoundModel round = console.round();
        assertEquals(
                List.of("idler", "alternator"),
                round.state().get().touches().stream().map(Touch::point).toList());
        assertEquals(HEADLIGHTS, round.state().get().touches().get(1).condition());
        round.press();
        assertTrue(console.message().get().contains("presses by itself"));
        tickUntil(round::tick, () -> round.state().get().capturing());
        assertTrue(round.state().get().instruction().contains("captured on the idler"));
        tickUntil(round::tick, () -> round.state().get().instruction().contains("has ended"));
        tickUntil(
                round::tick,
                () ->
                        round.state().get().touches().stream()
                                .allMatch(t -> t.state() == Touch.State.GOOD));
        assertFalse(console.findings().state().get().headline().isBlank());
        round.finish();
        assertEquals(Screen.FINDINGS, console.screen().get());
        try (Log log = Log.open(temp.resolve("data"))) {
            assertEquals(
                    List.of(RecordingVisit.idOf(file)),
                    log.visits().stream().map(v -> v.id()).toList());
        }
        assertFalse(Files.exists(temp.resolve("data/recordings-raw")));
        round.start();
        round.finish();
        assertEquals("", console.message().get().replaceAll("Nothing was captured.*", ""));
        try (Log log = Log.open(temp.resolve("data"))) {
            assertEquals(1, log.visits().size());
        }
    }

    @Test
    void benchRunsAgainAndIsJudged() throws Exception {
        BenchScene bench = new BenchScene();
        bench.put(
                new BearingGeometry(8, 6.747, 28.5, 0),
                Ring.OUTER,
                SimulatedVan.wearOf("idler"),
                false);
        Path file = temp.resolve("bench.tkr");
        of(bench, BenchScene.recorder().scaleMps2(), BenchScene.recorder().sampleRateHz())
                .capture(at("idler", Condition.UNLOADED), 2, 6)
                .write(file, 9);
        ConsoleModel console = replaying(file);
        console.begin();
        assertEquals(Screen.BENCH, console.screen().get());
        BenchModel model = console.bench();
        model.setup().bearing().set("6203");
        model.press();
        tickUntil(model::tick, () -> !model.state().get().verdict().headline().isEmpty());
        assertEquals("Damaged inner ring.", model.state().get().verdict().headline());
        model.finish();
        assertFalse(Files.exists(temp.resolve("data/recordings-raw")));
        assertTrue(Files.exists(file));
    }

    @Test
    void whatIsNoRecordingIsOneSentence() throws Exception {
        Path file = Files.writeString(temp.resolve("notes.tkr"), "belt squeals\n".repeat(20));
        ConsoleModel console = replaying(file);
        console.begin();
        assertTrue(console.message().get().contains("is not a recording"), console.message().get());
        assertEquals(Screen.VEHICLE, console.screen().get());
    }
}
