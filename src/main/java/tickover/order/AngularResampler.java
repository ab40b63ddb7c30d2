package tickover.order;

import java.util.Arrays;
import java.util.Objects;

/**
 * Resamples acceleration from even time steps to even steps of crank angle.
 *
 * <p>In: samples, m/s², steps of 1/{@code sampleRateHz} s from time 0. <br>
 * Out: one value per 1/{@code samplesPerTurn} turn, for every angle whose kernel lies inside the
 * samples; the angles are whole multiples of that step from angle zero. <br>
 * The interpolating low-pass has its corner at the lower of half the sample rate and half the
 * angular rate at the local speed, so that nothing folds into orders below 0.8 of the angular
 * Nyquist order. Pass band: up to 0.8 of the lower of the two. <br>
 * Accuracy there, with an exact angle: the bounds of {@link ResamplingDesign}; for the usual kernel
 * the amplitude to 0.001 % and spurious components below -100 dB re a tone. <br>
 * Cost: two kernel halves per sample or output, whichever are fewer; {@link #process} allocates
 * nothing. Thread: one per instance.
 */
public final class AngularResampler {
    /** Outputs whose times are worked out together; fixed, so that blocks do not matter. */
    private static final int BATCH = 256;

    private static final int INPUT_BLOCK = 4096;

    /**
     * How to resample.
     *
     * @param samplesPerTurn outputs per crank turn, 4 to 65536
     * @param halfSteps half length of the kernel in steps of the slower rate, 4 to 64
     * @param attenuationDb stop-band attenuation, dB, 40 to 140
     * @param lowestSpeedHz speed below which the corner no longer follows, Hz, &gt; 0
     */
    public record Spec(
            int samplesPerTurn, int halfSteps, double attenuationDb, double lowestSpeedHz) {
        public Spec {
            if (!(samplesPerTurn >= 4 && samplesPerTurn <= 65536)) {
                throw new IllegalArgumentException(
                        "samplesPerTurn=" + samplesPerTurn + ", need 4 to 65536");
            }
            if (!(halfSteps >= 4 && halfSteps <= 64)) {
                throw new IllegalArgumentException("halfSteps=" + halfSteps + ", need 4 to 64");
            }
            if (!(attenuationDb >= 40 && attenuationDb <= 140)) {
                throw new IllegalArgumentException(
                        "attenuationDb=" + attenuationDb + ", need 40 to 140 dB");
            }
            if (!(lowestSpeedHz > 0)) {
                throw new IllegalArgumentException(
                        "lowestSpeedHz=" + lowestSpeedHz + ", need > 0 Hz");
            }
            if (!(new ResamplingDesign(halfSteps, attenuationDb).passRatio() > 0)) {
                throw new IllegalArgumentException(
                        "halfSteps="
                                + halfSteps
                                + ", attenuationDb="
                                + attenuationDb
                                + ": the transition takes up the whole pass band, need a longer"
                                + " kernel or less attenuation");
            }
        }

        /**
         * What the kernel does to tones.
         *
         * @return the design
         */
        public ResamplingDesign design() {
            return new ResamplingDesign(halfSteps, attenuationDb);
        }

        /**
         * The usual kernel: 106 dB, transition from 0.81 to 1.19 of the corner.
         *
         * @param samplesPerTurn outputs per crank turn
         * @return the spec
         */
        public static Spec of(int samplesPerTurn) {
            return new Spec(
                    samplesPerTurn,
                    ResamplingKernel.USUAL_HALF_STEPS,
                    ResamplingKernel.USUAL_ATTENUATION_DB,
                    2);
        }
    }

