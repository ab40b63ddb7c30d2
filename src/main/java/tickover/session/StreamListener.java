package tickover.session;

import tickover.align.AlignedBlock;
import tickover.link.Chunk;

/** Hears a stream as it is recorded or replayed. Must be quick; one thread. */
@FunctionalInterface
public interface StreamListener {
    /**
     * Hears the next aligned block.
     *
     * @param block samples, edges, a reading, or what happened to them
     */
    void block(AlignedBlock block);

    /**
     * Hears a chunk, before what is derived from it.
     *
     * @param chunk bytes, a device's description or a note
     */
    default void told(Chunk chunk) {}
}
