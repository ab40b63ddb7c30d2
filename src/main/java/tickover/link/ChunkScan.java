package tickover.link;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.Optional;
import tickover.unit.HostNanos;

/** Walks over a recording from sound chunk to sound chunk, through a window of fixed size. */
final class ChunkScan {
    /** The largest chunk, and room to find several small ones without reading again. */
    private static final int WINDOW_BYTES =
            RecordingFormat.CHUNK_HEAD_BYTES + RecordingFormat.LONGEST_PAYLOAD_BYTES + (1 << 16);

    private static final Chunk.Kind[] KINDS = kindsByCode();

    private final RandomAccessFile file;
    private final long end;
    private final byte[] window;
    private final ByteBuffer view;
    private long windowAt;
    private int windowBytes;
    private long at;

    ChunkScan(RandomAccessFile file, long end, long from) {
        this.file = file;
        this.end = end;
        this.at = from;
        this.window = new byte[(int) Math.max(0, Math.min(WINDOW_BYTES, end - from))];
        this.view = ByteBuffer.wrap(window).order(ByteOrder.LITTLE_ENDIAN);
    }

    /** Where in the file the walk stands. */
    long at() {
        return at;
    }

    int tag() {
        return RecordingFormat.chunkTag(view, inWindow());
    }

    int number() {
        return RecordingFormat.chunkNumber(view, inWindow());
    }

    HostNanos time() {
        return RecordingFormat.chunkTime(view, inWindow());
    }

    /** Moves on to the next sound chunk, of whatever recording. */
    boolean findAnyChunk() throws IOException {
        while (has(RecordingFormat.CHUNK_HEAD_BYTES)) {
            if (isChunk()) {
                return true;
            }
            at++;
        }
        return false;
    }

    /**
     * Moves on to the next sound chunk of this recording. An earlier number, or another tag, is a
     * recording within the recorded bytes, or an old block of the disk. Numbers wrap at 32 bits.
     */
    boolean findChunk(int tag, int fromNumber) throws IOException {
        while (findAnyChunk()) {
            if (tag() == tag && number() - fromNumber >= 0) {
                return true;
            }
            at++;
        }
        return false;
    }

    /**
     * Takes the chunk on which the walk stands, and steps over it; empty if its kind is unknown.
     */
    Optional<Chunk> take() {
        int from = inWindow();
        int payloadAt = from + RecordingFormat.CHUNK_HEAD_BYTES;
        int payloadBytes = (int) RecordingFormat.payloadBytes(view, from);
        at += RecordingFormat.CHUNK_HEAD_BYTES + payloadBytes;
        Chunk.Kind kind = KINDS[RecordingFormat.chunkKind(view, from)];
        if (kind == null) {
            return Optional.empty();
        }
        return Optional.of(
                new Chunk(
                        kind,
                        RecordingFormat.chunkSource(view, from),
                        RecordingFormat.chunkTime(view, from),
                        Arrays.copyOfRange(window, payloadAt, payloadAt + payloadBytes)));
    }

    private boolean isChunk() throws IOException {
        if (!RecordingFormat.isMarker(view, inWindow())) {
            return false;
        }
        long payloadBytes = RecordingFormat.payloadBytes(view, inWindow());
        return payloadBytes <= RecordingFormat.LONGEST_PAYLOAD_BYTES
                && has(RecordingFormat.CHUNK_HEAD_BYTES + (int) payloadBytes)
                && RecordingFormat.isSound(window, view, inWindow());
    }

    private int inWindow() {
        return (int) (at - windowAt);
    }

    /** Sees to it that so many bytes from here on are in the window, if the file has them. */
    private boolean has(int count) throws IOException {
        if (at + count > end) {
            return false;
        }
        if (at + count > windowAt + windowBytes) {
            fill();
        }
        return at + count <= windowAt + windowBytes;
    }

    private void fill() throws IOException {
        windowAt = at;
        windowBytes = 0;
        int wanted = (int) Math.min(window.length, end - at);
        file.seek(at);
        while (windowBytes < wanted) {
            int got = file.read(window, windowBytes, wanted - windowBytes);
            if (got < 0) {
                // The writer has cut off a torn chunk meanwhile.
                return;
            }
            windowBytes += got;
        }
    }

    private static Chunk.Kind[] kindsByCode() {
        Chunk.Kind[] kinds = new Chunk.Kind[256];
        for (Chunk.Kind kind : Chunk.Kind.values()) {
            kinds[kind.code()] = kind;
        }
        return kinds;
    }
}
