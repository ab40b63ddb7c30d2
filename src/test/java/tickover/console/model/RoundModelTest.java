package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.drive.Condition;
import tickover.sim.SimulatedVan;
import tickover.store.Log;

/** The walk round a simulated van, without a screen. */
class RoundModelTest {
    private static final double PATIENCE_S = 90;

    @TempDir Path temp;
    private ConsoleModel console;
    private RoundModel round;

    @BeforeEach
    void takeTheVan() {
        console =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data"), true), new DirectErrands());
        console.vehicles().enterSimulated();
        console.saveDrive();
        round = console.round();
        round.captureLength(3);
    }

    private RoundState state() {
        return round.state().get();
    }

    private void tickUntil(BooleanSupplier wanted) throws InterruptedException {
        long until = System.nanoTime() + Math.round(1e9 * PATIENCE_S);
        while (!wanted.getAsBoolean()) {
            assertTrue(System.nanoTime() < until, state().toString());
            round.tick();
            Thread.sleep(20);
        }
    }

    @Test
    void everyPartIsProposedFirstUnloadedAndThenUnderTheLoadItCarries() {
        List<Touch> proposed = RoundProposal.of(new SimulatedVan(false).vehicle());
        assertEquals(
                List.of(
                        "compressor",
                        "idler",
                        "alternator",
                        "water-pump",
                        "tensioner",
                        "valve-cover"),
                proposed.subList(0, 6).stream().map(Touch::point).toList());
        assertTrue(
                proposed.contains(Touch.open("compressor", Condition.UNLOADED.withAircon(true))));
        assertTrue(
                proposed.contains(
                        Touch.open("alternator", Condition.UNLOADED.withHeadlights(true))));
        assertTrue(state().instruction().contains("space bar"));
        assertFalse(state().running());
    }

    @Test
    void capturesAreJudgedAndTheVisitIsKept() throws InterruptedException {
        round.complaint().set("whine");
        round.press();
        assertTrue(state().running(), console.message().get());
        assertFalse(state().cautions().isEmpty());
        round.choose("idler");
        assertEquals("idler", state().touches().get(state().aimed()).point());
        tickUntil(() -> state().instruction().contains("idler") && !state().speed().isEmpty());
        tickUntil(() -> state().speed().contains("rpm"));
        round.press();
        tickUntil(() -> state().capturing());
        assertEquals(Cue.BEGIN, round.cue().get());
        tickUntil(() -> !state().capturing());
        assertTrue(state().progressRatio() == 0);
        tickUntil(() -> state().touches().stream().anyMatch(t -> t.state() == Touch.State.GOOD));
        assertEquals(Cue.GOOD, round.cue().get());
        assertFalse(console.findings().state().get().headline().isBlank());
        assertEquals("compressor", state().touches().get(state().aimed()).point());
        round.finish();
        assertFalse(state().running());
        assertEquals(Screen.FINDINGS, console.screen().get());
        try (Log log = Log.open(temp.resolve("data"))) {
            assertEquals(1, log.visits().size());
            assertEquals("whine", log.visits().get(0).complaint());
        }
    }

    @Test
    void closingInTheMiddleKeepsTheRecording() throws Exception {
        round.press();
        tickUntil(() -> state().speed().contains("rpm") || state().speed().equals("no speed"));
        round.close();
        try (var files = java.nio.file.Files.list(temp.resolve("data/recordings-raw"))) {
            assertEquals(1, files.filter(f -> f.toString().endsWith(".tkr")).count());
        }
    }
}
