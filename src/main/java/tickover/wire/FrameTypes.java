package tickover.wire;

/** First byte of a frame's body; see {@code firmware-protocol/protocol.md}. */
public final class FrameTypes {
    /** What a probe is. */
    public static final int HELLO = 0x01;

    /** A block of samples. */
    public static final int SAMPLES = 0x02;

    /** Tach edges. */
    public static final int TACH = 0x03;

    /** A button moved. */
    public static final int BUTTON = 0x04;

    /** How a probe is doing. */
    public static final int STATUS = 0x05;

    /** Answer to {@link #PING}. */
    public static final int PONG = 0x06;

    /** Answer to any other command. */
    public static final int ANSWER = 0x07;

    /** Asks for {@link #PONG}. */
    public static final int PING = 0x41;

    /** Asks for {@link #HELLO}. */
    public static final int IDENTIFY = 0x42;

    /** Starts sampling. */
    public static final int START = 0x43;

    /** Ends sampling. */
    public static final int STOP = 0x44;

    /** Asks for a sample rate. */
    public static final int RATE = 0x45;

    private FrameTypes() {}
}
