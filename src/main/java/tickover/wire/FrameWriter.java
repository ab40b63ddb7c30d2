package tickover.wire;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Objects;

/**
 * Writes frames of the probe protocol, both directions, one after another into a buffer of its own;
 * {@link #take} or {@link #drain} fetches them. Once the buffer has grown to what is needed, only
 * {@link #take} and {@link #hello} allocate.
 *
 * <p>Fields that are narrower on the wire than in Java are taken modulo their width where the
 * protocol says modulo, and refused otherwise.
 *
 * <p>Thread: one.
 */
public final class FrameWriter {
    private static final int MOST_BODY_BYTES = 250;
    private static final int SAMPLES_HEAD_BYTES = 11;
    private static final int LONGEST_NAME_BYTES = 40;
    private static final double FULL_SCALE_PER_MPS2 = 10_000;
    private static final long MOST_U32 = 0xFFFFFFFFL;

    private final byte[] body = new byte[MOST_BODY_BYTES + Unframer.CHECK_BYTES];
    private int length;
    private byte[] out = new byte[1024];
    private int written;

    /** Creates a writer with nothing in it. */
    public FrameWriter() {}

    /**
     * Returns how many values, that is samples times axes, fit in one block.
     *
     * @param bits 16 or 24
     * @return values
     */
    public static int mostValues(int bits) {
        requireBits(bits);
        return (MOST_BODY_BYTES - SAMPLES_HEAD_BYTES) / (bits / 8);
    }

    /**
     * Writes an empty frame, which ends whatever a disturbed line may have left.
     *
     * @return this
     */
    public FrameWriter separator() {
        makeRoom(1);
        out[written++] = 0;
        return this;
    }

    /**
     * Writes what a probe is.
     *
     * @param h what it is; name at most 40 bytes of UTF-8
     * @return this
     * @throws IllegalArgumentException if a field does not fit
     */
    public FrameWriter hello(Hello h) {
        byte[] name = h.name().getBytes(StandardCharsets.UTF_8);
        within("name bytes", name.length, 0, LONGEST_NAME_BYTES);
        int features =
                (h.hasTach() ? 1 : 0) | (h.hasButton() ? 2 : 0) | (h.samplesFollowTicks() ? 4 : 0);
        begin(FrameTypes.HELLO)
                .u8(within("major", h.major(), 0, 255))
                .u8(within("minor", h.minor(), 0, 255))
                .u32(within("device", h.device(), 0, MOST_U32))
                .u16(within("boot", h.boot(), 0, 0xFFFF))
                .u8(h.sensor().code())
                .u8(h.axes())
                .u8(h.bits())
                .u8(within("resolutionBits", h.resolutionBits(), 1, 24))
                .u32(fullScale(h.fullScaleMps2()))
                .u32(within("rateNum", h.rateNum(), 1, MOST_U32))
                .u32(within("rateDen", h.rateDen(), 1, MOST_U32))
                .u32(within("tickHz", h.tickHz(), 1, MOST_U32))
                .u16(within("bandwidthHz", h.bandwidthHz(), 0, 0xFFFF))
                .u16(features)
                .u8(name.length);
        System.arraycopy(name, 0, body, length, name.length);
        length += name.length;
        return end();
    }

    private static long fullScale(double fullScaleMps2) {
        return within(
                "fullScaleMps2 x 10000",
                Math.round(fullScaleMps2 * FULL_SCALE_PER_MPS2),
                1,
                MOST_U32);
    }

    /**
     * Writes a block of samples.
     *
     * @param number number of the first sample since START, taken modulo 2^32
     * @param tick when it was taken, ticks, taken modulo 2^32
     * @param axes 1 to 3
     * @param bits 16 or 24
     * @param atLimit whether a value is at the end of the range
     * @param values counts, sample by sample, in each x, y, z
     * @param from first value
     * @param samples number of samples, &gt;= 1; times axes at most {@link #mostValues}
     * @return this
     * @throws IllegalArgumentException if a value or a number does not fit
     */
    public FrameWriter samples(
            long number,
            long tick,
            int axes,
            int bits,
            boolean atLimit,
            int[] values,
            int from,
            int samples) {
        within("axes", axes, 1, 3);
        requireBits(bits);
        within("samples x axes", (long) samples * axes, 1, mostValues(bits));
        begin(FrameTypes.SAMPLES)
                .u32(number)
                .u32(tick)
                .u8(axes | (bits == 24 ? 4 : 0) | (atLimit ? 0x80 : 0))
                .u8(samples);
        int top = (1 << (bits - 1)) - 1;
        for (int i = from; i < from + samples * axes; i++) {
            int v = values[i];
            if (!(v >= -top - 1 && v <= top)) {
                throw new IllegalArgumentException(
                        "values[" + i + "]=" + v + ", need " + (-top - 1) + " to " + top);
            }
            u16(v);
            if (bits == 24) {
                u8(v >> 16);
            }
        }
        return end();
    }

    /**
     * Writes tach edges.
     *
     * @param number number of the first edge since START, taken modulo 2^16
     * @param missed edges seen but not timed before these; 255 and more are written as 255
     * @param ticks when they came, ticks, taken modulo 2^32
     * @param from first edge
     * @param edges 1 to 60
     * @return this
     * @throws IllegalArgumentException if a number does not fit
     */
    public FrameWriter tach(int number, int missed, long[] ticks, int from, int edges) {
        within("edges", edges, 1, TachBlock.MOST_EDGES);
        within("missed", missed, 0, Integer.MAX_VALUE);
        begin(FrameTypes.TACH).u16(number).u8(Math.min(missed, 255)).u8(edges);
        for (int i = from; i < from + edges; i++) {
            u32(ticks[i]);
        }
        return end();
    }

