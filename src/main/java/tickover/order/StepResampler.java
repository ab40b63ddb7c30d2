package tickover.order;

/** One way of resampling a stream to even steps of angle. Thread: one per instance. */
interface StepResampler {
    /** Starts a new stream at time 0. */
    void reset();

    /** Angle of the next output, steps from angle zero. */
    long nextStep();

    /** How many outputs the next {@code count} samples can give at most. */
    int maxOutput(int count);

    /**
     * Takes the next samples.
     *
     * @param in samples, read-only
     * @param inFrom first to read
     * @param count how many to read
     * @param out outputs, room for {@link #maxOutput}
     * @param outFrom where to write the first
     * @return outputs written; they end just before {@link #nextStep}
     */
    int process(double[] in, int inFrom, int count, double[] out, int outFrom);
}
