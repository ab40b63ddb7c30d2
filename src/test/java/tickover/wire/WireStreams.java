package tickover.wire;

import java.util.SplittableRandom;

/** Byte streams as probes send them. */
final class WireStreams {
    static final Hello HELLO =
            new Hello(
                    1,
                    0,
                    4711,
                    12,
                    SensorKind.DIGITAL_MEMS,
                    3,
                    16,
                    13,
                    156.9064,
                    3200,
                    1,
                    2_000_000,
                    1600,
                    true,
                    true,
                    false,
                    "Library van probe");

    private WireStreams() {}

    /**
     * Sample blocks of three 16-bit axes with the quiet, mid-scale values that make zero bytes
     * common, and now and then edges and a status.
     */
    static byte[] probe(long seed, int blocks) {
        SplittableRandom random = new SplittableRandom(seed);
        FrameWriter writer = new FrameWriter();
        int perBlock = FrameWriter.mostValues(16) / 3;
        int[] values = new int[3 * perBlock];
        long[] edges = new long[8];
        for (int block = 0; block < blocks; block++) {
            long tick = 625L * perBlock * block;
            for (int i = 0; i < values.length; i++) {
                values[i] = (int) Math.round(300 * random.nextGaussian());
            }
            writer.samples((long) perBlock * block, tick, 3, 16, false, values, 0, perBlock);
            if (block % 8 == 7) {
                for (int i = 0; i < edges.length; i++) {
                    edges[i] = tick + 3000L * i;
                }
                writer.tach(block, 0, edges, 0, edges.length);
            }
            if (block % 64 == 63) {
                writer.status(new ProbeStatus(tick, 0, 0, 231, 4987));
            }
        }
        return writer.take();
    }

    /** Every kind of frame once. */
    static byte[] everyKind() {
        int[] values = {0, -1, 32767, -32768, 256, 1};
        int[] wide = {0, -1, 8388607, -8388608, 65536, 256};
        return new FrameWriter()
                .separator()
                .hello(HELLO)
                .samples(0, 0, 3, 16, true, values, 0, 2)
                .samples(0xFFFFFFFFL, 0xFFFFFFFEL, 2, 24, false, wide, 0, 3)
                .samples(1L << 32, 1L << 32, 1, 24, false, wide, 1, 5)
                .tach(65535, 300, new long[] {0, 1, 0xFFFFFFFFL}, 0, 3)
                .button(new ButtonEvent(77, 0, true, 9))
                .status(new ProbeStatus(5, 6, 7, -32768, 65535))
                .pong(new Pong(0xFFFFFFFFL, 2, 3))
                .answer(new CommandAnswer(FrameTypes.START, 0))
                .frame(0x33, new byte[] {0, 1, 0})
                .take();
    }
}
