package tickover.link;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import tickover.unit.HostNanos;

/** Small recordings to test with. */
final class Recordings {
    static final RecordingHeader HEADER =
            new RecordingHeader(
                    UUID.fromString("5b6f2f5e-3c1d-4e0a-9a77-0102a3b4c5d6"),
                    new HostNanos(-5_000_000_000L),
                    Instant.parse("2026-03-04T09:30:00.123456789Z"));

    private Recordings() {}

    /** What a reader told, one text per call, with the chunks that came. */
    static final class Heard implements ChunkSink {
        final List<Chunk> chunks = new ArrayList<>();
        final List<String> story = new ArrayList<>();

        @Override
        public void chunk(Chunk chunk) {
            chunks.add(chunk);
            story.add(text(chunk));
        }

        @Override
        public void damaged(long offset, long bytes, HostNanos lastGood) {
            story.add("damaged " + offset + " " + bytes + " " + lastGood.value());
        }

        List<String> chunkTexts() {
            return chunks.stream().map(Recordings::text).toList();
        }
    }

    /** A chunk as text that two equal chunks share. */
    static String text(Chunk chunk) {
        return chunk.kind()
                + " "
                + chunk.source()
                + " "
                + chunk.at().value()
                + " "
                + Arrays.toString(chunk.bytes());
    }

    static Heard hear(Path path) {
        Heard heard = new Heard();
        RecordingReader.open(path).forEach(heard);
        return heard;
    }

    static Chunk in(int source, long atNs, int... bytes) {
        byte[] payload = new byte[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            payload[i] = (byte) bytes[i];
        }
        return new Chunk(Chunk.Kind.IN, source, new HostNanos(atNs), payload);
    }

    static Chunk json(Chunk.Kind kind, int source, long atNs, String text) {
        return new Chunk(kind, source, new HostNanos(atNs), text.getBytes(StandardCharsets.UTF_8));
    }

    /** One of each kind, an empty payload and every byte value among them. */
    static List<Chunk> oneOfEach() {
        int[] all = new int[256];
        Arrays.setAll(all, i -> i);
        return List.of(
                json(Chunk.Kind.NOTE, 0, -4_999_999_999L, "{\"unit\":\"ML-07\"}"),
                json(Chunk.Kind.SOURCE, 0, -4_999_000_000L, "{\"role\":\"probe\"}"),
                json(Chunk.Kind.SOURCE, 255, -4_998_000_000L, "{\"role\":\"obd\"}"),
                new Chunk(
                        Chunk.Kind.OUT,
                        255,
                        new HostNanos(-4_000_000_000L),
                        new byte[] {'A', 'T', 'Z', '\r'}),
                in(0, -3_999_000_000L, all),
                in(255, -3_900_000_000L),
                json(Chunk.Kind.WALL_TIME, 0, 0, "{\"wall\":\"2026-03-04T09:30:05Z\"}"),
                json(Chunk.Kind.EVENT, 255, 1_000_000_000L, "{\"lost\":true}"));
    }

    static void write(Path path, List<Chunk> chunks) {
        try (RecordingWriter writer = RecordingWriter.create(path, HEADER)) {
            chunks.forEach(writer::append);
        }
    }
}
