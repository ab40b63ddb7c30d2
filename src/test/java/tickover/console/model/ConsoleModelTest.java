package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.PartListening.How;
import tickover.session.SimulatedFolders;
import tickover.session.SoundFollower;
import tickover.sim.LibraryPool;
import tickover.sim.SimulatedVisit;
import tickover.store.KeptVehicle;
import tickover.store.Log;
import tickover.store.VisitFolder;

class ConsoleModelTest {
    @TempDir Path temp;
    private ConsoleModel console;

    @BeforeEach
    void open() {
        console = fresh();
    }

    private ConsoleModel fresh() {
        return new ConsoleModel(
                new ConsoleOptions(temp.resolve("data"), true), new DirectErrands());
    }

    @Test
    void screensThatNeedAVehicleSaySo() {
        console.go(Screen.ROUND);
        assertEquals(Screen.VEHICLE, console.screen().get());
        assertTrue(console.message().get().contains("vehicle"));
        console.go(Screen.DRIVE);
        assertEquals(Screen.DRIVE, console.screen().get());
    }

    @Test
    void simulatedVanIsEnteredSavedAndChosen() {
        console.vehicles().enterSimulated();
        assertEquals(Screen.DRIVE, console.screen().get());
        assertTrue(console.saveDrive());
        assertEquals("ML-07", console.unit().get());
        assertFalse(console.drive().changed().get());
        assertEquals(
                List.of("ML-07"),
                console.vehicles().all().stream().map(KeptVehicle::unit).toList());
        try (Log log = Log.open(temp.resolve("data"))) {
            assertTrue(log.vehicle("ML-07").isPresent());
        }
        ConsoleModel next = fresh();
        next.vehicles().load();
        next.vehicles().search().set("ml-0");
        assertEquals(1, next.vehicles().shown().size());
        next.vehicles().choose("ML-07");
        assertEquals(Screen.ROUND, next.screen().get());
        assertEquals("ML-07", next.vehicle().orElseThrow().unit());
    }

    @Test
    void halfADriveIsNotSaved() {
        console.vehicles().enterNew();
        assertFalse(console.saveDrive());
        assertTrue(console.message().get().startsWith("Not saved yet. The vehicle needs a name"));
        try (Log log = Log.open(temp.resolve("data"))) {
            assertEquals(List.of(), log.vehicles());
        }
    }

    @Test
    void vehicleThatIsGoneIsSaid() {
        console.vehicles().choose("ML-99");
        assertTrue(console.message().get().contains("ML-99 is no longer in the log"));
        assertEquals(Optional.empty(), console.vehicle());
    }

    @Test
    void routingSketchIsKeptAsAPage() throws IOException {
        console.vehicles().enterSimulated();
        console.keepRoutingSketch();
        String page = Files.readString(temp.resolve("data/sketches/ML-07-routing.html"));
        assertTrue(page.contains("<svg"));
        assertTrue(page.contains("against the crank"));
        assertTrue(page.contains("mark its direction"));
        assertTrue(console.message().get().contains("ML-07-routing.html"));
    }

    @Test
    void findingsOfTheNewestVisitAreToldWithWhatChanged() throws IOException {
        try (Log log = Log.open(temp.resolve("data"))) {
            for (SimulatedVisit visit : List.of(LibraryPool.lastYear(), LibraryPool.complaint())) {
                Path folder = temp.resolve(visit.id());
                SimulatedFolders.write(visit, folder);
                log.importVisit(VisitFolder.read(folder));
            }
        }
        console.vehicles().choose("ML-07");
        console.go(Screen.FINDINGS);
        FindingsState state = console.findings().state().get();
        assertEquals("ML-07, 14 Oct 2026, 09:30", state.title());
        assertFalse(state.headline().isBlank());
        double roundOff = 1e-9;
        assertEquals(
                1,
                state.suspects().stream().mapToDouble(FindingsState.Suspect::probability).sum(),
                roundOff);
        assertFalse(state.changes().isEmpty());
        assertEquals(2, console.findings().visits().size());
        assertTrue(console.findings().isShown(console.findings().visits().get(0)));
        console.findings().report();
        String page = Files.readString(temp.resolve("data/reports/ML-07-2026-10-14-0930.html"));
        assertTrue(page.contains("ML-07"));
        historyOfBothVisitsIsTold();
        bothVisitsAreHeldAgainstEachOther();
        onePartIsHeardBeforeAndAfter();
    }