    private final Spec spec;
    private final double sampleRateHz;
    private final ShaftAngle angle;
    private final ResamplingKernel kernel;
    private final double[] timesS = new double[BATCH];
    private final double[] speedsHz = new double[BATCH];
    private final long firstStep;
    private final long endStep;
    private final double highestStretch;
    private final double[] buffer;
    private long bufferBase;
    private int buffered;
    private long nextStep;
    private long batchStep;
    private boolean started;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param spec how to resample
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param angle angle over the time of the samples
     */
    public AngularResampler(Spec spec, double sampleRateHz, ShaftAngle angle) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.angle = Objects.requireNonNull(angle, "angle");
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        this.sampleRateHz = sampleRateHz;
        this.kernel = ResamplingKernel.of(spec.halfSteps(), spec.attenuationDb());
        int per = spec.samplesPerTurn();
        long first = (long) Math.ceil(angle.startTurns() * per);
        long end = (long) Math.floor(angle.endTurns() * per) + 1;
        this.firstStep = (double) first / per < angle.startTurns() ? first + 1 : first;
        this.endStep = (double) (end - 1) / per > angle.endTurns() ? end - 1 : end;
        this.highestStretch = stretch(spec.lowestSpeedHz());
        int span = 2 * (int) Math.ceil(kernel.reach(highestStretch)) + 4;
        this.buffer = new double[span + INPUT_BLOCK];
        reset();
    }

    /**
     * Resamples a whole record with the usual kernel.
     *
     * @param x samples, m/s², from time 0
     * @param sampleRateHz samples per second, Hz
     * @param angle angle over the time of the samples
     * @param samplesPerTurn outputs per crank turn
     * @return the record over angle; empty if it is shorter than the kernel
     */
    public static AngularRecord resample(
            double[] x, double sampleRateHz, ShaftAngle angle, int samplesPerTurn) {
        AngularResampler resampler =
                new AngularResampler(Spec.of(samplesPerTurn), sampleRateHz, angle);
        double[] out = new double[resampler.maxOutput(x.length)];
        int count = resampler.emit(x, 0, x.length, out, 0);
        return new AngularRecord(
                samplesPerTurn, resampler.nextStep - count, Arrays.copyOf(out, count));
    }

    /** Starts a new stream at time 0. */
    public void reset() {
        bufferBase = 0;
        buffered = 0;
        nextStep = firstStep;
        batchStep = Long.MIN_VALUE;
        started = false;
    }

    /**
     * Returns the angle of the next output.
     *
     * @return in steps of 1/samplesPerTurn turns from angle zero
     */
    public long nextStep() {
        return nextStep;
    }

    /**
     * Returns how many outputs the next samples can give at most.
     *
     * @param count samples
     * @return outputs
     */
    public int maxOutput(int count) {
        double lastS = (bufferBase + buffered + count) / sampleRateHz;
        if (lastS <= angle.startS()) {
            return 0;
        }
        double turns = angle.turnsAt(Math.min(lastS, angle.endS()));
        return (int) Math.max(0, Math.ceil(turns * spec.samplesPerTurn()) + 1 - nextStep);
    }

    /**
     * Takes the next samples of the stream.
     *
     * @param in samples, read-only
     * @param inFrom first to read
     * @param count how many to read
     * @param out outputs, room for {@link #maxOutput}
     * @param outFrom where to write the first
     * @return outputs written; they end just before {@link #nextStep}
     */
    public int process(double[] in, int inFrom, int count, double[] out, int outFrom) {
        int written = 0;
        int taken = 0;
        while (taken < count) {
            int block = Math.min(INPUT_BLOCK, count - taken);
            makeRoom(block);
            System.arraycopy(in, inFrom + taken, buffer, buffered, block);
            buffered += block;
            taken += block;
            written += emit(buffer, bufferBase, buffered, out, outFrom + written);
        }
        return written;
    }

    private void makeRoom(int block) {
        int surplus = buffered + block - buffer.length;
        if (surplus > 0) {
            // What is dropped lies further back than the longest kernel reaches.
            System.arraycopy(buffer, surplus, buffer, 0, buffered - surplus);
            buffered -= surplus;
            bufferBase += surplus;
        }
    }

    /** Writes all outputs whose kernels the samples cover, in order. */
    private int emit(double[] x, long base, int count, double[] out, int outFrom) {
        int written = 0;
        long last = base + count - 1;
        while (nextStep < endStep) {
            loadBatch();
            int i = (int) (nextStep - batchStep);
            double place = timesS[i] * sampleRateHz;
            double stretch = Math.min(highestStretch, stretch(speedsHz[i]));
            double reach = kernel.reach(stretch);
            if (!(place + reach <= last)) {
                break;
            }
            nextStep++;
            if (started || place - reach >= 0) {
                started = true;
                out[outFrom + written++] = kernel.at(x, base, count, place, stretch);
            }
        }
        return written;
    }

    private void loadBatch() {
        long wanted = firstStep + (nextStep - firstStep) / BATCH * BATCH;
        if (wanted != batchStep) {
            batchStep = wanted;
            int size = (int) Math.min(BATCH, endStep - wanted);
            double per = spec.samplesPerTurn();
            angle.timesAt(wanted / per, 1 / per, size, timesS, speedsHz);
        }
    }

    /** Sample rate over the angular rate, at least 1. */
    private double stretch(double speedHz) {
        return Math.max(1, sampleRateHz / (spec.samplesPerTurn() * speedHz));
    }
}
