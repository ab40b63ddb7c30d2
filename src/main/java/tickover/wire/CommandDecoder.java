package tickover.wire;

import static tickover.wire.LittleEndian.u32;
import static tickover.wire.LittleEndian.u8;

import java.util.Objects;

/** Turns a host's bytes into commands: the probe's side of the protocol. Thread: one. */
public final class CommandDecoder {
    private static final int PING_BYTES = 5;
    private static final int RATE_BYTES = 9;

    private final Unframer unframer = new Unframer(new Fields());
    private CommandSink sink;

    /** Creates a decoder that has seen nothing yet. */
    public CommandDecoder() {}

    /**
     * Takes the next bytes.
     *
     * @param bytes read only during the call
     * @param from first byte
     * @param count number of bytes
     * @param sink hears what was found
     */
    public void feed(byte[] bytes, int from, int count, CommandSink sink) {
        this.sink = Objects.requireNonNull(sink, "sink");
        unframer.feed(bytes, from, count);
    }

    /** Forgets what is pending; its bytes count as rejected. */
    public void reset() {
        unframer.reset();
    }

    /**
     * Returns what became of all bytes so far.
     *
     * @return the tally
     */
    public ByteTally tally() {
        return unframer.tally();
    }

    private final class Fields implements Unframer.Bodies {
        @Override
        public boolean body(byte[] b, int count) {
            switch (b[0]) {
                case FrameTypes.PING -> {
                    if (count < PING_BYTES) {
                        return false;
                    }
                    sink.ping(u32(b, 1));
                }
                case FrameTypes.RATE -> {
                    if (count < RATE_BYTES) {
                        return false;
                    }
                    sink.rate(u32(b, 1), u32(b, 5));
                }
                case FrameTypes.IDENTIFY -> sink.identify();
                case FrameTypes.START -> sink.start();
                case FrameTypes.STOP -> sink.stop();
                default -> sink.unknown(u8(b, 0));
            }
            return true;
        }

        @Override
        public void rejected(Rejection reason, int bytes) {
            sink.rejected(reason, bytes);
        }
    }
}
