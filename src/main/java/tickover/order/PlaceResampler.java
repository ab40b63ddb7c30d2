package tickover.order;

/**
 * Resamples where the outputs lie closer than the samples, at some speed or all: works out, for
 * each output, the time of its angle, and reads the low-passed samples there.
 */
final class PlaceResampler implements StepResampler {
    /** Outputs whose times are worked out together; fixed, so that blocks do not matter. */
    private static final int BATCH = 256;

    private static final int INPUT_BLOCK = 4096;

    private final AngularResampler.Spec spec;
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

    /** Makes an operator at the start of a stream. */
    PlaceResampler(AngularResampler.Spec spec, double sampleRateHz, ShaftAngle angle) {
        this.spec = spec;
        this.angle = angle;
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

    @Override
    public void reset() {
        bufferBase = 0;
        buffered = 0;
        nextStep = firstStep;
        batchStep = Long.MIN_VALUE;
        started = false;
    }

    @Override
    public long nextStep() {
        return nextStep;
    }

    @Override
    public int maxOutput(int count) {
        double lastS = (bufferBase + buffered + count) / sampleRateHz;
        if (lastS <= angle.startS()) {
            return 0;
        }
        double turns = angle.turnsAt(Math.min(lastS, angle.endS()));
        return (int) Math.max(0, Math.ceil(turns * spec.samplesPerTurn()) + 1 - nextStep);
    }

    @Override
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
