package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.EndlessScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.store.ImportOutcome;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.VisitFolder;

/**
 * Processes that import are killed at random moments: every visit folder and every visit in a log
 * is whole then. By default a few; {@code -Dtickover.kills=200} kills as many.
 */
class KilledImportTest {
    private static final int KILLS = Integer.getInteger("tickover.kills", 4);
    private static final long SEED = 20261126;
    private static final double LONGEST_LIFE_S = 1.2;

    @TempDir private Path folder;

    @Test
    void whatAKilledImportLeavesIsWholeOrNotThere() throws IOException, InterruptedException {
        Path recording = folder.resolve("r.tkr");
        EndlessScene scene =
                new EndlessScene(
                        new EndlessScene.Turning(780, 0.01, 5),
                        List.of(new EndlessScene.Tone(2, 1, 0)),
                        0.1,
                        1);
        new VirtualRecording(
                        List.of(
                                new VirtualRecording.Device(
                                        SourceInfo.of(Role.PROBE, Language.FRAMES, "p", 0, "1"),
                                        new SimulatedProbe(
                                                SimulatedProbe.Spec.ordinary(8000, 40), scene),
                                        new LineTrouble(LineTrouble.Spec.NONE, 1))))
                .write(recording, 20);
        Random random = new Random(SEED);
        int whole = 0;
        for (int i = 0; i < KILLS; i++) {
            Path own = Files.createDirectories(folder.resolve("k" + i));
            // One of them gets as far as its second import, however busy the machine is.
            String from = i == 0 ? "importing 1" : "importing 0";
            runAndKill(recording, own, from, LONGEST_LIFE_S * random.nextDouble());
            for (Path left : entries(own, "v")) {
                assertEquals(1, VisitFolder.read(left).captures().size(), left + " is whole");
                whole++;
            }
            for (Path data : entries(own, "data")) {
                try (Log log = Log.open(data)) {
                    List<KeptVisit> kept = log.visits();
                    for (KeptVisit visit : kept) {
                        log.export(visit.id(), own.resolve("export-" + data.getFileName()));
                    }
                    Path again = own.resolve("again-" + data.getFileName());
                    ImportOutcome outcome =
                            log.importVisit(
                                    RecordingVisit.write(
                                                    recording, RecordingVisit.About.NOTHING, again)
                                            .visit());
                    assertEquals(
                            kept.isEmpty() ? ImportOutcome.IMPORTED : ImportOutcome.ALREADY_KEPT,
                            outcome);
                }
            }
        }
        System.out.printf("killed %d times: %d whole folders, seed %d%n", KILLS, whole, SEED);
        assertTrue(whole > 0, "no child lived long enough to import");
    }

    private static List<Path> entries(Path own, String prefix) throws IOException {
        try (Stream<Path> all = Files.list(own)) {
            return all.filter(p -> p.getFileName().toString().startsWith(prefix)).toList();
        }
    }

    /** Lives for so long after it said that an import began. */
    private static void runAndKill(Path recording, Path own, String from, double lifeS)
            throws IOException, InterruptedException {
        Process child =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-cp",
                                System.getProperty("java.class.path"),
                                ImportChild.class.getName(),
                                recording.toString(),
                                own.toString(),
                                own.toString())
                        .redirectErrorStream(true)
                        .start();
        try (BufferedReader said =
                new BufferedReader(
                        new InputStreamReader(child.getInputStream(), StandardCharsets.UTF_8))) {
            StringBuilder all = new StringBuilder();
            String line = said.readLine();
            while (line != null && !line.equals(from)) {
                all.append(line).append('\n');
                line = said.readLine();
            }
            assertTrue(line != null, "child says " + all);
            TimeUnit.NANOSECONDS.sleep(Math.round(lifeS * 1e9));
            child.destroyForcibly();
            assertTrue(child.waitFor(20, TimeUnit.SECONDS), "child does not end");
        } finally {
            child.destroyForcibly();
        }
    }
}
