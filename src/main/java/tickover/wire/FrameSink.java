package tickover.wire;

/** Hears what a decoder finds, in the order of the bytes. */
public interface FrameSink {
    /**
     * A probe said what it is.
     *
     * @param hello what it said
     */
    void hello(Hello hello);

    /**
     * A probe speaks another major version of the protocol: nothing else of it can be trusted.
     *
     * @param major its protocol version, not {@link Hello#MAJOR}
     * @param minor its protocol version
     */
    default void otherVersion(int major, int minor) {}

    /**
     * Samples came.
     *
     * @param block valid until this call returns
     */
    void samples(SampleBlock block);

    /**
     * Tach edges came.
     *
     * @param block valid until this call returns
     */
    void tach(TachBlock block);

    /**
     * A button moved.
     *
     * @param event what it did
     */
    void button(ButtonEvent event);

    /**
     * The probe says how it is doing.
     *
     * @param status how
     */
    void status(ProbeStatus status);

    /**
     * A ping was answered.
     *
     * @param pong the answer
     */
    void pong(Pong pong);

    /**
     * A command was answered.
     *
     * @param answer the answer
     */
    void answer(CommandAnswer answer);

    /**
     * A sound frame of a type that this program does not know.
     *
     * @param type frame type
     * @param payloadBytes length of its payload
     */
    void unknown(int type, int payloadBytes);

    /**
     * A plain-text probe's columns are known now, or have changed.
     *
     * @param layout what they are
     */
    void textLayout(TextLayout layout);

    /**
     * A line of a plain-text probe.
     *
     * @param line valid until this call returns
     */
    void textLine(TextLine line);

    /**
     * Bytes were not taken.
     *
     * @param reason why
     * @param bytes how many, delimiter included
     */
    void rejected(Rejection reason, int bytes);
}
