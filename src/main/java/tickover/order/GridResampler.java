package tickover.order;

import java.util.Arrays;

/**
 * Resamples where samples lie closer than the steps of angle all the way: spreads the samples over
 * a grid of angle and sums over the grid.
 *
 * <p>Each sample counts with the angle that it stands for, so that the low-pass is the same at any
 * speed, in cycles per turn. {@link ResamplingDesign} says what it does to a tone.
 */
final class GridResampler implements StepResampler {
    /** Samples that are placed and spread together; fixed, so that blocks do not matter. */
    private static final int BLOCK = 2048;

    private static final int PER_STEP = GridKernel.PER_STEP;

    private final double sampleRateHz;
    private final ShaftAngle angle;
    private final GridKernel kernel = GridKernel.usual();
    private final double perTurn;
    private final long firstSample;
    private final long endSample;
    private final long firstStep;
    private final long endStep;
    private final double[] places = new double[BLOCK];
    private final double[] values = new double[BLOCK];
    private final double[] grid;
    private final double[][] even;
    private final double[][] odd;
    private long gridBase;
    private long nextSample;
    private long nextStep;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param samplesPerTurn outputs per crank turn; the shaft never turns faster than one output
     *     per sample
     * @param sampleRateHz samples per second, Hz
     * @param angle angle over the time of the samples
     */
    GridResampler(int samplesPerTurn, double sampleRateHz, ShaftAngle angle) {
        this.sampleRateHz = sampleRateHz;
        this.angle = angle;
        this.perTurn = (double) samplesPerTurn * PER_STEP;
        firstSample = Math.max(0, firstFrom(angle.startS(), sampleRateHz));
        endSample = Math.max(firstSample, firstBeyond(angle.endS(), sampleRateHz));
        double reach = kernel.reachSteps();
        double firstS = firstSample / sampleRateHz;
        if (firstS <= angle.endS()) {
            double start = angle.turnsAt(firstS) * samplesPerTurn;
            firstStep = (long) Math.ceil(start + reach);
            endStep = (long) Math.floor(angle.endTurns() * samplesPerTurn) + 1;
        } else {
            firstStep = 0;
            endStep = 0;
        }
        int steps = 2 * (kernel.halfSteps() + 1) + BLOCK + GridKernel.WIDTH;
        grid = new double[PER_STEP * steps];
        even = new double[2][steps];
        odd = new double[2][steps];
        reset();
    }

    /** The first sample at or after a time. */
    private static long firstFrom(double timeS, double rateHz) {
        long i = (long) Math.floor(timeS * rateHz) - 1;
        while (i / rateHz < timeS) {
            i++;
        }
        return i;
    }

    /** The first sample after a time. */
    private static long firstBeyond(double timeS, double rateHz) {
        long i = (long) Math.floor(timeS * rateHz) - 1;
        while (i / rateHz <= timeS) {
            i++;
        }
        return i;
    }

    @Override
    public void reset() {
        Arrays.fill(grid, 0);
        nextSample = 0;
        nextStep = firstStep;
        gridBase = PER_STEP * (firstStep - kernel.halfSteps() - 1) - GridKernel.WIDTH;
    }

    @Override
    public long nextStep() {
        return nextStep;
    }

    @Override
    public int maxOutput(int count) {
        double lastS = (nextSample + count) / sampleRateHz;
        if (lastS <= angle.startS()) {
            return 0;
        }
        double turns = angle.turnsAt(Math.min(lastS, angle.endS()));
        return (int) Math.max(0, Math.ceil(turns * perTurn / PER_STEP) + 1 - nextStep);
    }

    @Override
    public int process(double[] in, int inFrom, int count, double[] out, int outFrom) {
        int written = 0;
        long end = nextSample + count;
        int at = inFrom;
        while (nextSample < end) {
            // Blocks end at whole multiples of their length, whatever is handed in.
            long blockEnd = Math.min(end, (nextSample / BLOCK + 1) * BLOCK);
            int taken = (int) (blockEnd - nextSample);
            int from = (int) Math.min(taken, Math.max(0, firstSample - nextSample));
            int to = (int) Math.max(from, Math.min(taken, endSample - nextSample));
            if (to > from) {
                take(in, at + from, nextSample + from, to - from);
                written += emit(nextSample + to - 1, out, outFrom + written);
            }
            nextSample = blockEnd;
            at += taken;
        }
        return written;
    }

    private void take(double[] in, int inFrom, long first, int count) {
        angle.turnsAndSpeedsAtSamples(first, sampleRateHz, count, places, values);
        double pointsPerSample = perTurn / sampleRateHz;
        double base = gridBase;
        for (int i = 0; i < count; i++) {
            places[i] = places[i] * perTurn - base;
            values[i] *= pointsPerSample * in[inFrom + i];
        }
        kernel.spread(places, values, count, grid);
    }

    /** Writes the outputs that no later sample reaches. */
    private int emit(long last, double[] out, int outFrom) {
        double place = angle.turnsAt(last / sampleRateHz) * perTurn / PER_STEP;
        long before = Math.min(endStep, (long) Math.floor(place - kernel.reachSteps()) + 1);
        int count = (int) Math.max(0, before - nextStep);
        if (count == 0) {
            return 0;
        }
        int half = kernel.halfSteps();
        int gridFrom = (int) (PER_STEP * (nextStep - half) - gridBase);
        part(gridFrom, count + 2 * half + 1);
        sum(count, out, outFrom);
        nextStep += count;
        int dropped = PER_STEP * count;
        int used = (int) (place * PER_STEP - gridBase) + GridKernel.WIDTH;
        System.arraycopy(grid, dropped, grid, 0, used - dropped);
        Arrays.fill(grid, used - dropped, used, 0);
        gridBase += dropped;
        return count;
    }

    /**
     * Copies the grid's even and odd points, each twice: loops over several arrays at one offset
     * each are done four values at a time, those over one array at several offsets are not.
     */
    private void part(int gridFrom, int count) {
        for (int i = 0; i < count; i++) {
            even[0][i] = grid[gridFrom + 2 * i];
            odd[0][i] = grid[gridFrom + 2 * i + 1];
        }
        System.arraycopy(even[0], 0, even[1], 0, count);
        System.arraycopy(odd[0], 0, odd[1], 0, count);
    }

    private void sum(int count, double[] out, int outFrom) {
        int half = kernel.halfSteps();
        middle(even[0], half, kernel.weight(0), count, out, outFrom);
        for (int k = 1; k <= half; k++) {
            pair(even[0], half - k, even[1], half + k, kernel.weight(2 * k), count, out, outFrom);
        }
        for (int k = 0; k < half; k++) {
            double weight = kernel.weight(2 * k + 1);
            pair(odd[0], half - 1 - k, odd[1], half + k, weight, count, out, outFrom);
        }
    }

    private static void middle(
            double[] a, int aFrom, double weight, int count, double[] out, int outFrom) {
        for (int i = 0; i < count; i++) {
            out[outFrom + i] = weight * a[aFrom + i];
        }
    }

    private static void pair(
            double[] a,
            int aFrom,
            double[] b,
            int bFrom,
            double weight,
            int count,
            double[] out,
            int outFrom) {
        for (int i = 0; i < count; i++) {
            out[outFrom + i] += weight * (a[aFrom + i] + b[bFrom + i]);
        }
    }
}
