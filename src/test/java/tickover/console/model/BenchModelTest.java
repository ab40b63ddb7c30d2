package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.drive.Ring;
import tickover.store.Log;

/** A removed pulley on a simulated bench, without a screen. */
class BenchModelTest {
    private static final double PATIENCE_S = 60;

    /** Long enough for the bench to tell a plain fault, short enough to wait for. */
    private static final double CAPTURE_S = 3;

    /** Enough where nothing hangs on the verdict. */
    private static final double BRIEF_S = 2;

    @TempDir Path temp;
    private ConsoleModel console;
    private BenchModel bench;

    @BeforeEach
    void open() {
        console =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data"), true), new DirectErrands());
        bench = console.bench();
        bench.captureLength(CAPTURE_S);
    }

    private BenchState state() {
        return bench.state().get();
    }

    private void tickUntil(BooleanSupplier wanted) throws InterruptedException {
        long until = System.nanoTime() + Math.round(1e9 * PATIENCE_S);
        while (!wanted.getAsBoolean()) {
            assertTrue(System.nanoTime() < until, state() + " " + console.message().get());
            bench.tick();
            Thread.sleep(20);
        }
    }

    private void capture() throws InterruptedException {
        int before = state().takes().size();
        tickUntil(() -> state().speed().contains("rpm"));
        bench.press();
        tickUntil(() -> state().takes().size() > before && !state().capturing());
        tickUntil(() -> state().takes().get(before).state() != Touch.State.CHECKING);
    }

    private BenchPart part(String name) {
        return bench.setup().parts().stream()
                .filter(p -> p.part().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void nothingIsRecordedBeforeTheBearingAndTheSpeedAreSaid() {
        console.go(Screen.BENCH);
        assertEquals(Screen.BENCH, console.screen().get());
        assertEquals(List.of(BenchPart.OTHER), bench.setup().parts());
        bench.press();
        assertFalse(state().running());
        assertTrue(console.message().get().startsWith("Not yet: the part needs its bearing."));
        bench.setup().bearing().set("8 x 6.75 / 2.85");
        bench.press();
        assertTrue(console.message().get().contains("cannot be"), console.message().get());
        bench.setup().bearing().set("6203");
        bench.setup().speed().set(BenchSetup.SpeedFrom.GIVEN);
        bench.press();
        assertEquals(
                "Not yet: the speed of the turning ring is missing, rpm.", console.message().get());
        assertFalse(Files.exists(temp.resolve("data/recordings-raw")));
    }

    @Test
    void cautionsOfDrillAndLatheStandAtTheStep() {
        String all = String.join(" ", BenchSetup.cautions());
        assertTrue(all.contains("Hand drill") && all.contains("Lathe: chuck key out"), all);
        assertTrue(all.endsWith("licensed practice come first."), all);
    }

    @Test
    void wornIdlerIsNamedBesideItsSoundSisterAndJudgedAnewWhenTheBearingWasAnother()
            throws Exception {
        console.vehicles().enterSimulated();
        console.saveDrive();
        console.go(Screen.BENCH);
        bench.setup().part().set(part("idler"));
        assertEquals("6203 8 x 6.747 / 28.5", bench.setup().bearing().get());
        assertEquals(Ring.OUTER, bench.setup().ring().get());
        bench.aim(true);
        bench.press();
        assertTrue(state().running(), console.message().get());
        capture();
        assertTrue(state().takes().get(0).knownGood());
        assertEquals(Touch.State.GOOD, state().takes().get(0).state());
        assertEquals("", state().verdict().headline());
        assertFalse(state().aimsGood());
        console.round().press();
        assertTrue(console.message().get().contains("8 Bench"), console.message().get());
        assertFalse(console.round().state().get().running());
        capture();
        BenchVerdictWords verdict = state().verdict();
        assertEquals("Damaged inner ring.", verdict.headline());
        assertEquals(3, verdict.answers().size());
        assertFalse(verdict.differences().isEmpty());
        assertTrue(verdict.levels().stream().anyMatch(r -> r.name().equals("velocity 50–300 Hz")));
        assertTrue(verdict.evidence().stream().anyMatch(e -> e.contains("inner ring")));
        anotherBearingIsJudgedAnew();
        verdictIsNotedWithTheVehicle();
        bench.finish();
        assertFalse(state().running());
        assertFalse(state().verdict().headline().isEmpty());
        try (var files = Files.list(temp.resolve("data/recordings-raw"))) {
            assertEquals(
                    List.of(true),
                    files.map(f -> f.getFileName().toString().startsWith("bench-idler-")).toList());
        }
    }

    private void anotherBearingIsJudgedAnew() {
        bench.setup().bearing().set("?");
        BenchVerdictWords unknown = state().verdict();
        assertTrue(unknown.notes().get(0).contains("number on its shield"), unknown.toString());
        assertEquals(List.of(), unknown.odds());
        assertEquals(List.of(), unknown.evidence());
        assertEquals(3, unknown.answers().size());
        bench.setup().bearing().set("6203");
        assertEquals("Damaged inner ring.", state().verdict().headline());
        assertTrue(state().verdict().notes().get(0).contains("count its balls"));
        assertEquals(2, state().takes().size());
    }

    private void verdictIsNotedWithTheVehicle() {
        bench.keepNote();
        try (Log log = Log.open(temp.resolve("data"))) {
            var notes = log.history().notes("ML-07");
            assertEquals(1, notes.size());
            assertEquals("idler", notes.get(0).part());
            assertTrue(notes.get(0).text().startsWith("Bench, idler: Damaged inner ring."));
        }
    }

    @Test
    void captureWhoseSpeedIsHardToFindIsOfUseOnceTheSpeedIsGiven() throws Exception {
        bench.captureLength(BRIEF_S);
        bench.setup().bearing().set("6303");
        bench.setup().speed().set(BenchSetup.SpeedFrom.FOUND);
        bench.press();
        tickUntil(() -> state().level().contains("rms"));
        bench.press();
        tickUntil(() -> state().takes().size() == 1 && !state().capturing());
        tickUntil(() -> state().takes().get(0).state() != Touch.State.CHECKING);
        // Two seconds are few turns to find it in: it is either found rightly or asked for.
        if (state().takes().get(0).state() == Touch.State.GOOD) {
            assertTrue(state().verdict().howSure().contains("148"), state().verdict().howSure());
        } else {
            assertEquals(Touch.State.REPEAT, state().takes().get(0).state());
            assertTrue(state().takes().get(0).why().contains("speed"), state().toString());
        }
        bench.setup().speed().set(BenchSetup.SpeedFrom.GIVEN);
        bench.setup().rpm().set("1480");
        assertEquals(Touch.State.GOOD, state().takes().get(0).state());
        assertTrue(state().verdict().howSure().contains("148"), state().verdict().howSure());
        assertEquals("part", state().takes().get(0).part());
        bench.close();
        assertFalse(bench.isRunning());
    }
}
