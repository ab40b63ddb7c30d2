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
import java.util.regex.Matcher;
import java.util.regex.Pattern;
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

    /**
     * A recording may lose the last second of what its process is known to have taken from the
     * line: a busy machine may let a process wait for longer than that, and what it has not had the
     * time to take is not lost by the recording.
     */
    private static final double MOST_LOST_S = 1.0;

    private static final Pattern TOOK = Pattern.compile("took (\\d{10})(\\d{9})");

    private static final double LONGEST_LIFE_S = 3.5;

    @TempDir private Path folder;

    @Test
    void everyRecordingOpensLosesAtMostASecondAndTheLogStaysWhole()
            throws IOException, InterruptedException {
        Random random = new Random(SEED);
        Path data = folder.resolve("data");
        double worstS = 0;
        double worstByTheKillS = 0;
        int recordings = 0;
        int told = 0;
        int late = 0;
        for (int i = 0; i < KILLS; i++) {
            Path own = Files.createDirectories(folder.resolve("r" + i));
            End end = runAndKill(own, data, LONGEST_LIFE_S * random.nextDouble());
            List<Path> files = recordings(own);
            recordings += files.size();
            told += end.took().isAfter(Instant.EPOCH) ? 1 : 0;
            for (Path file : files) {
                RecordingContent content = RecordingContent.of(file);
                assertTrue(content.damagedBytes() == 0, file + " is damaged");
                if (!content.closed()) {
                    Instant last =
                            content.startedAt().plusNanos(Math.round(1e9 * content.durationS()));
                    worstS = Math.max(worstS, secondsFrom(last, end.took()));
                    double byTheKillS = secondsFrom(last, end.killed());
                    worstByTheKillS = Math.max(worstByTheKillS, byTheKillS);
                    late += byTheKillS > MOST_LOST_S ? 1 : 0;
                }
            }
            try (Log log = Log.open(data)) {
                for (KeptVisit visit : log.visits()) {
                    assertTrue(log.visit(visit.id()).orElseThrow().captures().size() == 1);
                }
            }
        }
        System.out.printf(
                "killed %d times: %d recordings, at most %.3f s lost; %.3f s before the kill%n",
                KILLS, recordings, worstS, worstByTheKillS);
        assertTrue(recordings > 0, "no child lived long enough to record");
        assertTrue(2 * told > recordings, "only " + told + " said what they had taken");
        assertTrue(worstS <= MOST_LOST_S, worstS + " s lost");
        // Now and then a busy machine lets a process wait; one that always reads late is at fault.
        assertTrue(2 * late <= recordings, late + " recordings stopped long before the kill");
    }

    /** When a process was killed, and up to when it said that it had taken bytes. */
    private record End(Instant killed, Instant took) {}

    private static double secondsFrom(Instant from, Instant to) {
        return Duration.between(from, to).toNanos() / 1e9;
    }

    private static List<Path> recordings(Path own) throws IOException {
        try (Stream<Path> all = Files.list(own)) {
            return all.filter(f -> f.toString().endsWith(".tkr")).toList();
        }
    }

    /** Lives for so long after its first recording began. */
    private static End runAndKill(Path own, Path data, double lifeS)
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
            // By its handle: the process itself would close our end as well.
            child.toHandle().destroyForcibly();
            Instant took = Instant.EPOCH;
            for (String line = said.readLine(); line != null; line = said.readLine()) {
                Matcher m = TOOK.matcher(line);
                if (m.matches()) {
                    took =
                            Instant.ofEpochSecond(
                                    Long.parseLong(m.group(1)), Long.parseLong(m.group(2)));
                }
            }
            assertTrue(child.waitFor(20, TimeUnit.SECONDS), "child does not end");
            return new End(at, took);
        }
    }
}
