package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tickover.dsp.AllocationMeter;

class FrameDecoderPropertyTest {
    /** Takes some 17 s on two busy cores; {@code -Dtickover.fuzzBytes=...} for another length. */
    private static final long FUZZ_BYTES = Long.getLong("tickover.fuzzBytes", 1_000_000_000);

    @Test
    void cuttingElsewhereChangesNothing() {
        SplittableRandom random = new SplittableRandom(20);
        for (int round = 0; round < 60; round++) {
            byte[] stream = WireStreams.probe(round, 12);
            damage(stream, random, 25);
            HeardFrames whole = new HeardFrames();
            FrameDecoder once = new FrameDecoder();
            once.feed(stream, 0, stream.length, whole);
            for (int most : new int[] {1, 2, 7, 64, 300, 4096}) {
                HeardFrames cut = new HeardFrames();
                FrameDecoder decoder = new FrameDecoder();
                int at = 0;
                while (at < stream.length) {
                    int n = Math.min(stream.length - at, random.nextInt(most + 1));
                    decoder.feed(stream, at, n, cut);
                    at += n;
                    assertEquals(at, decoder.tally().in());
                }
                assertEquals(whole.lines, cut.lines, "round " + round + ", cut at most " + most);
                assertEquals(once.tally(), decoder.tally());
            }
        }
    }

    /** Every frame is short enough that a flipped bit costs at most two of them. */
    @Test
    void oneDamagedByteCostsAtMostTwoFrames() {
        SplittableRandom random = new SplittableRandom(21);
        byte[] stream = WireStreams.probe(3, 40);
        HeardFrames whole = new HeardFrames();
        new FrameDecoder().feed(stream, 0, stream.length, whole);
        for (int round = 0; round < 1000; round++) {
            byte[] damaged = stream.clone();
            int at = random.nextInt(stream.length);
            damaged[at] ^= (byte) (1 + random.nextInt(255));
            HeardFrames heard = new HeardFrames();
            new FrameDecoder().feed(damaged, 0, damaged.length, heard);
            heard.lines.removeIf(l -> l.startsWith("rejected"));
            assertTrue(
                    heard.lines.size() >= whole.lines.size() - 2,
                    () -> "at " + at + " only " + heard.lines.size());
            assertTrue(whole.lines.containsAll(heard.lines), () -> "at " + at + " a false frame");
        }
    }

    /**
     * Random bytes, damaged streams and truncated streams, in chunks of any size, the tally checked
     * after each.
     */
    @Test
    void everyByteIsAccountedForWhateverComes() {
        long seed = 22;
        SplittableRandom random = new SplittableRandom(seed);
        FrameDecoder decoder = new FrameDecoder();
        SummingSink sink = new SummingSink();
        byte[] chunk = new byte[1 << 16];
        byte[] sound = WireStreams.probe(4, 700);
        byte[] every = WireStreams.everyKind();
        long fed = 0;
        while (fed < FUZZ_BYTES) {
            int n = 1 + random.nextInt(chunk.length);
            switch (random.nextInt(4)) {
                case 0 -> random.nextBytes(chunk);
                case 1 -> {
                    System.arraycopy(sound, random.nextInt(sound.length - n), chunk, 0, n);
                    damage(chunk, random, 1 + n / 100);
                }
                case 2 -> few(chunk, n, random);
                default -> {
                    for (int at = 0; at < n; at += every.length) {
                        System.arraycopy(every, 0, chunk, at, Math.min(every.length, n - at));
                    }
                    damage(chunk, random, 1 + n / 200);
                }
            }
            int at = 0;
            while (at < n) {
                int part = Math.min(n - at, 1 + random.nextInt(2000));
                decoder.feed(chunk, at, part, sink);
                at += part;
                fed += part;
                ByteTally tally = decoder.tally(); // its constructor checks the sum
                if (tally.in() != fed
                        || tally.rejected() != sink.rejectedBytes
                        || tally.pending() > 253) {
                    assertEquals(fed, tally.in());
                    assertEquals(sink.rejectedBytes, tally.rejected());
                    assertTrue(tally.pending() <= 253);
                }
            }
        }
        System.out.println(
                "seed " + seed + ": " + decoder.tally() + ", sound frames " + sink.frames);
        assertTrue(sink.frames > fed / 10_000 && sink.rejections > fed / 10_000);
    }