    /** Takes what would be heard. */
    private static final class Ear implements Loudspeaker {
        private final List<Integer> heard = new ArrayList<>();
        private Runnable ended = () -> {};
        private boolean deaf;

        @Override
        public void play(
                double[] samples, double sampleRateHz, Runnable end, Consumer<String> failed) {
            if (deaf) {
                failed.accept("no loudspeaker");
                return;
            }
            heard.add((int) Math.rint(samples.length / sampleRateHz));
            ended = end;
        }

        @Override
        public void follow(SoundFollower sound, Consumer<String> failed) {
            failed.accept("no loudspeaker");
        }

        @Override
        public void stop() {
            ended.run();
        }
    }

    /** On the same log. */
    private void onePartIsHeardBeforeAndAfter() throws IOException {
        Ear ear = new Ear();
        ListenModel listen = console.listen();
        listen.speaker(ear);
        listen.choice().how().set(How.RINGING);
        console.go(Screen.LISTEN);
        assertEquals(2, listen.choice().visits().size());
        assertEquals("idler", listen.choice().part().get());
        assertTrue(
                listen.choice().capture().get().endsWith("at the idler"),
                listen.choice().capture().get());
        assertEquals(2, listen.choice().earliers().size());
        assertEquals(listen.choice().visits().get(1), listen.choice().earlier().get());
        listen.play(ListenModel.What.BOTH);
        assertEquals("", console.message().get());
        assertEquals("before, then after", listen.state().get().playing());
        assertTrue(listen.state().get().before().startsWith("idler, 8 Oct 2025"));
        assertTrue(listen.state().get().after().contains("gain"));
        listen.stop();
        assertEquals("", listen.state().get().playing());
        listen.play(ListenModel.What.AFTER);
        int pauseS = 1;
        assertEquals(2 * ear.heard.get(1), ear.heard.get(0), pauseS);
        ear.deaf = true;
        listen.play(ListenModel.What.BEFORE);
        assertEquals("no loudspeaker", console.message().get());
        assertEquals("", listen.state().get().playing());
        listen.save();
        Path wav = temp.resolve("data/sounds/ML-07-idler-2026-10-14.wav");
        assertEquals("The sound is " + wav + ".", console.message().get());
        assertTrue(Files.size(wav) > 0);
        listen.choice().part().set("alternator");
        assertTrue(listen.choice().capture().get().contains("alternator"));
        assertEquals("", listen.state().get().after());
    }

    /** On the same log. */
    private void bothVisitsAreHeldAgainstEachOther() throws IOException {
        console.go(Screen.COMPARE);
        CompareModel compare = console.compare();
        CompareState state = compare.state().get();
        assertTrue(state.title().endsWith(" → 14 Oct 2026, 09:30"), state.title());
        assertEquals(1, compare.laters().size());
        assertEquals(1, compare.earliers().size());
        assertEquals("", state.repaired());
        assertTrue(state.headline().startsWith("Changed: "), state.headline());
        CompareState.Row idler = row(state, "idler");
        assertEquals(CompareState.Mark.WORSE, idler.mark());
        assertTrue(idler.change().matches("\\+.* dB \\(\\+.* to \\+.*\\)"), idler.change());
        assertTrue(idler.luck().startsWith("luck"), idler.luck());
        compare.repaired("idler");
        state = compare.state().get();
        assertEquals("Repair of the idler failed: it is louder.", state.headline());
        assertTrue(state.text().contains("Suspicion against it"), state.text());
        assertTrue(row(state, "alternator").words().contains("would have shown"));
        console.findings().report();
        Path report = temp.resolve("data/reports/ML-07-2026-10-14-0930.html");
        assertTrue(Files.readString(report).contains("Repair of the idler failed"));
        compare.repaired(CompareModel.NO_REPAIR);
        assertEquals("", compare.state().get().text());
        Files.delete(report);
        compare.report();
        String alone = Files.readString(report);
        assertTrue(alone.contains("Held against the visit of"));
        assertFalse(alone.contains("Repair of"), "nothing was repaired");
        aMarkedRepairIsReportedAndHeldFirst(report);
    }

