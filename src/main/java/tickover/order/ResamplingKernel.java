package tickover.order;

import tickover.dsp.Kaiser;

/**
 * The interpolating low-pass of the angular resampler: a sinc under a Kaiser window, tabled.
 *
 * <p>Its corner (-6 dB) lies at half the rate of its unit step; stretched by s it lies at 1/s of
 * that. Values between table entries are interpolated straight. {@link ResamplingDesign} says what
 * all of this does to a tone.
 */
final class ResamplingKernel {
    static final int USUAL_HALF_STEPS = 18;
    static final double USUAL_ATTENUATION_DB = 106;

    private static final int PER_STEP = ResamplingDesign.ENTRIES_PER_STEP;

    /** Read-only, so threads share it. */
    private static final ResamplingKernel USUAL =
            new ResamplingKernel(USUAL_HALF_STEPS, USUAL_ATTENUATION_DB);

    private final int halfSteps;
    private final double attenuationDb;
    private final double[] table;

    /**
     * A kernel of a length and attenuation; the usual one is tabled once, for that takes longer
     * than resampling some seconds.
     *
     * @param halfSteps half length, unit steps
     * @param attenuationDb stop-band attenuation, dB
     */
    static ResamplingKernel of(int halfSteps, double attenuationDb) {
        return halfSteps == USUAL.halfSteps && attenuationDb == USUAL.attenuationDb
                ? USUAL
                : new ResamplingKernel(halfSteps, attenuationDb);
    }

    private ResamplingKernel(int halfSteps, double attenuationDb) {
        this.halfSteps = halfSteps;
        this.attenuationDb = attenuationDb;
        double beta = Kaiser.betaFor(attenuationDb);
        int n = halfSteps * PER_STEP;
        // Value and rise to the next value lie side by side, for they are used together.
        table = new double[2 * (n + 1)];
        for (int i = 0; i <= n; i++) {
            double u = (double) i / PER_STEP;
            table[2 * i] = value(u, halfSteps, beta);
        }
        for (int i = 0; i < n; i++) {
            table[2 * i + 1] = table[2 * i + 2] - table[2 * i];
        }
    }

    /** The kernel at a distance from its middle, unit steps. */
    static double value(double distance, int halfSteps, double beta) {
        double u = Math.abs(distance);
        double sinc = u == 0 ? 1 : Math.sin(Math.PI * u) / (Math.PI * u);
        return sinc * Kaiser.weight(u / halfSteps, beta);
    }

    /** Half length of the stretched kernel, samples. */
    double reach(double stretch) {
        return halfSteps * stretch;
    }

    /**
     * Value of the low-passed samples at a place between them.
     *
     * @param x samples {@code base} to {@code base + count - 1}, zeros are taken beyond
     * @param base number of the first sample in {@code x}
     * @param count how many samples {@code x} holds
     * @param place where, samples
     * @param stretch corner is at 0.5/stretch of the sample rate, &gt;= 1
     */
    double at(double[] x, long base, int count, double place, double stretch) {
        double whole = Math.floor(place);
        int middle = (int) ((long) whole - base);
        double step = PER_STEP / stretch;
        double limit = (double) halfSteps * PER_STEP;
        double sum = 0;
        double a = (place - whole) * step;
        for (int i = middle; a < limit && i >= 0; i--) {
            int q = (int) a;
            sum += x[i] * (table[2 * q] + (a - q) * table[2 * q + 1]);
            a += step;
        }
        a = (1 - (place - whole)) * step;
        for (int i = middle + 1; a < limit && i < count; i++) {
            int q = (int) a;
            sum += x[i] * (table[2 * q] + (a - q) * table[2 * q + 1]);
            a += step;
        }
        return sum / stretch;
    }

    /**
     * The same for three axes at once, to the last bit: the weights, which cost most, are worked
     * out once.
     *
     * @param x samples of each axis, as {@link #at} takes them
     * @param base number of the first sample
     * @param count how many samples each holds
     * @param place where, samples
     * @param stretch as {@link #at} takes it
     * @param values value of each axis, written
     */
    void atThree(
            double[][] x, long base, int count, double place, double stretch, double[] values) {
        double[] x0 = x[0];
        double[] x1 = x[1];
        double[] x2 = x[2];
        double whole = Math.floor(place);
        int middle = (int) ((long) whole - base);
        double step = PER_STEP / stretch;
        double limit = (double) halfSteps * PER_STEP;
        double sum0 = 0;
        double sum1 = 0;
        double sum2 = 0;
        double a = (place - whole) * step;
        for (int i = middle; a < limit && i >= 0; i--) {
            int q = (int) a;
            double weight = table[2 * q] + (a - q) * table[2 * q + 1];
            sum0 += x0[i] * weight;
            sum1 += x1[i] * weight;
            sum2 += x2[i] * weight;
            a += step;
        }
        a = (1 - (place - whole)) * step;
        for (int i = middle + 1; a < limit && i < count; i++) {
            int q = (int) a;
            double weight = table[2 * q] + (a - q) * table[2 * q + 1];
            sum0 += x0[i] * weight;
            sum1 += x1[i] * weight;
            sum2 += x2[i] * weight;
            a += step;
        }
        values[0] = sum0 / stretch;
        values[1] = sum1 / stretch;
        values[2] = sum2 / stretch;
    }
}
