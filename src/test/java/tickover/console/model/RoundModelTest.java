package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.drive.Condition;
import tickover.session.LiveReading;
import tickover.session.RecordStatus;
import tickover.session.SourceInfo;
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

    /** Errands that wait until they are asked to come back. */
    private static final class LateErrands implements Errands {
        private final Deque<Runnable> waiting = new ArrayDeque<>();

        @Override
        public <T> void send(Callable<T> work, Consumer<T> done, Consumer<String> failed) {
            waiting.add(() -> new DirectErrands().send(work, done, failed));
        }

        void comeBack() {
            while (!waiting.isEmpty()) {
                waiting.remove().run();
            }
        }
    }

    @Test
    void aPressWhileTheProbeIsOnItsWayCountsOnArrivalAndASecondStartDoesNot() throws Exception {
        LateErrands late = new LateErrands();
        console = new ConsoleModel(new ConsoleOptions(temp.resolve("late"), true), late);
        console.vehicles().enterSimulated();
        console.saveDrive();
        late.comeBack();
        round = console.round();
        round.captureLength(60);
        round.press();
        round.press();
        assertEquals(1, late.waiting.size(), "one start");
        late.waiting.remove().run();
        assertTrue(state().running());
        round.press();
        assertTrue(console.message().get().contains("on its way"), console.message().get());
        round.tick();
        assertFalse(state().capturing());
        late.comeBack();
        tickUntil(() -> state().capturing());
        round.close();
    }

    @Test
    void aLostPortIsASentenceInPlaceOfTheInstruction() {
        List<Touch> touches = RoundProposal.of(new SimulatedVan(false).vehicle());
        SourceInfo info =
                SourceInfo.of(SourceInfo.Role.PROBE, SourceInfo.Language.FRAMES, "/dev/x", 0, "");
        RecordStatus.LineStatus line =
                new RecordStatus.LineStatus(
                        info, "", false, 0, 0, 0, 0, 0, "/dev/x is gone; waiting for it");
        RecordStatus lost =
                new RecordStatus(9, 0, null, List.of(line), 1, 0, false, 0, "idler", 0, false, "");
        RoundState told = RoundState.of(touches, 0, lost, 10, List.of(), false);
        assertEquals(
                "Nothing comes from the probe: /dev/x is gone; waiting for it. When it does, go"
                        + " on.",
                told.instruction());
        assertEquals("/dev/x is gone; waiting for it.", RoundState.silence(lost));
        assertEquals("no samples", told.speed());
    }

    @Test
    void whatHasToBeRepeatedIsAskedForWithTheReasonInAWord() {
        List<Touch> touches =
                List.of(
                        Touch.open("idler", Condition.UNLOADED)
                                .as(Touch.State.REPEAT, "clipped: The sensor was at its end."));
        LiveReading reading = new LiveReading(0, 0, 9, 1, 4, 3200, 3200, 800, false);
        RecordStatus now =
                new RecordStatus(9, 0, reading, List.of(), 2, 0, false, 0, "", 0, false, "");
        String asked = RoundState.of(touches, 0, now, 10, List.of(), false).instruction();
        assertTrue(asked.startsWith("Put the probe on the idler once more (clipped): "), asked);
    }

    @Test
    void aRoundThatEndedByItselfSaysSoAndOffersNoCapture() {
        List<Touch> touches = RoundProposal.of(new SimulatedVan(false).vehicle());
        RecordStatus over =
                new RecordStatus(9, 0, null, List.of(), 2, 0, false, 0, "", 0, true, "full");
        String told = RoundState.of(touches, 0, over, 10, List.of(), false).instruction();
        assertTrue(told.startsWith("The recording has ended."), told);
    }

    @Test
    void theSimulatedVanIsMendedOnceTheRepairIsMarked() {
        assertFalse(RoundSources.isMended(console, "ML-07"));
        console.go(Screen.HISTORY);
        console.history().repair("alternator", "new one", LocalDateTime.of(2026, 3, 4, 10, 0));
        assertFalse(RoundSources.isMended(console, "ML-07"));
        console.history().repair("idler", "new one", LocalDateTime.of(2026, 3, 4, 10, 0));
        assertTrue(RoundSources.isMended(console, "ML-07"));
    }

    private Path recorded() throws IOException {
        try (Stream<Path> files = Files.list(temp.resolve("data/recordings-raw"))) {
            return files.filter(f -> f.toString().endsWith(".tkr")).findFirst().orElseThrow();
        }
    }

    @Test
    void whatWasRecordedWhenTheWindowWasClosedIsOfferedAtTheNextStart() throws Exception {
        round.complaint().set("whine");
        round.press();
        round.choose("idler");
        tickUntil(() -> state().speed().contains("rpm"));
        round.press();
        tickUntil(() -> state().capturing());
        tickUntil(() -> !state().capturing());
        ConsoleModel next =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data"), true), new DirectErrands());
        LeftRounds left = next.vehicles().left();
        next.vehicles().load();
        assertEquals("", left.words(), "it is under way");
        console.close();
        Files.setLastModifiedTime(recorded(), FileTime.from(Instant.parse("2026-03-04T05:06:07Z")));
        next.vehicles().load();
        assertTrue(left.words().contains("4 Mar 2026"), left.words());
        assertTrue(left.words().contains(recorded().getFileName().toString()), left.words());
        left.takeIn();
        assertEquals(Screen.FINDINGS, next.screen().get(), next.message().get());
        assertEquals("The round of ML-07 is in the log.", next.message().get());
        try (Log log = Log.open(temp.resolve("data"))) {
            assertEquals(1, log.visits().size());
            assertEquals("whine", log.visits().get(0).complaint());
        }
        next.vehicles().load();
        assertEquals("", left.words());
    }

    @Test
    void aBrokenOffRoundThatHoldsNothingIsSaidToAndCanBeLeftOut() throws Exception {
        round.press();
        tickUntil(() -> state().speed().contains("rpm") || state().speed().equals("no speed"));
        console.close();
        Files.setLastModifiedTime(recorded(), FileTime.from(Instant.EPOCH));
        console.vehicles().load();
        LeftRounds left = console.vehicles().left();
        left.takeIn();
        assertTrue(console.message().get().contains("tkr"), console.message().get());
        assertEquals(1, left.all().size(), "it stays until somebody decides");
        left.leaveOut();
        console.vehicles().load();
        assertEquals("", left.words());
        assertTrue(Files.exists(recorded()));
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