    /**
     * Writes that a button moved.
     *
     * @param event what it did
     * @return this
     */
    public FrameWriter button(ButtonEvent event) {
        return begin(FrameTypes.BUTTON)
                .u32(event.tick())
                .u8(within("button", event.button(), 0, 255))
                .u8(event.down() ? 1 : 0)
                .u16(event.presses())
                .end();
    }

    /**
     * Writes how a probe is doing.
     *
     * @param status how
     * @return this
     */
    public FrameWriter status(ProbeStatus status) {
        return begin(FrameTypes.STATUS)
                .u32(status.tick())
                .u32(within("droppedSamples", status.droppedSamples(), 0, MOST_U32))
                .u16(within("badCommands", status.badCommands(), 0, 0xFFFF))
                .u16(within("rawTemperature", status.rawTemperature(), -32768, 32767))
                .u16(within("rawSupply", status.rawSupply(), 0, 0xFFFF))
                .end();
    }

    /**
     * Writes the answer to a ping.
     *
     * @param pong the answer
     * @return this
     */
    public FrameWriter pong(Pong pong) {
        return begin(FrameTypes.PONG)
                .u32(pong.id())
                .u32(pong.receivedTick())
                .u32(pong.sentTick())
                .end();
    }

    /**
     * Writes the answer to a command.
     *
     * @param answer the answer
     * @return this
     */
    public FrameWriter answer(CommandAnswer answer) {
        return begin(FrameTypes.ANSWER)
                .u8(within("command", answer.command(), 0, 255))
                .u8(within("result", answer.result(), 0, 255))
                .end();
    }

    /**
     * Writes the command that asks for {@link Pong}.
     *
     * @param id comes back in the answer, taken modulo 2^32
     * @return this
     */
    public FrameWriter ping(long id) {
        return begin(FrameTypes.PING).u32(id).end();
    }

    /**
     * Writes the command that asks for {@link Hello}.
     *
     * @return this
     */
    public FrameWriter identify() {
        return begin(FrameTypes.IDENTIFY).end();
    }

    /**
     * Writes the command that starts sampling.
     *
     * @return this
     */
    public FrameWriter start() {
        return begin(FrameTypes.START).end();
    }

    /**
     * Writes the command that ends sampling.
     *
     * @return this
     */
    public FrameWriter stop() {
        return begin(FrameTypes.STOP).end();
    }

    /**
     * Writes the command that asks for a sample rate of {@code num / den} Hz.
     *
     * @param num numerator, Hz, 1 to 2^32-1
     * @param den denominator, 1 to 2^32-1
     * @return this
     * @throws IllegalArgumentException if a number does not fit
     */
    public FrameWriter rate(long num, long den) {
        return begin(FrameTypes.RATE)
                .u32(within("num", num, 1, MOST_U32))
                .u32(within("den", den, 1, MOST_U32))
                .end();
    }

    /**
     * Writes a frame of any type.
     *
     * @param type 0 to 255
     * @param payload what follows the type, at most 249 bytes
     * @return this
     * @throws IllegalArgumentException if it does not fit
     */
    public FrameWriter frame(int type, byte[] payload) {
        within("payload bytes", payload.length, 0, MOST_BODY_BYTES - 1);
        begin(within("type", type, 0, 255));
        System.arraycopy(payload, 0, body, length, payload.length);
        length += payload.length;
        return end();
    }

    /**
     * Returns how many bytes wait to be fetched.
     *
     * @return bytes
     */
    public int size() {
        return written;
    }

    /**
     * Returns what was written since the last fetch, and forgets it.
     *
     * @return the bytes, the caller's own
     */
    public byte[] take() {
        byte[] all = Arrays.copyOf(out, written);
        written = 0;
        return all;
    }

    /**
     * Copies what was written since the last fetch, and forgets it.
     *
     * @param into at least {@link #size} bytes after {@code at}
     * @param at where to begin
     * @return how many bytes were copied
     */
    public int drain(byte[] into, int at) {
        Objects.checkFromIndexSize(at, written, into.length);
        System.arraycopy(out, 0, into, at, written);
        int count = written;
        written = 0;
        return count;
    }

    private FrameWriter begin(int type) {
        length = 0;
        return u8(type);
    }

    private FrameWriter u8(long v) {
        body[length++] = (byte) v;
        return this;
    }

    private FrameWriter u16(long v) {
        return u8(v).u8(v >> 8);
    }

    private FrameWriter u32(long v) {
        return u16(v).u16(v >> 16);
    }

    private FrameWriter end() {
        u16(Crc16.of(body, 0, length));
        makeRoom(length + 2);
        int code = written++;
        int distance = 1;
        for (int i = 0; i < length; i++) {
            if (body[i] == 0) {
                out[code] = (byte) distance;
                code = written++;
                distance = 1;
            } else {
                out[written++] = body[i];
                distance++;
            }
        }
        out[code] = (byte) distance;
        out[written++] = 0;
        return this;
    }

    private void makeRoom(int bytes) {
        if (written + bytes > out.length) {
            out = Arrays.copyOf(out, 2 * out.length);
        }
    }

    private static void requireBits(int bits) {
        if (!(bits == 16 || bits == 24)) {
            throw new IllegalArgumentException("bits=" + bits + ", need 16 or 24");
        }
    }

    private static int within(String name, int value, int least, int most) {
        return (int) within(name, (long) value, least, most);
    }

    private static long within(String name, long value, long least, long most) {
        if (!(value >= least && value <= most)) {
            throw new IllegalArgumentException(
                    name + "=" + value + ", need " + least + " to " + most);
        }
        return value;
    }
}
