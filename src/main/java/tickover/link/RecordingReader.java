package tickover.link;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import tickover.unit.HostNanos;

/**
 * Reads a recording, whole or damaged, finished or still being written.
 *
 * <p>Memory does not grow with the file. Nothing is kept open between calls.
 *
 * <p>Thread: any.
 */
public final class RecordingReader {
    /** How far into a file with a damaged head a chunk is looked for before giving it up. */
    private static final long SEARCH_BYTES = 4L << 20;

    private final Path path;

    /** What the head says; null if it is damaged. */
    private final RecordingHeader header;

    private final int tag;
    private final HostNanos start;

    private RecordingReader(Path path, RecordingHeader header, int tag, HostNanos start) {
        this.path = path;
        this.header = header;
        this.tag = tag;
        this.start = start;
    }

    /**
     * Opens a recording. A damaged head does not matter as long as a chunk follows soon.
     *
     * @param path the file
     * @return its reader
     * @throws LinkException if it is missing, may not be read, is no recording, or was made by a
     *     newer version
     */
    public static RecordingReader open(Path path) {
        Objects.requireNonNull(path, "path");
        try (RandomAccessFile file = openFile(path)) {
            byte[] head = new byte[(int) Math.min(file.length(), RecordingFormat.HEADER_BYTES)];
            file.readFully(head);
            if (RecordingFormat.isHeader(head)) {
                requireVersion(path, RecordingFormat.headerVersion(head));
                RecordingHeader header = RecordingFormat.readHeader(head);
                return new RecordingReader(
                        path, header, RecordingFormat.tag(header.id()), header.startedAt());
            }
            if (head.length < RecordingFormat.HEADER_BYTES
                    && RecordingFormat.startsLikeHeader(head)) {
                throw bad(path + " ends before its first chunk; nothing was recorded, delete it.");
            }
            long end = Math.min(file.length(), SEARCH_BYTES);
            ChunkScan scan = new ChunkScan(file, end, RecordingFormat.HEADER_BYTES);
            if (!scan.findAnyChunk()) {
                throw bad(path + " is not a recording; choose a file that record has made.");
            }
            return new RecordingReader(path, null, scan.tag(), scan.time());
        } catch (IOException e) {
            throw unreadable(path, e);
        }
    }

    private static void requireVersion(Path path, long version) {
        if (version != RecordingFormat.VERSION) {
            throw bad(
                    path
                            + " has recording format "
                            + version
                            + " and this Tickover reads format "
                            + RecordingFormat.VERSION
                            + "; use a newer Tickover.");
        }
    }

    private static RandomAccessFile openFile(Path path) throws FileNotFoundException {
        if (Files.isDirectory(path)) {
            throw bad(path + " is a folder; name a recording in it.");
        }
        if (!Files.exists(path)) {
            throw bad("There is no file " + path + "; check its name.");
        }
        return new RandomAccessFile(path.toFile(), "r");
    }

    private static LinkException bad(String sentence) {
        return new LinkException(LinkException.Reason.BAD_RECORDING, sentence, null);
    }

    private static LinkException unreadable(Path path, IOException e) {
        return new LinkException(
                LinkException.Reason.BAD_RECORDING,
                path
                        + " cannot be read ("
                        + e.getMessage()
                        + "); check that it is yours and that its disk is sound.",
                e);
    }

    /**
     * Returns what the head says.
     *
     * @return empty if the head is damaged
     */
    public Optional<RecordingHeader> header() {
        return Optional.ofNullable(header);
    }

    /**
     * Reads everything there is at this moment, from the start.
     *
     * @param sink takes chunks and damage in the order of the file
     * @return how many bytes after the last good chunk belong to none: one that is still being
     *     written, or that was cut off
     * @throws LinkException if the file is gone or the disk fails
     */
    public long forEach(ChunkSink sink) {
        try (RandomAccessFile file = openFile(path)) {
            return scan(file, file.length(), sink);
        } catch (IOException e) {
            throw unreadable(path, e);
        }
    }

    private long scan(RandomAccessFile file, long end, ChunkSink sink) throws IOException {
        ChunkScan scan = new ChunkScan(file, end, RecordingFormat.HEADER_BYTES);
        HostNanos lastGood = start;
        int expected = 0;
        long goodEnd = Math.min(end, RecordingFormat.HEADER_BYTES);
        while (scan.findChunk(tag, expected)) {
            if (scan.at() != goodEnd || scan.number() != expected) {
                sink.damaged(goodEnd, scan.at() - goodEnd, lastGood);
            }
            lastGood = scan.time();
            expected = scan.number() + 1;
            Optional<Chunk> chunk = scan.take();
            goodEnd = scan.at();
            chunk.ifPresent(sink::chunk);
        }
        return end - goodEnd;
    }

    /**
     * Reads everything there is at this moment and says what it is.
     *
     * @return the index
     * @throws LinkException if the file is gone or the disk fails
     */
    public RecordingIndex index() {
        RecordingIndex.Builder builder = new RecordingIndex.Builder(start);
        try (RandomAccessFile file = openFile(path)) {
            long end = file.length();
            long tornBytes = scan(file, end, builder);
            return builder.build(end, tornBytes);
        } catch (IOException e) {
            throw unreadable(path, e);
        }
    }
}
