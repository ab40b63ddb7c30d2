package tickover.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.unit.HostNanos;

/** Kills a recording program without warning. */
class RecordingKillTest {
    private static final int KILLS = Integer.getInteger("tickover.kills", 15);
    private static final int LATEST_KILL_MS = 400;
    private static final int PAYLOAD_SIZES = 40_000;

    @TempDir Path folder;

    /** Records without end, and says after each chunk that it is in. */
    static final class Recorder {
        private Recorder() {}

        public static void main(String[] args) {
            HostNanos start = new HostNanos(System.nanoTime());
            RecordingHeader header =
                    new RecordingHeader(
                            Recordings.HEADER.id(), start, Recordings.HEADER.startedWall());
            PrintStream said = System.out;
            try (RecordingWriter writer = RecordingWriter.create(Path.of(args[0]), header)) {
                for (int number = 0; ; number++) {
                    HostNanos now = new HostNanos(System.nanoTime());
                    writer.append(new Chunk(Chunk.Kind.IN, number & 0xFF, now, payload(number)));
                    writer.forceIfDue(now);
                    said.println(number + " " + now.value());
                }
            }
        }
    }

    private static byte[] payload(int number) {
        byte[] bytes = new byte[new Random(number).nextInt(PAYLOAD_SIZES)];
        Arrays.fill(bytes, (byte) number);
        return bytes;
    }

    @Test
    void killedRecordingKeepsEveryChunkThatWasIn() throws Exception {
        long seed = System.nanoTime();
        Random random = new Random(seed);
        int torn = 0;
        for (int kill = 0; kill < KILLS; kill++) {
            Path path = folder.resolve("killed-" + kill + ".tkr");
            String last = recordUntilKilled(path, random.nextInt(LATEST_KILL_MS));
            String where = "seed " + seed + ", kill " + kill;
            int[] next = {0};
            HostNanos[] time = {new HostNanos(0)};
            RecordingReader reader = RecordingReader.open(path);
            long tornBytes =
                    reader.forEach(
                            new ChunkSink() {
                                @Override
                                public void chunk(Chunk chunk) {
                                    assertEquals(next[0] & 0xFF, chunk.source(), where);
                                    assertTrue(
                                            Arrays.equals(payload(next[0]), chunk.bytes()), where);
                                    next[0]++;
                                    time[0] = chunk.at();
                                }

                                @Override
                                public void damaged(long offset, long bytes, HostNanos lastGood) {
                                    throw new AssertionError(where + ": damaged at " + offset);
                                }
                            });
            torn += tornBytes > 0 ? 1 : 0;
            List<String> words = List.of(last.split(" "));
            assertTrue(next[0] > Integer.parseInt(words.get(0)), where + ": lost a chunk");
            assertTrue(time[0].value() >= Long.parseLong(words.get(1)), where);
            assertEquals(false, reader.index().closedProperly());
            Files.delete(path);
        }
        report(seed, torn);
    }

    private static void report(long seed, int torn) {
        System.out.println(KILLS + " kills, seed " + seed + ", torn tails " + torn);
    }

    /** Returns the last whole line that the recorder said. */
    private String recordUntilKilled(Path path, int afterMs)
            throws IOException, InterruptedException {
        Process recorder =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-Xshare:auto",
                                "-XX:TieredStopAtLevel=1",
                                "-XX:+UseSerialGC",
                                "-cp",
                                Path.of("target", "classes")
                                        + File.pathSeparator
                                        + Path.of("target", "test-classes"),
                                Recorder.class.getName(),
                                path.toString())
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        try (BufferedReader said = recorder.inputReader(StandardCharsets.US_ASCII)) {
            String first = said.readLine();
            assertNotNull(first, "the recorder did not start");
            Thread killer =
                    new Thread(
                            () -> {
                                try {
                                    Thread.sleep(afterMs);
                                } catch (InterruptedException e) {
                                    Thread.currentThread().interrupt();
                                }
                                // By its handle: the process itself would close our end as well.
                                recorder.toHandle().destroyForcibly();
                            });
            killer.start();
            StringBuilder text = new StringBuilder(first).append('\n');
            char[] piece = new char[4096];
            for (int got = said.read(piece); got >= 0; got = said.read(piece)) {
                text.append(piece, 0, got);
            }
            killer.join();
            recorder.waitFor();
            String whole = text.substring(0, text.lastIndexOf("\n"));
            return whole.substring(whole.lastIndexOf('\n') + 1);
        }
    }
}
