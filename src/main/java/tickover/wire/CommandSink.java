package tickover.wire;

/** Hears the commands that a host sends to a probe. */
public interface CommandSink {
    /**
     * Answer with {@link Pong}, at once.
     *
     * @param id goes into the answer, unsigned
     */
    void ping(long id);

    /** Answer with {@link Hello}. */
    void identify();

    /** Start sampling, numbering from 0. */
    void start();

    /** End sampling. */
    void stop();

    /**
     * Change the sample rate to {@code num / den} Hz.
     *
     * @param num numerator, Hz, 0 to 2^32-1
     * @param den denominator, 0 to 2^32-1
     */
    void rate(long num, long den);

    /**
     * A sound frame of a type that is no command.
     *
     * @param type frame type
     */
    void unknown(int type);

    /**
     * Bytes were not taken.
     *
     * @param reason why
     * @param bytes how many, delimiter included
     */
    void rejected(Rejection reason, int bytes);
}
