package tickover.session;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.store.KeptVisit;
import tickover.store.Log;

/**
 * Processes that record and import are killed at random moments. By default a few; {@code
 * -Dtickover.kills=200} kills as many.
 */
class KilledRecordingTest {
    private static final int KILLS = Integer.getInteger("tickover.kills", 6);
    private static final long SEED = 20261125;

    /** A recording may lose its last second; a busy machine is late to deliver the kill. */
    private static final double MOST_LOST_S = 1.0;

    private static final double LONGEST_LIFE_S = 3.5;

    @TempDir private Path folder;

    @Test
    void everyRecordingOpensLosesAtMostASecondAndTheLogStaysWhole()
            throws IOException, InterruptedException {
        Random random = new Random(SEED);
        Path data = folder.resolve("data");
        double worstS = 0;
        int recordings = 0;
        for (int i = 0; i < KILLS; i++) {
            Path own = Files.createDirectories(folder.resolve("r" + i));
            Instant killedAt = runAndKill(own, data, LONGEST_LIFE_S * random.nextDouble());
            List<Path> files = recordings(own);
            recordings += files.size();
            for (Path file : files) {
                RecordingContent content = RecordingContent.of(file);
                assertTrue(content.damagedBytes() == 0, file + " is damaged");
                if (!content.closed()) {
                    Instant last =
                            content.startedAt().plusNanos(Math.round(1e9 * content.durationS()));
                    double lostS = Duration.between(last, killedAt).toNanos() / 1e9;
                    worstS = Math.max(worstS, lostS);
                }
            }
            try (Log log = Log.open(data)) {
                for (KeptVisit visit : log.visits()) {
                    assertTrue(log.visit(visit.id()).orElseThrow().captures().size() == 1);
                }
            }
        }
        System.out.printf(
                "killed %d times: %d recordings, at most %.3f s lost%n", KILLS, recordings, worstS);
        assertTrue(recordings > 0, "no child lived long enough to record");
        assertTrue(worstS <= MOST_LOST_S, worstS + " s lost");
    }

    private static List<Path> recordings(Path own) throws IOException {
        try (Stream<Path> all = Files.list(own)) {
            return all.filter(f -> f.toString().endsWith(".tkr")).toList();
        }
    }

    /** Lives for so long after its first recording began. */
    private static Instant runAndKill(Path own, Path data, double lifeS)
            throws IOException, InterruptedException {
        Process child =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-cp",
                                System.getProperty("java.class.path"),
                                RecordingChild.class.getName(),
                                own.toString(),
                                data.toString())
                        .redirectErrorStream(true)
                        .start();
        try (BufferedReader said =
                new BufferedReader(
                        new InputStreamReader(child.getInputStream(), StandardCharsets.UTF_8))) {
            String first = said.readLine();
            assertTrue(first != null && first.startsWith("recording"), "child says " + first);
            TimeUnit.NANOSECONDS.sleep(Math.round(lifeS * 1e9));
            Instant at = Instant.now();
            child.destroyForcibly();
            assertTrue(child.waitFor(20, TimeUnit.SECONDS), "child does not end");
            return at;
        }
    }
}
