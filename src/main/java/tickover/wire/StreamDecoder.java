package tickover.wire;

/** Turns one device's bytes into frames or lines. One thread per instance. */
public interface StreamDecoder {
    /**
     * Takes the next bytes. Cutting the same stream elsewhere gives the same calls to the sink.
     *
     * @param bytes read only during the call
     * @param from first byte
     * @param count number of bytes
     * @param sink hears what was found
     */
    void feed(byte[] bytes, int from, int count, FrameSink sink);

    /** Forgets what is pending, as after an unplug; its bytes count as rejected. */
    void reset();

    /**
     * Returns what became of all bytes so far.
     *
     * @return the tally
     */
    ByteTally tally();
}
