package tickover.link;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.unit.HostNanos;

class RecordingTest {
    @TempDir Path folder;

    @Test
    void givesBackWhatWasAppended() {
        Path path = folder.resolve("visit.tkr");
        Recordings.write(path, Recordings.oneOfEach());

        Recordings.Heard heard = Recordings.hear(path);
        List<String> expected =
                new ArrayList<>(Recordings.oneOfEach().stream().map(Recordings::text).toList());
        Chunk end = heard.chunks.get(heard.chunks.size() - 1);
        expected.add(Recordings.text(end));
        assertEquals(expected, heard.story);
        assertEquals(Chunk.Kind.END, end.kind());
        assertEquals(
                "{\"chunks\":8,\"sources\":[{\"source\":0,\"inBytes\":256,\"outBytes\":0},"
                        + "{\"source\":255,\"inBytes\":0,\"outBytes\":4}]}",
                new String(end.bytes(), StandardCharsets.UTF_8));
        assertEquals(Recordings.HEADER, RecordingReader.open(path).header().orElseThrow());
    }

    @Test
    void indexSaysWhatThereIs() throws IOException {
        Path path = folder.resolve("visit.tkr");
        Recordings.write(path, Recordings.oneOfEach());

        RecordingIndex index = RecordingReader.open(path).index();
        assertEquals(new HostNanos(-4_999_999_999L), index.first());
        assertEquals(new HostNanos(1_000_000_000L), index.last());
        assertEquals(9, index.chunks());
        assertEquals(Files.size(path), index.fileBytes());
        assertEquals(
                List.of(
                        new RecordingIndex.Source(
                                0,
                                256,
                                0,
                                new HostNanos(-4_999_000_000L),
                                new HostNanos(-3_999_000_000L)),
                        new RecordingIndex.Source(
                                255,
                                0,
                                4,
                                new HostNanos(-4_998_000_000L),
                                new HostNanos(-3_900_000_000L))),
                index.sources());
        assertEquals(List.of(), index.damaged());
        assertEquals(0, index.tornBytes());
        assertTrue(index.closedProperly());
    }

    @Test
    void headerTellsTheTimeOfDay() {
        assertEquals(
                Instant.parse("2026-03-04T09:30:05.123456789Z"),
                Recordings.HEADER.wallTimeOf(new HostNanos(0)));
        assertThrows(
                IllegalArgumentException.class,
                () -> new RecordingHeader(Recordings.HEADER.id(), new HostNanos(0), Instant.MAX));
    }

    @Test
    void recordingBeingWrittenCanBeReadAlready() {
        Path path = folder.resolve("live.tkr");
        try (RecordingWriter writer = RecordingWriter.create(path, Recordings.HEADER)) {
            RecordingReader reader = RecordingReader.open(path);
            RecordingIndex empty = reader.index();
            assertEquals(0, empty.chunks());
            assertEquals(Recordings.HEADER.startedAt(), empty.first());
            writer.append(Recordings.in(0, 1, 7));
            assertEquals(1, reader.index().chunks());
            writer.append(Recordings.in(0, 2, 8));
            Recordings.Heard heard = new Recordings.Heard();
            assertEquals(0, reader.forEach(heard));
            assertEquals(List.of("IN 0 1 [7]", "IN 0 2 [8]"), heard.story);
            assertFalse(reader.index().closedProperly());
        }
    }

    @Test
    void largestChunkGoesInAndALargerOneDoesNot() {
        Path path = folder.resolve("large.tkr");
        byte[] large = new byte[1 << 20];
        new Random(1).nextBytes(large);
        HostNanos at = new HostNanos(3);
        try (RecordingWriter writer = RecordingWriter.create(path, Recordings.HEADER)) {
            writer.append(new Chunk(Chunk.Kind.IN, 1, at, large));
            writer.append(Recordings.in(1, 4, 9));
            writer.append(new Chunk(Chunk.Kind.IN, 1, at, large));
            Chunk tooLarge = new Chunk(Chunk.Kind.IN, 1, at, new byte[large.length + 1]);
            assertThrows(IllegalArgumentException.class, () -> writer.append(tooLarge));
            assertThrows(
                    IllegalArgumentException.class,
                    () -> writer.append(Recordings.json(Chunk.Kind.END, 0, 5, "{}")));
        }
        Recordings.Heard heard = Recordings.hear(path);
        assertEquals(4, heard.chunks.size());
        assertArrayEquals(large, heard.chunks.get(0).bytes());
        assertArrayEquals(large, heard.chunks.get(2).bytes());
    }

