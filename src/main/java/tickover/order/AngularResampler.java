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
 * Cost: with the usual kernel, and at least one sample per output all the way, a few products per
 * sample and eighty per output in plain loops ({@link GridResampler}); otherwise two kernel halves
 * per sample or output, whichever are fewer ({@link PlaceResampler}). {@link #process} allocates
 * nothing. Thread: one per instance.
 */
public final class AngularResampler {
    /** Samples per output at the highest speed from which the grid serves: 1, and a reserve. */
    private static final double GRID_STRETCH = 1.01;

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

    private final StepResampler way;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param spec how to resample
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param angle angle over the time of the samples
     */
    public AngularResampler(Spec spec, double sampleRateHz, ShaftAngle angle) {
        Objects.requireNonNull(spec, "spec");
        Objects.requireNonNull(angle, "angle");
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        double outputsHz = angle.highestSpeedHz() * spec.samplesPerTurn();
        this.way =
                spec.design().isUsual() && sampleRateHz >= GRID_STRETCH * outputsHz
                        ? new GridResampler(spec.samplesPerTurn(), sampleRateHz, angle)
                        : new PlaceResampler(spec, sampleRateHz, angle);
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
        int count = resampler.process(x, 0, x.length, out, 0);
        return new AngularRecord(
                samplesPerTurn, resampler.nextStep() - count, Arrays.copyOf(out, count));
    }

    /** Starts a new stream at time 0. */
    public void reset() {
        way.reset();
    }

    /**
     * Returns the angle of the next output.
     *
     * @return in steps of 1/samplesPerTurn turns from angle zero
     */
    public long nextStep() {
        return way.nextStep();
    }

    /**
     * Returns how many outputs the next samples can give at most.
     *
     * @param count samples
     * @return outputs
     */
    public int maxOutput(int count) {
        return way.maxOutput(count);
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
        return way.process(in, inFrom, count, out, outFrom);
    }
}
