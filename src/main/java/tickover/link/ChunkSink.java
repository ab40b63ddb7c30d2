package tickover.link;

import tickover.unit.HostNanos;

/** Takes what a recording holds, in the order of the file. */
public interface ChunkSink {
    /**
     * Takes a chunk whose checksum is right.
     *
     * @param chunk the next one
     */
    void chunk(Chunk chunk);

    /**
     * Learns that something is missing between the chunk before and the one that follows. What a
     * device sent across it must not be joined.
     *
     * @param offset where in the file the missing part stands, bytes
     * @param bytes how long what stands there is; 0 if chunks are missing without a trace
     * @param lastGood time of the last good chunk before; of the recording's start if there is none
     */
    void damaged(long offset, long bytes, HostNanos lastGood);
}
