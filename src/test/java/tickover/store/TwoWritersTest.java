package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two processes write one log at the same time: what either wrote is there. */
class TwoWritersTest {
    private static final int TIMES = 25;
    private static final long LONGEST_S = 120;

    @TempDir Path temp;

    @Test
    void whatTwoProcessesWriteIsAllThere() throws Exception {
        Path data = temp.resolve("data");
        Visit visit = VisitFolder.read(Folders.good(temp.resolve("visit")));
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
        }
        Path said = temp.resolve("said.txt");
        Process other =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-cp",
                                System.getProperty("java.class.path"),
                                WritingChild.class.getName(),
                                data.toString(),
                                "other",
                                Integer.toString(TIMES))
                        .redirectErrorStream(true)
                        .redirectOutput(said.toFile())
                        .start();
        try {
            // Both are at it at the same time once the other has begun.
            while (other.isAlive() && !Files.readString(said).contains("writing")) {
                TimeUnit.MILLISECONDS.sleep(10);
            }
            WritingChild.write(data, "this", TIMES);
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
        try (Log log = Log.open(data);
                Raw raw = Raw.open(data)) {
            Set<String> notes = new HashSet<>();
            log.history().notes().forEach(n -> notes.add(n.text()));
            assertEquals(expected, notes);
            Set<String> repairs = new HashSet<>();
            log.history().repairs().forEach(m -> repairs.add(m.text()));
            assertEquals(expected, repairs);
            assertEquals(2 * TIMES, Raw.count(data, "SELECT COUNT(*) FROM finding"));
            assertEquals(
                    2 * TIMES * 3L, Raw.count(data, "SELECT COUNT(*) FROM part_level"), "whole");
            assertEquals("ok\n", raw.rows("PRAGMA integrity_check"));
            assertEquals("", raw.rows("PRAGMA foreign_key_check"));
            log.history().refresh((done, total) -> {});
            assertEquals(1, log.history().fleet().size());
        }
    }
}
