package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import tickover.diagnose.VisitResult;
import tickover.store.ArchiveImport;
import tickover.store.Backup;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.LogArchive;
import tickover.store.LogCheck;
import tickover.store.LogPlace;
import tickover.store.Store;
import tickover.store.Visit;

/**
 * Processes that take an archive in, or analyse anew, are killed half way: what is there is whole,
 * nothing that was there is lost, and doing it again ends where it would have ended. By default
 * each once; {@code -Dtickover.kills=200} kills as many of each.
 */
@ParameterizedClass(name = "{0}")
@EnumSource(Store.class)
class KilledLogTest {
    private static final int KILLS = Integer.getInteger("tickover.kills", 1);
    private static final long SEED = 20261128;
    private static final int VISITS = 24;

    /** A visit of this size takes some ms; this lets the kill fall anywhere in the next. */
    private static final int LONGEST_WAIT_MS = 6;

    @Parameter Store store;
    @TempDir private Path folder;
    private final Random random = new Random(SEED);
    private List<Visit> visits;
    private String full;
    private Path archive;

    @BeforeEach
    void makeLog() {
        visits = SmallVisits.write(folder.resolve("visits"), VISITS);
        full = fresh("full");
        fill(full, VISITS, "0.0.1", "0.0.2");
        archive = folder.resolve("full.zip");
        LogArchive.write(
                place(full),
                archive,
                LogArchive.Filter.ALL,
                Clock.systemUTC(),
                (done, total) -> {});
    }

    private void fill(String data, int count, String... versions) {
        try (Log log = Log.open(place(data))) {
            for (Visit visit : visits.subList(0, count)) {
                log.importVisit(visit);
                for (String version : versions) {
                    log.saveResult(visit.id(), SmallVisits.result(1, version));
                }
            }
        }
    }

    private String fresh(String name) {
        return store.freshAddress(folder.resolve(name));
    }

    private String home() {
        return folder.resolve("home").toString();
    }

    private LogPlace place(String said) {
        return Store.place(said, Path.of(home()));
    }

    private String copy(String data, String name) {
        String copy = fresh(name);
        Path file = folder.resolve(name + ".zip");
        if (store == Store.FOLDER) {
            Backup.make(place(data), Path.of(copy), false, (done, total) -> {});
        } else {
            Backup.make(place(data), file, false, (done, total) -> {});
            take(copy, file);
        }
        return copy;
    }

    /** Every visit with the versions of its results, the latest first. */
    private List<String> content(String data) {
        List<String> lines = new ArrayList<>();
        try (Log log = Log.open(place(data))) {
            for (KeptVisit visit : log.visits()) {
                lines.add(visit.id() + " " + versions(log.results(visit.id())));
            }
        }
        return lines;
    }

    private static List<String> versions(List<VisitResult> results) {
        return results.stream().map(VisitResult::codeVersion).toList();
    }

    private void assertWhole(String data) {
        // Opening sweeps what crashed imports leave.
        Log.open(place(data)).close();
        assertEquals(
                List.of(),
                LogCheck.run(place(data), RecordingDamage::of, (done, total) -> {}).problems());
    }

    private void take(String data, Path archive) {
        ArchiveImport.take(place(data), archive, (done, total) -> {});
    }

    @Test
    void archiveIntoAnEmptyLog() throws Exception {
        List<String> expected = content(full);
        for (int i = 0; i < KILLS; i++) {
            String data = fresh("empty-" + i);
            killed("take", data, home(), archive.toString());
            assertWhole(data);
            List<String> left = content(data);
            assertTrue(expected.containsAll(left), left + " has only whole visits");
            assertTrue(left.size() < VISITS, "was killed before its end");
            take(data, archive);
            assertEquals(expected, content(data));
        }
    }

    @Test
    void mergeIntoALogThatHasSomeOfIt() throws Exception {
        String half = fresh("half");
        fill(half, VISITS / 2, "0.0.3");
        List<String> before = content(half);
        String whole = copy(half, "whole");
        take(whole, archive);
        List<String> expected = content(whole);
        assertEquals(VISITS, expected.size());
        for (int i = 0; i < KILLS; i++) {
            String data = copy(half, "half-" + i);
            killed("take", data, home(), archive.toString());
            assertWhole(data);
            List<String> left = content(data);
            for (String line : left) {
                assertTrue(before.contains(line) || expected.contains(line), line);
            }
            assertTrue(left.size() >= before.size(), "no visit is lost");
            take(data, archive);
            assertEquals(expected, content(data));
        }
    }

    @Test
    void reanalysis() throws Exception {
        List<String> before = content(full);
        List<String> expected =
                before.stream().map(l -> l.replace("[", "[" + CodeVersion.text() + ", ")).toList();
        for (int i = 0; i < KILLS; i++) {
            String data = copy(full, "again-" + i);
            int reached = killed("reanalyse", data, home());
            assertWhole(data);
            List<String> left = content(data);
            int done = 0;
            for (int k = 0; k < VISITS; k++) {
                assertTrue(
                        left.get(k).equals(before.get(k)) || left.get(k).equals(expected.get(k)),
                        left.get(k));
                done += left.get(k).equals(expected.get(k)) ? 1 : 0;
            }
            assertTrue(done >= reached, done + " of " + reached + " that were told are there");
            LogChild.reanalyse(place(data), ignored -> {});
            assertEquals(expected, content(data));
        }
    }

    /** Runs a child, kills it after some of its visits, and returns how many it told of. */
    private int killed(String... args) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(
                List.of(
                        "-XX:TieredStopAtLevel=1",
                        "-XX:+UseSerialGC",
                        "-cp",
                        System.getProperty("java.class.path"),
                        LogChild.class.getName()));
        command.addAll(List.of(args));
        Process child =
                new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
        int told = 0;
        int wanted = 1 + random.nextInt(VISITS / 3);
        try (BufferedReader said =
                new BufferedReader(
                        new InputStreamReader(child.getInputStream(), StandardCharsets.UTF_8))) {
            while (told < wanted) {
                String line = said.readLine();
                assertTrue(line != null, "child ended by itself");
                told = line.equals("begun") ? told : Integer.parseInt(line);
            }
            TimeUnit.MILLISECONDS.sleep(random.nextInt(LONGEST_WAIT_MS));
            child.destroyForcibly();
            assertTrue(child.waitFor(20, TimeUnit.SECONDS), "child does not end");
        } finally {
            child.destroyForcibly();
        }
        return told;
    }
}
