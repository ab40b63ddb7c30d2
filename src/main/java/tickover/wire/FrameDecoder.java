package tickover.wire;

import static tickover.wire.LittleEndian.i16;
import static tickover.wire.LittleEndian.i24;
import static tickover.wire.LittleEndian.u16;
import static tickover.wire.LittleEndian.u32;
import static tickover.wire.LittleEndian.u8;

import java.nio.charset.StandardCharsets;
import java.util.Objects;

/**
 * Turns a probe's bytes into frames, by {@code firmware-protocol/protocol.md}.
 *
 * <p>After anything wrong it goes on at the next zero byte. Without a delimiter, bytes are given up
 * in pieces of one longest frame (254 bytes), so that at most 253 bytes are ever pending. Sample
 * and tach blocks are reused: neither they nor anything else on their way is allocated. A tally
 * asked for by the sink counts the frame that is being handed over.
 *
 * <p>Thread: one.
 */
public final class FrameDecoder implements StreamDecoder {
    private static final int HELLO_BYTES = 33;
    private static final int LONGEST_NAME_BYTES = 40;
    private static final int SAMPLES_HEAD_BYTES = 10;
    private static final int TACH_HEAD_BYTES = 4;
    private static final int TICK_BYTES = 4;
    private static final int HAS_TACH = 1;
    private static final int HAS_BUTTON = 2;
    private static final int FOLLOWS_TICKS = 4;
    private static final int FULL_SCALE_PER_MPS2 = 10_000;

    private final SampleBlock samples = new SampleBlock();
    private final TachBlock tach = new TachBlock();
    private final Unframer unframer = new Unframer(new Fields());
    private FrameSink sink;

    /** Creates a decoder that has seen nothing yet. */
    public FrameDecoder() {}

    @Override
    public void feed(byte[] bytes, int from, int count, FrameSink sink) {
        this.sink = Objects.requireNonNull(sink, "sink");
        unframer.feed(bytes, from, count);
    }

    @Override
    public void reset() {
        unframer.reset();
    }

    @Override
    public ByteTally tally() {
        return unframer.tally();
    }

    /** Reads what stands in a body. */
    private final class Fields implements Unframer.Bodies {
        @Override
        public boolean body(byte[] b, int count) {
            return switch (b[0]) {
                case FrameTypes.SAMPLES -> samples(b, count);
                case FrameTypes.TACH -> tach(b, count);
                case FrameTypes.HELLO -> hello(b, count);
                case FrameTypes.BUTTON -> button(b, count);
                case FrameTypes.STATUS -> status(b, count);
                case FrameTypes.PONG -> pong(b, count);
                case FrameTypes.ANSWER -> answer(b, count);
                default -> {
                    sink.unknown(u8(b, 0), count - 1);
                    yield true;
                }
            };
        }

        @Override
        public void rejected(Rejection reason, int bytes) {
            sink.rejected(reason, bytes);
        }
    }

    private boolean samples(byte[] b, int count) {
        if (count < 1 + SAMPLES_HEAD_BYTES) {
            return false;
        }
        int format = b[9];
        int axes = format & 3;
        boolean wide = (format & 4) != 0;
        int values = u8(b, 10) * axes;
        int bytes = values * (wide ? 3 : 2);
        if (!(values > 0 && 1 + SAMPLES_HEAD_BYTES + bytes <= count)) {
            return false;
        }
        SampleBlock block = samples;
        block.number = u32(b, 1);
        block.tick = u32(b, 5);
        block.axes = axes;
        block.bits = wide ? 24 : 16;
        block.count = u8(b, 10);
        block.atLimit = format < 0;
        int at = 1 + SAMPLES_HEAD_BYTES;
        int[] to = block.values;
        if (wide) {
            for (int i = 0; i < values; i++) {
                to[i] = i24(b, at + 3 * i);
            }
        } else {
            for (int i = 0; i < values; i++) {
                to[i] = i16(b, at + 2 * i);
            }
        }
        sink.samples(block);
        return true;
    }

    private boolean tach(byte[] b, int count) {
        if (count < 1 + TACH_HEAD_BYTES) {
            return false;
        }
        int edges = u8(b, 4);
        if (!(edges >= 1
                && edges <= TachBlock.MOST_EDGES
                && 1 + TACH_HEAD_BYTES + edges * TICK_BYTES <= count)) {
            return false;
        }
        TachBlock block = tach;
        block.number = u16(b, 1);
        block.missed = u8(b, 3);
        block.count = edges;
        for (int i = 0; i < edges; i++) {
            block.ticks[i] = u32(b, 1 + TACH_HEAD_BYTES + TICK_BYTES * i);
        }
        sink.tach(block);
        return true;
    }

    private boolean hello(byte[] b, int count) {
        if (count < 3) {
            return false;
        }
        int major = u8(b, 1);
        int minor = u8(b, 2);
        if (major != Hello.MAJOR) {
            // Only the two version bytes keep their place in another language.
            sink.otherVersion(major, minor);
            return true;
        }
        if (count < 1 + HELLO_BYTES) {
            return false;
        }
        int axes = u8(b, 10);
        int bits = u8(b, 11);
        int resolution = u8(b, 12);
        long fullScale = u32(b, 13);
        long rateNum = u32(b, 17);
        long rateDen = u32(b, 21);
        long tickHz = u32(b, 25);
        int features = u16(b, 31);
        int nameBytes = u8(b, 33);
        boolean fits =
                axes >= 1
                        && axes <= 3
                        && (bits == 16 || bits == 24)
                        && resolution >= 1
                        && resolution <= 24
                        && fullScale > 0
                        && rateNum > 0
                        && rateDen > 0
                        && tickHz > 0
                        && nameBytes <= LONGEST_NAME_BYTES
                        && 1 + HELLO_BYTES + nameBytes <= count;
        if (!fits) {
            return false;
        }
        sink.hello(
                new Hello(
                        major,
                        minor,
                        u32(b, 3),
                        u16(b, 7),
                        SensorKind.of(u8(b, 9)),
                        axes,
                        bits,
                        resolution,
                        (double) fullScale / FULL_SCALE_PER_MPS2,
                        rateNum,
                        rateDen,
                        tickHz,
                        u16(b, 29),
                        (features & HAS_TACH) != 0,
                        (features & HAS_BUTTON) != 0,
                        (features & FOLLOWS_TICKS) != 0,
                        name(b, 1 + HELLO_BYTES, nameBytes)));
        return true;
    }

    /** A name goes to terminals and pages: what would steer them becomes a blank. */
    private static String name(byte[] b, int at, int count) {
        String raw = new String(b, at, count, StandardCharsets.UTF_8);
        return raw.replaceAll("\\p{Cntrl}", " ").strip();
    }

    private boolean button(byte[] b, int count) {
        if (count < 9) {
            return false;
        }
        sink.button(new ButtonEvent(u32(b, 1), u8(b, 5), (b[6] & 1) != 0, u16(b, 7)));
        return true;
    }

    private boolean status(byte[] b, int count) {
        if (count < 15) {
            return false;
        }
        sink.status(new ProbeStatus(u32(b, 1), u32(b, 5), u16(b, 9), i16(b, 11), u16(b, 13)));
        return true;
    }

    private boolean pong(byte[] b, int count) {
        if (count < 13) {
            return false;
        }
        sink.pong(new Pong(u32(b, 1), u32(b, 5), u32(b, 9)));
        return true;
    }

    private boolean answer(byte[] b, int count) {
        if (count < 3) {
            return false;
        }
        sink.answer(new CommandAnswer(u8(b, 1), u8(b, 2)));
        return true;
    }
}