    @Test
    void forcesWhenHalfASecondHasPassedAndThereIsSomething() {
        Path path = folder.resolve("forced.tkr");
        HostNanos start = Recordings.HEADER.startedAt();
        try (RecordingWriter writer = RecordingWriter.create(path, Recordings.HEADER)) {
            assertFalse(writer.forceIfDue(start.plusS(1)), "nothing is new");
            writer.append(Recordings.in(0, 1, 7));
            assertFalse(writer.forceIfDue(start.plusS(0.49)));
            assertTrue(writer.forceIfDue(start.plusS(0.5)));
            assertFalse(writer.forceIfDue(start.plusS(2)), "nothing is new");
            writer.append(Recordings.in(0, 1, 7));
            assertFalse(writer.forceIfDue(start.plusS(0.9)));
            assertTrue(writer.forceIfDue(start.plusS(1.1)));
        }
    }

    @Test
    void interruptedThreadsDoNotCloseTheRecording() throws Exception {
        Path path = folder.resolve("interrupted.tkr");
        try (RecordingWriter writer = RecordingWriter.create(path, Recordings.HEADER)) {
            Thread thread =
                    new Thread(
                            () -> {
                                Thread.currentThread().interrupt();
                                writer.append(Recordings.in(0, 1, 7));
                                writer.forceIfDue(Recordings.HEADER.startedAt().plusS(1));
                            });
            thread.start();
            thread.join();
            writer.append(Recordings.in(0, 2, 8));
        }
        assertEquals(3, RecordingReader.open(path).index().chunks());
    }

    @Test
    void threadsMayAppendTogether() throws Exception {
        int threads = 3;
        int each = 500;
        Path path = folder.resolve("together.tkr");
        ExecutorService pool = Executors.newFixedThreadPool(threads);
        try (RecordingWriter writer = RecordingWriter.create(path, Recordings.HEADER)) {
            List<Future<?>> running = new ArrayList<>();
            for (int t = 0; t < threads; t++) {
                int source = t;
                running.add(
                        pool.submit(
                                () -> {
                                    for (int i = 0; i < each; i++) {
                                        writer.append(Recordings.in(source, i, i, i >> 8));
                                    }
                                }));
            }
            for (Future<?> one : running) {
                one.get();
            }
        } finally {
            pool.shutdown();
        }
        RecordingIndex index = RecordingReader.open(path).index();
        assertEquals(1L + (long) threads * each, index.chunks());
        assertEquals(List.of(), index.damaged());
        for (RecordingIndex.Source source : index.sources()) {
            assertEquals(2L * each, source.inBytes());
        }
    }

    @Test
    void neverOverwritesAFile() throws IOException {
        Path path = folder.resolve("precious.tkr");
        Files.writeString(path, "precious");
        LinkException e =
                assertThrows(
                        LinkException.class, () -> RecordingWriter.create(path, Recordings.HEADER));
        assertEquals(LinkException.Reason.BAD_RECORDING, e.reason());
        assertEquals(
                path + " exists already, and a recording never overwrites; choose another name.",
                e.getMessage());
        assertEquals("precious", Files.readString(path));
    }

    @Test
    void folderThatIsMissingIsNamed() {
        Path path = folder.resolve("nowhere").resolve("visit.tkr");
        LinkException e =
                assertThrows(
                        LinkException.class, () -> RecordingWriter.create(path, Recordings.HEADER));
        assertEquals("The folder of " + path + " does not exist; make it first.", e.getMessage());
    }

    @Test
    void closedRecordingTakesNoMore() {
        Path path = folder.resolve("closed.tkr");
        RecordingWriter writer = RecordingWriter.create(path, Recordings.HEADER);
        writer.close();
        writer.close();
        assertThrows(IllegalStateException.class, () -> writer.append(Recordings.in(0, 1, 7)));
        assertFalse(writer.forceIfDue(Recordings.HEADER.startedAt().plusS(9)));
        assertTrue(RecordingReader.open(path).index().closedProperly());
    }
}
