package tickover.link;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.TreeMap;
import tickover.unit.HostNanos;

/**
 * What a recording holds, found by reading it through.
 *
 * @param first time of its first chunk; of its start if it has none
 * @param last the latest time in it
 * @param chunks good chunks
 * @param fileBytes length of the file when it was read
 * @param sources what each device sent and was sent, by its number
 * @param damaged stretches where something is missing, in order
 * @param tornBytes bytes after the last good chunk: a chunk still being written, or cut off
 * @param closedProperly whether it ends as a recording that was closed
 */
public record RecordingIndex(
        HostNanos first,
        HostNanos last,
        long chunks,
        long fileBytes,
        List<Source> sources,
        List<Damage> damaged,
        long tornBytes,
        boolean closedProperly) {
    public RecordingIndex {
        Objects.requireNonNull(first, "first");
        Objects.requireNonNull(last, "last");
        sources = List.copyOf(sources);
        damaged = List.copyOf(damaged);
    }

    /**
     * What one device sent and was sent.
     *
     * @param source its number
     * @param inBytes bytes from it
     * @param outBytes bytes to it
     * @param first time of its first chunk, the one that says what it is included
     * @param last the latest time of its chunks
     */
    public record Source(
            int source, long inBytes, long outBytes, HostNanos first, HostNanos last) {}

    /**
     * A stretch where something is missing.
     *
     * @param offset where in the file it stands, bytes
     * @param bytes its length; 0 if chunks are missing without a trace
     * @param lastGood time of the last good chunk before
     */
    public record Damage(long offset, long bytes, HostNanos lastGood) {}

    /** Gathers the index while chunks go by. */
    static final class Builder implements ChunkSink {
        private final TreeMap<Integer, Source> sources = new TreeMap<>();
        private final List<Damage> damaged = new ArrayList<>();
        private HostNanos first;
        private HostNanos last;
        private long chunks;
        private boolean ended;

        Builder(HostNanos start) {
            first = start;
            last = start;
        }

        @Override
        public void chunk(Chunk chunk) {
            HostNanos at = chunk.at();
            if (chunks == 0) {
                first = at;
                last = at;
            }
            chunks++;
            last = later(last, at);
            ended = chunk.kind() == Chunk.Kind.END;
            if (chunk.kind() == Chunk.Kind.IN
                    || chunk.kind() == Chunk.Kind.OUT
                    || chunk.kind() == Chunk.Kind.SOURCE) {
                Source before =
                        sources.getOrDefault(
                                chunk.source(), new Source(chunk.source(), 0, 0, at, at));
                sources.put(chunk.source(), plus(before, chunk));
            }
        }

        private static Source plus(Source before, Chunk chunk) {
            long count = chunk.bytes().length;
            return new Source(
                    before.source(),
                    before.inBytes() + (chunk.kind() == Chunk.Kind.IN ? count : 0),
                    before.outBytes() + (chunk.kind() == Chunk.Kind.OUT ? count : 0),
                    before.first(),
                    later(before.last(), chunk.at()));
        }

        private static HostNanos later(HostNanos a, HostNanos b) {
            return a.compareTo(b) >= 0 ? a : b;
        }

        @Override
        public void damaged(long offset, long bytes, HostNanos lastGood) {
            damaged.add(new Damage(offset, bytes, lastGood));
        }

        RecordingIndex build(long fileBytes, long tornBytes) {
            return new RecordingIndex(
                    first,
                    last,
                    chunks,
                    fileBytes,
                    List.copyOf(sources.values()),
                    damaged,
                    tornBytes,
                    ended && tornBytes == 0);
        }
    }
}