    /**
     * Frames of random content, sound but for their checksum, are taken with probability 2^-16: the
     * residue of random data is uniform. With N of them the count is binomial, so 5 standard
     * deviations hold it save for once in a million seeds.
     */
    @Test
    void falseFramesAreAsRareAsA16BitCheckMakesThem() {
        long seed = 23;
        SplittableRandom random = new SplittableRandom(seed);
        long trials = 4_000_000;
        byte[] frame = new byte[24];
        frame[0] = 23; // one chain over 22 bytes without a zero: always valid stuffing
        FrameDecoder decoder = new FrameDecoder();
        SummingSink sink = new SummingSink();
        for (long i = 0; i < trials; i++) {
            long a = random.nextLong();
            for (int k = 1; k < 23; k++) {
                if (k % 8 == 0) {
                    a = random.nextLong();
                }
                frame[k] = (byte) Math.max(1, (a >>> (8 * (k % 8))) & 0xFF);
            }
            decoder.feed(frame, 0, frame.length, sink);
        }
        double expected = trials / 65536.0;
        // What was rejected for its fields has passed the check as well.
        long taken = trials - sink.badChecksums;
        assertEquals(sink.frames + sink.badFields, taken);
        assertEquals(
                expected, (double) taken, 5 * Math.sqrt(expected), "false frames of " + trials);
    }

    /**
     * Noise, every byte uniform: n bytes without a zero and then one come with probability
     * (255/256)^n / 256. Jumps of 1 to 255, uniform, hit distance n with probability (1/255)
     * (256/255)^(n-1). So 1/65536 of all delimiters end valid stuffing of each length n, and 4 to
     * 253 are long enough to carry a body: 250/65536 of the delimiters, and of these the check lets
     * through 1/65536: one false frame in some 4.4e9 bytes of noise.
     */
    @Test
    void noisePassesTheStuffingAsOftenAsItMustAndTheCheckNever() {
        long seed = 24;
        SplittableRandom random = new SplittableRandom(seed);
        FrameDecoder decoder = new FrameDecoder();
        SummingSink sink = new SummingSink();
        byte[] noise = new byte[1 << 16];
        long delimiters = 0;
        for (int round = 0; round < 800; round++) {
            random.nextBytes(noise);
            for (byte b : noise) {
                delimiters += b == 0 ? 1 : 0;
            }
            decoder.feed(noise, 0, noise.length, sink);
        }
        double expected = delimiters * 250 / 65536.0;
        long stuffed = sink.badChecksums + sink.badFields + sink.frames;
        assertEquals(expected, (double) stuffed, 5 * Math.sqrt(expected), "of " + delimiters);
        assertEquals(0, sink.frames + sink.badFields, "expected 0.012");
    }

    @Test
    void decodingAllocatesNothing() {
        byte[] samplesAndEdges = WireStreams.probe(5, 60); // ends before the first status
        FrameDecoder decoder = new FrameDecoder();
        SummingSink sink = new SummingSink();
        long bytes =
                AllocationMeter.bytesOf(
                        () -> {
                            for (int at = 0; at < samplesAndEdges.length; at += 100) {
                                int n = Math.min(100, samplesAndEdges.length - at);
                                decoder.feed(samplesAndEdges, at, n, sink);
                            }
                        });
        assertEquals(0, bytes);
        assertTrue(sink.blocks > 0 && sink.rejections == 0);
    }

    private static void damage(byte[] bytes, SplittableRandom random, int times) {
        for (int i = 0; i < times; i++) {
            int at = random.nextInt(bytes.length);
            switch (random.nextInt(3)) {
                case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
                case 1 -> bytes[at] = 0;
                default -> bytes[at] = (byte) random.nextInt(256);
            }
        }
    }

    /** Bytes of which most are 0, 1, 2 or 0xFF, the ones that matter to the stuffing. */
    private static void few(byte[] bytes, int count, SplittableRandom random) {
        byte[] choice = {0, 0, 1, 2, 3, -1, 4, 5};
        for (int i = 0; i < count; i++) {
            bytes[i] = choice[random.nextInt(choice.length)];
        }
    }
}