    /** On the same log, by a console that was told nothing of a repair. */
    private void aMarkedRepairIsReportedAndHeldFirst(Path report) throws IOException {
        try (Log log = Log.open(temp.resolve("data"))) {
            log.history()
                    .addRepair("ML-07", LocalDateTime.of(2026, 9, 1, 12, 0), "tensioner", "tight");
        }
        ConsoleModel next = fresh();
        next.vehicles().load();
        next.vehicles().choose("ML-07");
        next.go(Screen.FINDINGS);
        next.findings().report();
        assertTrue(Files.readString(report).contains("Repair of the tensioner"));
        next.go(Screen.COMPARE);
        assertEquals("tensioner", next.compare().state().get().repaired());
    }

    private static CompareState.Row row(CompareState state, String part) {
        return state.rows().stream().filter(r -> r.part().equals(part)).findFirst().orElseThrow();
    }

    /** On the same log, for a visit takes seconds to make. */
    private void historyOfBothVisitsIsTold() {
        console.go(Screen.HISTORY);
        HistoryModel history = console.history();
        HistoryState state = history.state().get();
        assertEquals("ML-07", state.unit());
        assertEquals(List.of("ML-07"), state.fleet().stream().map(v -> v.unit()).toList());
        assertTrue(state.fleet().get(0).seen().endsWith("seen 14 Oct 2026, 2 visits"));
        assertTrue(
                state.series().stream().anyMatch(s -> s.name().startsWith("idler at the idler")));
        assertEquals(2, state.shown().orElseThrow().judged().trend().series().points().size());
        int last = state.series().size() - 1;
        history.pick(last);
        assertEquals(last, history.state().get().picked());
        history.pick(last + 1);
        assertEquals(last, history.state().get().picked());
        LocalDateTime at = LocalDateTime.of(2026, 10, 14, 12, 0);
        history.repair("idler", "new idler", at);
        history.note("", "belt was wet", at.minusDays(1));
        state = history.state().get();
        assertEquals(
                List.of("13 Oct 2026, belt was wet", "14 Oct 2026, repair of the idler: new idler"),
                state.marks());
        assertTrue(
                state.series().stream()
                        .filter(s -> s.name().startsWith("idler at the idler"))
                        .allMatch(s -> s.judged().trend().restart().isPresent()));
        history.note("", "  ", at);
        assertEquals("Type first what is to be remembered.", console.message().get());
    }

    @Test
    void preferencesComeBackAndDamageIsForgiven() throws IOException {
        Preferences likes = console.preferences();
        likes.nextTheme();
        likes.largerText();
        likes.units().set(Preferences.Units.IMPERIAL);
        likes.save(new Preferences.Place(10, 20, 900, 700));
        Preferences again = fresh().preferences();
        assertEquals(Preferences.Theme.DARK, again.theme().get());
        assertEquals(1.25, again.textScale().get());
        assertEquals(Preferences.Units.IMPERIAL, again.units().get());
        assertEquals(new Preferences.Place(10, 20, 900, 700), again.place().orElseThrow());
        Files.writeString(
                temp.resolve("data/console.properties"),
                "theme=plaid\ntext_scale=NaN\nwindow_x=\\uqqqq\n");
        Preferences damaged = fresh().preferences();
        assertEquals(Preferences.Theme.LIGHT, damaged.theme().get());
        assertEquals(1, damaged.textScale().get());
        assertEquals(Optional.empty(), damaged.place());
    }
}
