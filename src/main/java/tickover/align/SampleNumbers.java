package tickover.align;

import tickover.wire.Hello;

/**
 * Whether a block's number and tick belong together with those of another: the samples between two
 * numbers take a time that is known.
 */
final class SampleNumbers {
    private static final long ROUND = 1L << 32;

    /** A sensor's own clock may be off by 5 % and more; a few blocks tell by how much. */
    private static final double OWN_CLOCK_RATIO = 0.06;

    private static final double LEARNED_RATIO = 0.01;
    private static final long LEARNED_SAMPLES = 2000;

    /** Blocks of a sensor with a clock of its own are stamped when they are fetched. */
    private static final double FETCH_SAMPLES = 24;

    private final Hello hello;
    private long firstNumber;
    private long firstTick;
    private long lastNumber;
    private long lastTick;

    SampleNumbers(Hello hello, long number, long tick) {
        this.hello = hello;
        firstNumber = number;
        firstTick = tick;
        lastNumber = number;
        lastTick = tick;
    }

    /** The full number of a raw one: the one nearest to the last. */
    long full(long raw) {
        return lastNumber + (int) (raw - lastNumber);
    }

    static long rawDifference(long from, long to) {
        return (int) (to - from);
    }

    boolean fits(long number, long tick) {
        return together(number - lastNumber, tick - lastTick);
    }

    private boolean learned() {
        return lastNumber - firstNumber >= LEARNED_SAMPLES;
    }

    private boolean together(long samples, long ticks) {
        double each = hello.ticksPerSample();
        if (hello.samplesFollowTicks()) {
            // Half a sample: less than that cannot hide a wrong number.
            return Math.abs(ticks - samples * each) <= 0.5 * each + 2;
        }
        double ratio = OWN_CLOCK_RATIO;
        if (learned()) {
            each = (double) (lastTick - firstTick) / (lastNumber - firstNumber);
            ratio = LEARNED_RATIO;
        }
        return Math.abs(ticks - samples * each) <= each * (FETCH_SAMPLES + ratio * samples);
    }

    /** Whether one block follows another, on their own evidence. */
    static boolean consecutive(Hello hello, SampleFrame a, SampleFrame b) {
        long samples = rawDifference(a.number(), b.number());
        long ticks = Math.floorMod(b.tick() - a.tick(), ROUND);
        return samples >= a.count() && new SampleNumbers(hello, 0, 0).together(samples, ticks);
    }

    void moveTo(long number, long tick) {
        lastNumber = number;
        lastTick = tick;
    }
}
