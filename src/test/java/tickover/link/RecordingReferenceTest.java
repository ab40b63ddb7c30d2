package tickover.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The format as others see it: a reader in another language, and a file of the first version. */
class RecordingReferenceTest {
    @TempDir Path folder;

    /** Check value of CRC-32C as {@code docs/recording.md} gives it: RFC 3720's polynomial. */
    @Test
    void checksumIsTheOneTheDescriptionNames() {
        CRC32C crc = new CRC32C();
        crc.update("123456789".getBytes(StandardCharsets.US_ASCII), 0, 9);
        assertEquals(0xE3069283L, crc.getValue());
    }

    /** The file was written when format 1 was made, and is never regenerated. */
    @Test
    void recordingOfFormat1OpensForEver() throws URISyntaxException {
        Path path = firstVersion();
        RecordingReader reader = RecordingReader.open(path);
        assertEquals(Recordings.HEADER, reader.header().orElseThrow());
        Recordings.Heard heard = new Recordings.Heard();
        assertEquals(0, reader.forEach(heard));
        List<String> expected =
                new ArrayList<>(Recordings.oneOfEach().stream().map(Recordings::text).toList());
        assertEquals(expected, heard.story.subList(0, expected.size()));
        assertEquals(expected.size() + 1, heard.story.size());
        assertTrue(reader.index().closedProperly());
    }

    private static Path firstVersion() throws URISyntaxException {
        return Path.of(
                Objects.requireNonNull(
                                RecordingReferenceTest.class.getResource(
                                        "recording-of-format-1-never-regenerate.tkr"))
                        .toURI());
    }

    @Test
    void readerInTheDescriptionReadsWhatWeWrite() throws Exception {
        assertEquals(storyOf(firstVersion()), runPython(firstVersion()));
    }

    @Test
    void readerInTheDescriptionFindsTheSameDamage() throws Exception {
        byte[] bytes = Files.readAllBytes(firstVersion());
        bytes[400] ^= 0x10;
        Path damaged = Files.write(folder.resolve("damaged.tkr"), bytes);
        List<String> story = storyOf(damaged);
        assertEquals("damaged 1 torn 0", story.get(story.size() - 1));
        assertEquals(story, runPython(damaged));

        Path cut =
                Files.write(
                        folder.resolve("cut.tkr"),
                        java.util.Arrays.copyOf(bytes, bytes.length - 3));
        assertTrue(storyOf(cut).get(story.size() - 2).startsWith("damaged 1 torn "));
        assertEquals(storyOf(cut), runPython(cut));
    }

    private static List<String> storyOf(Path path) {
        RecordingReader reader = RecordingReader.open(path);
        RecordingHeader header = reader.header().orElseThrow();
        List<String> story = new ArrayList<>();
        story.add(
                "start "
                        + header.id().toString().replace("-", "")
                        + " "
                        + RecordingHeader.epochNanos(header.startedWall()));
        List<Long> damaged = new ArrayList<>();
        int[] next = {0};
        long torn =
                reader.forEach(
                        new ChunkSink() {
                            @Override
                            public void chunk(Chunk chunk) {
                                story.add(
                                        String.format(
                                                Locale.ROOT,
                                                "%d %d %d %.6f %d",
                                                next[0]++,
                                                chunk.kind().code(),
                                                chunk.source(),
                                                chunk.at().secondsAfter(header.startedAt()),
                                                chunk.bytes().length));
                            }

                            @Override
                            public void damaged(
                                    long offset, long bytes, tickover.unit.HostNanos lastGood) {
                                damaged.add(offset);
                                next[0]++;
                            }
                        });
        story.add("damaged " + damaged.size() + " torn " + torn);
        return story;
    }

    private List<String> runPython(Path recording) throws Exception {
        String page = Files.readString(Path.of("docs", "recording.md"));
        Matcher code = Pattern.compile("```python\n(.*?)```", Pattern.DOTALL).matcher(page);
        assertTrue(code.find(), "the description holds a reader");
        Path script = Files.writeString(folder.resolve("reader.py"), code.group(1));
        Path out = folder.resolve("out.txt");
        Process python;
        try {
            python =
                    new ProcessBuilder("python3", script.toString(), recording.toString())
                            .redirectErrorStream(true)
                            .redirectOutput(out.toFile())
                            .start();
        } catch (IOException e) {
            assumeTrue(false, "python3 is not installed: " + e.getMessage());
            throw e;
        }
        assertEquals(0, python.waitFor(), Files.readString(out));
        return Files.readAllLines(out);
    }
}
