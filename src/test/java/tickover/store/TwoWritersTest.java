package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;

/** Two processes write one log at the same time: what either wrote is there. */
@ParameterizedClass(name = "{0}")
@EnumSource(Store.class)
class TwoWritersTest {
    private static final int TIMES = 25;
    private static final int IMPORTED = 5;
    private static final long LONGEST_S = 120;

    @Parameter Store store;
    @TempDir Path temp;

    /** A visit with an id of its own, later than the good one. */
    private static Visit later(Path folder, int number) throws IOException {
        Folders.good(folder);
        Files.writeString(
                folder.resolve("visit.toml"),
                Folders.VISIT
                        .replace("2026-03-04T", String.format("2026-04-%02dT", number))
                        .replace("0195f0c2", String.format("0195f%03d", number)));
        return VisitFolder.read(folder);
    }

    @Test
    void whatTwoProcessesWriteIsAllThere() throws Exception {
        String address = store.freshAddress(temp.resolve("data"));
        Path home = temp.resolve("home");
        LogPlace data = Store.place(address, home);
        Visit visit = VisitFolder.read(Folders.good(temp.resolve("visit")));
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
        }
        Path folders = temp.resolve("folders");
        Set<UUID> visits = new HashSet<>(Set.of(visit.id()));
        for (String of : List.of("both", "this", "other")) {
            for (int i = 0; i < IMPORTED; i++) {
                visits.add(later(folders.resolve(of + "-" + i), visits.size()).id());
            }
        }
        Path said = temp.resolve("said.txt");
        Process other =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-cp",
                                System.getProperty("java.class.path"),
                                WritingChild.class.getName(),
                                address,
                                "other",
                                Integer.toString(TIMES),
                                home.toString(),
                                folders.toString())
                        .redirectErrorStream(true)
                        .redirectOutput(said.toFile())
                        .start();
        try {
            // Both are at it at the same time once the other has begun.
            while (other.isAlive() && !Files.readString(said).contains("writing")) {
                TimeUnit.MILLISECONDS.sleep(10);
            }
            WritingChild.write(data, "this", TIMES, folders);
            assertTrue(other.waitFor(LONGEST_S, TimeUnit.SECONDS), "the other ends");
        } finally {
            other.destroyForcibly();
        }
        assertEquals(0, other.exitValue(), Files.readString(said));
        Set<String> expected = new HashSet<>();
        for (int i = 0; i < TIMES; i++) {
            expected.add("this " + i);
            expected.add("other " + i);
        }
        try (Log log = Log.open(data)) {
            List<UUID> kept = log.visits().stream().map(KeptVisit::id).toList();
            assertEquals(visits, Set.copyOf(kept));
            assertEquals(visits.size(), kept.size(), "each once");
            assertEquals(visits.size() * 6, Store.files(data).size());
            Set<String> notes = new HashSet<>();
            log.history().notes().forEach(n -> notes.add(n.text()));
            assertEquals(expected, notes);
            Set<String> repairs = new HashSet<>();
            log.history().repairs().forEach(m -> repairs.add(m.text()));
            assertEquals(expected, repairs);
            assertEquals(2 * TIMES, Raw.count(data, "SELECT COUNT(*) FROM finding"));
            assertEquals(
                    2 * TIMES * 3L, Raw.count(data, "SELECT COUNT(*) FROM part_level"), "whole");
            assertEquals(
                    List.of(),
                    LogCheck.run(data, file -> Optional.empty(), (d, t) -> {}).problems());
            log.history().refresh((done, total) -> {});
            assertEquals(1, log.history().fleet().size());
        }
    }
}
