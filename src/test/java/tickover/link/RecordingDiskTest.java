package tickover.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.unit.HostNanos;

/** A disk that is full. Needs a small one of its own, which only root may mount, and Linux. */
class RecordingDiskTest {
    private static final int DISK_BYTES = 256 << 10;
    private static final int CHUNK_BYTES = 10_000;

    @TempDir Path folder;

    private static int run(String... command) throws IOException, InterruptedException {
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start()
                .waitFor();
    }

    @Test
    void fullDiskIsOneSentenceAndKeepsWhatWasRecorded() throws Exception {
        assumeTrue(Files.isExecutable(Path.of("/bin/mount")), "no mount: skipped");
        Path disk = Files.createDirectory(folder.resolve("disk"));
        assumeTrue(
                run("mount", "-t", "tmpfs", "-o", "size=" + DISK_BYTES, "tmpfs", disk.toString())
                        == 0,
                "only root may mount a small disk: skipped");
        try {
            fill(disk.resolve("visit.tkr"));
            LinkException e =
                    assertThrows(
                            LinkException.class,
                            () ->
                                    RecordingWriter.create(
                                            disk.resolve("next.tkr"), Recordings.HEADER));
            assertEquals(LinkException.Reason.DISK_FULL, e.reason());
        } finally {
            run("umount", disk.toString());
        }
    }

    private static void fill(Path path) throws IOException {
        int written = 0;
        try (RecordingWriter writer = RecordingWriter.create(path, Recordings.HEADER)) {
            LinkException full = null;
            while (full == null) {
                try {
                    writer.append(chunk(written));
                    written++;
                } catch (LinkException e) {
                    full = e;
                }
                assertTrue(written <= DISK_BYTES / CHUNK_BYTES, "the disk never got full");
            }
            assertEquals(LinkException.Reason.DISK_FULL, full.reason());
            assertEquals(
                    "The disk is full: "
                            + path
                            + " keeps what was recorded until now; make room and start a new"
                            + " recording.",
                    full.getMessage());
            assertSame(full, assertThrows(LinkException.class, () -> writer.append(chunk(0))));
            assertEquals(writer.fileBytes(), Files.size(path));
            // What is left would take the end mark, but a recording that broke off has none.
        }
        RecordingReader reader = RecordingReader.open(path);
        Recordings.Heard heard = new Recordings.Heard();
        assertEquals(0, reader.forEach(heard), "the torn chunk is cut off");
        assertEquals(written, heard.chunks.size());
        for (int i = 0; i < written; i++) {
            assertEquals(Recordings.text(chunk(i)), heard.story.get(i));
        }
        assertTrue(written >= 20, "most of the disk was used: " + written);
        assertEquals(List.of(), reader.index().damaged());
        assertEquals(false, reader.index().closedProperly());
    }

    private static Chunk chunk(int i) {
        byte[] bytes = new byte[CHUNK_BYTES];
        java.util.Arrays.fill(bytes, (byte) i);
        return new Chunk(Chunk.Kind.IN, 0, new HostNanos(i), bytes);
    }
}
