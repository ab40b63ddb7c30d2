package tickover.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.unit.HostNanos;

/** What a reader makes of recordings that were cut, changed or put together wrongly. */
class RecordingDamageTest {
    private static final int HEADER_BYTES = 48;

    @TempDir Path folder;
    private byte[] whole;
    private List<Chunk> chunks;

    /** Where each chunk begins, and at last where the file ends. */
    private List<Integer> starts;

    @BeforeEach
    void writeOne() throws IOException {
        Path path = folder.resolve("whole.tkr");
        Recordings.write(path, Recordings.oneOfEach());
        whole = Files.readAllBytes(path);
        chunks = Recordings.hear(path).chunks;
        starts = new ArrayList<>(List.of(HEADER_BYTES));
        for (Chunk chunk : chunks) {
            starts.add(starts.get(starts.size() - 1) + 32 + chunk.bytes().length);
        }
        assertEquals(whole.length, starts.get(starts.size() - 1));
    }

    private Path file(byte[] bytes) throws IOException {
        return Files.write(folder.resolve("damaged.tkr"), bytes);
    }

    private static byte[] joined(byte[]... parts) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            all.writeBytes(part);
        }
        return all.toByteArray();
    }

    private byte[] part(int from, int to) {
        return Arrays.copyOfRange(whole, from, to);
    }

    private List<String> texts(int from, int to) {
        return chunks.subList(from, to).stream().map(Recordings::text).toList();
    }

    /** The chunk that a byte of the file belongs to; -1 in the header. */
    private int chunkOf(int offset) {
        int chunk = -1;
        while (offset >= starts.get(chunk + 1)) {
            chunk++;
        }
        return chunk;
    }

    @Test
    void cutAnywhereLosesOnlyTheTornTail() throws IOException {
        for (int length = HEADER_BYTES; length < whole.length; length++) {
            Path path = file(part(0, length));
            int kept = chunkOf(length);
            Recordings.Heard heard = new Recordings.Heard();
            RecordingReader reader = RecordingReader.open(path);
            long torn = reader.forEach(heard);
            assertEquals(texts(0, kept), heard.story, "cut at " + length);
            assertEquals(length - starts.get(kept), torn);
            assertFalse(reader.index().closedProperly());
            assertEquals(torn, reader.index().tornBytes());
        }
    }

    @Test
    void cutWithinTheHeaderSaysThatNothingWasRecorded() throws IOException {
        for (int length = 0; length < HEADER_BYTES; length++) {
            Path path = file(part(0, length));
            LinkException e = assertThrows(LinkException.class, () -> RecordingReader.open(path));
            assertEquals(
                    path + " ends before its first chunk; nothing was recorded, delete it.",
                    e.getMessage());
        }
    }

    @Test
    void changedByteCostsAtMostTheChunkItIsIn() throws IOException {
        int[] masks = {0x01, 0x80, 0xFF};
        for (int offset = 0; offset < whole.length; offset++) {
            for (int mask : masks) {
                byte[] bytes = whole.clone();
                bytes[offset] ^= (byte) mask;
                Path path = file(bytes);
                Recordings.Heard heard = Recordings.hear(path);
                assertEquals(expectedWithout(chunkOf(offset)), heard.story, "changed " + offset);
                assertEquals(chunkOf(offset) >= 0, RecordingReader.open(path).header().isPresent());
            }
        }
    }

    private List<String> expectedWithout(int hit) {
        List<String> story = new ArrayList<>();
        for (int c = 0; c < chunks.size(); c++) {
            if (c != hit) {
                story.add(Recordings.text(chunks.get(c)));
            } else if (c < chunks.size() - 1) {
                HostNanos before = c == 0 ? Recordings.HEADER.startedAt() : chunks.get(c - 1).at();
                int bytes = starts.get(c + 1) - starts.get(c);
                story.add("damaged " + starts.get(c) + " " + bytes + " " + before.value());
            }
        }
        return story;
    }

    @Test
    void missingStretchIsToldWhereverItsEndsLie() throws IOException {
        for (int first = HEADER_BYTES; first < starts.get(chunks.size() - 1); first += 7) {
            for (int length : new int[] {1, 32, 200}) {
                int from = first;
                int to = Math.min(from + length, starts.get(chunks.size() - 1));
                // Without bytes 3 to 34 of ABCxABCy the same is left as without 0 to 31.
                while (!starts.contains(from) && whole[from - 1] == whole[to - 1]) {
                    from--;
                    to--;
                }
                int firstHit = chunkOf(from);
                int firstGood = chunkOf(to - 1) + 1;
                Recordings.Heard heard =
                        Recordings.hear(file(joined(part(0, from), part(to, whole.length))));
                List<String> expected = new ArrayList<>(texts(0, firstHit));
                HostNanos before =
                        firstHit == 0
                                ? Recordings.HEADER.startedAt()
                                : chunks.get(firstHit - 1).at();
                int left = starts.get(firstGood) - starts.get(firstHit) - (to - from);
                expected.add("damaged " + starts.get(firstHit) + " " + left + " " + before.value());
                expected.addAll(texts(firstGood, chunks.size()));
                assertEquals(expected, heard.story, from + " to " + to);
            }
        }
    }

    @Test
    void blockThatCameTwiceIsNotReadTwice() throws IOException {
        byte[] twice = joined(part(0, starts.get(5)), part(starts.get(2), whole.length));
        Recordings.Heard heard = Recordings.hear(file(twice));
        assertEquals(texts(0, chunks.size()), heard.chunkTexts());
        assertEquals(chunks.size() + 1, heard.story.size());
        int again = starts.get(5) - starts.get(2);
        assertEquals(
                "damaged " + starts.get(5) + " " + again + " " + chunks.get(4).at().value(),
                heard.story.get(5));
    }

    @Test
    void recordingWithinTheRecordedBytesIsNotTakenForTheRecording() throws IOException {
        Path inner = folder.resolve("inner.tkr");
        RecordingHeader other =
                new RecordingHeader(
                        UUID.fromString("00000000-0000-4000-8000-000000000001"),
                        Recordings.HEADER.startedAt(),
                        Recordings.HEADER.startedWall());
        try (RecordingWriter writer = RecordingWriter.create(inner, other)) {
            Recordings.oneOfEach().forEach(writer::append);
        }
        for (byte[] payload : List.of(Files.readAllBytes(inner), whole)) {
            Path path = folder.resolve("outer" + payload[20] + ".tkr");
            List<Chunk> outer = new ArrayList<>();
            for (int i = 0; i < 20; i++) {
                outer.add(Recordings.in(0, i, i));
            }
            outer.add(new Chunk(Chunk.Kind.IN, 0, new HostNanos(99), payload));
            outer.add(Recordings.in(0, 100, 1, 2, 3));
            Recordings.write(path, outer);
            byte[] bytes = Files.readAllBytes(path);
            bytes[HEADER_BYTES + 20 * 33 + 24] ^= 1;
            List<String> story = Recordings.hear(Files.write(path, bytes)).story;
            assertEquals(23, story.size());
            assertTrue(story.get(20).startsWith("damaged "));
            assertEquals("IN 0 100 [1, 2, 3]", story.get(21));
        }
    }

    /** Kinds may be added later: 200 is none today. */
    @Test
    void kindThatIsNotKnownIsSteppedOver() throws IOException {
        byte[] bytes = whole.clone();
        int at = starts.get(3);
        bytes[at + 12] = (byte) 200;
        ByteBuffer b = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        CRC32C crc = new CRC32C();
        crc.update(bytes, at, 28);
        crc.update(bytes, at + 32, chunks.get(3).bytes().length);
        b.putInt(at + 28, (int) crc.getValue());
        List<String> expected = new ArrayList<>(texts(0, 3));
        expected.addAll(texts(4, chunks.size()));
        assertEquals(expected, Recordings.hear(file(bytes)).story);
    }

    @Test
    void newerFormatIsRefusedByNumber() throws IOException {
        byte[] bytes = whole.clone();
        ByteBuffer b = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        b.putInt(8, 2);
        CRC32C crc = new CRC32C();
        crc.update(bytes, 0, 44);
        b.putInt(44, (int) crc.getValue());
        Path path = file(bytes);
        LinkException e = assertThrows(LinkException.class, () -> RecordingReader.open(path));
        assertEquals(LinkException.Reason.BAD_RECORDING, e.reason());
        assertEquals(
                path
                        + " has recording format 2 and this Tickover reads format 1; use a newer"
                        + " Tickover.",
                e.getMessage());
    }

    @Test
    void otherFilesAreRefusedInOneSentence() throws IOException {
        Path text = Files.writeString(folder.resolve("speed.csv"), "t_s,rpm\n0.0,800\n".repeat(99));
        Path missing = folder.resolve("missing.tkr");
        assertEquals(
                text + " is not a recording; choose a file that record has made.",
                assertThrows(LinkException.class, () -> RecordingReader.open(text)).getMessage());
        assertEquals(
                "There is no file " + missing + "; check its name.",
                assertThrows(LinkException.class, () -> RecordingReader.open(missing))
                        .getMessage());
        assertEquals(
                folder + " is a folder; name a recording in it.",
                assertThrows(LinkException.class, () -> RecordingReader.open(folder)).getMessage());
    }

    @Test
    void indexListsWhatIsDamaged() throws IOException {
        byte[] bytes = whole.clone();
        bytes[starts.get(4) + 40] ^= 1;
        RecordingIndex index = RecordingReader.open(file(bytes)).index();
        assertEquals(
                List.of(
                        new RecordingIndex.Damage(
                                starts.get(4), 32 + 256, new HostNanos(-4_000_000_000L))),
                index.damaged());
        assertEquals(chunks.size() - 1, index.chunks());
        assertTrue(index.closedProperly());
    }
}
