package tickover.align;

import java.io.ByteArrayOutputStream;
import java.util.Random;
import tickover.unit.HostNanos;
import tickover.wire.CommandAnswer;
import tickover.wire.FrameDecoder;
import tickover.wire.FrameWriter;
import tickover.wire.Hello;
import tickover.wire.ProbeStatus;
import tickover.wire.SensorKind;

/**
 * A probe whose every value is known from its number, with a tach, behind a line that damages and
 * loses bytes.
 */
final class SimulatedProbe {
    static final double TICK_HZ = 1e6;
    static final int RATE_HZ = 3200;
    static final double TICKS_PER_SAMPLE = TICK_HZ / RATE_HZ;
    static final int SAMPLES = 32;
    static final int EDGE_TICKS = 40_000;
    private static final long ROUND = 1L << 32;

    private final Random random;
    private final FrameWriter writer = new FrameWriter();
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final FrameDecoder decoder = new FrameDecoder();
    private final Aligner aligner;

    /** Chance that a bit is turned over, and that a chunk is lost. */
    double bitErrors;

    double cuts;

    int boot = 77;
    long number;
    long startTick;
    long dropped;
    int frame;
    int edgeNumber;
    long nextEdgeTick;
    double hostS = 100;

    SimulatedProbe(long seed, Aligner aligner) {
        random = new Random(seed);
        this.aligner = aligner;
        startTick = random.nextInt() & 0xFFFFFFFFL;
        nextEdgeTick = startTick + EDGE_TICKS / 2;
    }

    Hello hello() {
        return new Hello(
                1,
                0,
                0xC0FFEE,
                boot,
                SensorKind.DIGITAL_MEMS,
                1,
                16,
                16,
                160,
                RATE_HZ,
                1,
                (long) TICK_HZ,
                1000,
                true,
                true,
                true,
                "wing probe");
    }

    static int count(long number) {
        long mixed = (number + 1) * 0x9E3779B97F4A7C15L;
        return (short) (mixed >>> 40);
    }

    static double accelMps2(long number) {
        return count(number) * 160.0 / 32768;
    }

    long tickOf(long sample) {
        return startTick + Math.round(sample * TICKS_PER_SAMPLE);
    }

    void sendHello() {
        writer.hello(hello());
    }

    void sendStarted() {
        writer.answer(new CommandAnswer(0x43, 0)).hello(hello());
    }

    /** Power goes and comes back: ticks and numbers begin again. */
    void restart(long tick) {
        boot++;
        number = 0;
        dropped = 0;
        startTick = tick;
        edgeNumber = 0;
        nextEdgeTick = tick + EDGE_TICKS / 2;
    }

    void drop(int samples) {
        number += samples;
        dropped += samples;
    }

    /** One block; now and then what else is due. */
    void sendBlock() {
        int[] counts = new int[SAMPLES];
        for (int i = 0; i < SAMPLES; i++) {
            counts[i] = count(number + i);
        }
        writer.samples(number, tickOf(number) % ROUND, 1, 16, false, counts, 0, SAMPLES);
        number += SAMPLES;
        long now = tickOf(number);
        int due = 0;
        long[] edges = new long[60];
        while (nextEdgeTick <= now && due < 60) {
            edges[due++] = nextEdgeTick % ROUND;
            nextEdgeTick += EDGE_TICKS;
        }
        if (due > 0) {
            writer.tach(edgeNumber, 0, edges, 0, due);
            edgeNumber = (edgeNumber + due) & 0xFFFF;
        }
        if (++frame % 100 == 0) {
            writer.status(new ProbeStatus(now % ROUND, dropped, 0, 215, 5000));
        }
        hostS += SAMPLES / (double) RATE_HZ;
    }

    /** Lets what was written arrive, in chunks of some hundred bytes. */
    void deliver() {
        out.writeBytes(writer.take());
        byte[] all = out.toByteArray();
        out.reset();
        int from = 0;
        while (from < all.length) {
            int count = Math.min(all.length - from, 1 + random.nextInt(300));
            byte[] chunk = java.util.Arrays.copyOfRange(all, from, from + count);
            from += count;
            if (random.nextDouble() < cuts) {
                continue;
            }
            damage(chunk);
            aligner.at(new HostNanos(Math.round((hostS + 0.005 * random.nextDouble()) * 1e9)));
            decoder.feed(chunk, 0, chunk.length, aligner);
        }
    }

    private void damage(byte[] chunk) {
        if (bitErrors > 0) {
            double bit = -Math.log(1 - random.nextDouble()) / bitErrors;
            while (bit < 8.0 * chunk.length) {
                chunk[(int) bit / 8] ^= (byte) (1 << ((int) bit % 8));
                bit += 1 - Math.log(1 - random.nextDouble()) / bitErrors;
            }
        }
    }
}
