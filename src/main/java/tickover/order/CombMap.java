package tickover.order;

import java.util.Arrays;
import tickover.align.CaptureSignal;
import tickover.dsp.FirDecimator;
import tickover.dsp.FirDesign;
import tickover.dsp.RealFft;
import tickover.dsp.RecordSpectrum;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/**
 * How well each crank speed explains each short frame of vibration: whether lines stand at the
 * engine's own orders and not between them.
 *
 * <p>Looked at are the vibration itself, below some multiples of the firing frequency, and the
 * envelope of what lies far above, for valves and injectors knock in time too. Levels are
 * logarithms over their own surroundings, so that no single line, however strong, decides.
 */
final class CombMap {
    /**
     * How a record is cut.
     *
     * @param hopS distance of frames, s, or turns where the record runs over turns
     * @param frameS length of a frame, the same
     * @param stepRatio distance of neighbouring speeds
     * @param surroundingsHz how far the surroundings of a line reach, Hz or orders
     */
    record Frames(double hopS, double frameS, double stepRatio, double surroundingsHz) {}

    /** Frames over time: short, for the speed within one smears its lines. */
    static final Frames OVER_TIME = new Frames(0.1, 0.6, 0.003, 30);

    /** Frames over turns of an angle that is about right, in which a sweep smears nothing. */
    static final Frames OVER_TURNS = new Frames(2, 16, 0.0015, 1.5);

    private static final int FIRING_LINES = 4;
    private static final double CYCLE_LINES_TO_ORDER = 6;

    /** Logarithms of power over the surroundings are held within these. */
    private static final double LEAST_LOG = -2;

    private static final double MOST_LOG = 4;
    private static final double KNOCKS_FROM_HZ = 900;

    private final Frames cut;
    private final double cycleOrder;
    private final double firingOrder;
    private final boolean[] firingOn;
    private final boolean[] firingOff;
    private final boolean[] cycleOn;
    private final boolean[] cycleOff;
    private final double lowestHz;
    private final int speeds;
    private final double topHz;
    private final int frames;
    private final double[][] scores;
    private int sources;

    CombMap(CaptureSignal capture, AnglePrior prior, double lowestHz, double highestHz) {
        this(capture, prior, lowestHz, highestHz, OVER_TIME);
    }

    /** The same with frames of another kind. */
    CombMap(
            CaptureSignal capture,
            AnglePrior prior,
            double lowestHz,
            double highestHz,
            Frames cut) {
        this.cut = cut;
        this.cycleOrder = prior.cycleOrder();
        this.firingOrder = prior.firingOrder();
        int lines = (int) Math.round(CYCLE_LINES_TO_ORDER / cycleOrder);
        this.firingOn = clear(prior, firingOrder, FIRING_LINES, 0);
        this.firingOff = clear(prior, firingOrder, FIRING_LINES, 0.5);
        this.cycleOn = clear(prior, cycleOrder, lines, 0);
        this.cycleOff = clear(prior, cycleOrder, lines, 0.5);
        this.lowestHz = lowestHz;
        this.speeds = 1 + (int) Math.ceil(Math.log(highestHz / lowestHz) / cut.stepRatio());
        double topOrder = Math.max(CYCLE_LINES_TO_ORDER + 1, firingOrder * (FIRING_LINES + 0.5));
        this.topHz = Math.min(capture.sampleRateHz() / 2.6, topOrder * highestHz * 1.02);
        this.frames =
                Math.max(
                        0,
                        1
                                + (int)
                                        Math.floor(
                                                (capture.durationS() - cut.frameS()) / cut.hopS()
                                                        + 1e-9));
        this.scores = new double[frames][speeds];
        for (int c = 0; c < capture.channels() && frames > 0; c++) {
            double[] x = capture.accelMps2(c);
            addSource(x, capture.sampleRateHz());
            double hiHz = 0.45 * capture.sampleRateHz();
            if (hiHz > 2 * Math.max(KNOCKS_FROM_HZ, topHz)) {
                addKnocks(x, capture.sampleRateHz(), hiHz);
            }
        }
        for (double[] row : scores) {
            for (int s = 0; s < speeds; s++) {
                row[s] /= Math.max(1, sources);
            }
        }
    }

    private void addKnocks(double[] x, double rateHz, double hiHz) {
        var envelope = RecordSpectrum.of(x, rateHz).squaredEnvelope(KNOCKS_FROM_HZ, hiHz);
        double[] size = Arrays.stream(envelope.valuesSquared()).map(Math::sqrt).toArray();
        addSource(size, envelope.rateHz());
    }

    private void addSource(double[] x, double rateHz) {
        int factor = Math.max(1, (int) (rateHz / (2.6 * topHz)));
        double[] low = x;
        double latencyS = 0;
        if (factor > 1) {
            double corner = 0.45 / factor;
            FirDecimator decimator =
                    new FirDecimator(
                            FirDesign.design(FirDesign.Spec.lowPass(corner, 0.1 / factor, 60)),
                            factor);
            double[] out = new double[decimator.maxOutput(x.length)];
            low = Arrays.copyOf(out, decimator.process(x, 0, x.length, out, 0));
            latencyS = decimator.latencySamples() / rateHz;
        }
        addFrames(low, rateHz / factor, latencyS);
        sources++;
    }

    private void addFrames(double[] x, double rateHz, double latencyS) {
        int length = Math.max(8, (int) Math.round(cut.frameS() * rateHz));
        double[] w = Window.HANN.periodic(length);
        RealFft fft = new RealFft(RealFft.goodSize(3 * length));
        double[] frame = new double[fft.n()];
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        double[] logs = new double[fft.bins()];
        double binHz = rateHz / fft.n();
        for (int f = 0; f < frames; f++) {
            int from = (int) Math.round((f * cut.hopS() + latencyS) * rateHz);
            double mean = 0;
            for (int i = 0; i < length; i++) {
                mean += at(x, from + i) / length;
            }
            for (int i = 0; i < length; i++) {
                frame[i] = w[i] * (at(x, from + i) - mean);
            }
            fft.forward(frame, re, im);
            for (int k = 0; k < logs.length; k++) {
                logs[k] = Math.log(re[k] * re[k] + im[k] * im[k] + 1e-30);
            }
            double[] above = aboveSurroundings(logs, binHz);
            for (int s = 0; s < speeds; s++) {
                scores[f][s] += score(above, binHz, speedHz(s));
            }
        }
    }

    private static double at(double[] x, int i) {
        return i >= 0 && i < x.length ? x[i] : 0;
    }

    /** Logarithms less the median of what lies around them. */
    private double[] aboveSurroundings(double[] logs, double binHz) {
        int reach = Math.max(4, (int) (cut.surroundingsHz() / binHz));
        int stride = Math.max(1, reach / 4);
        int points = (logs.length - 1) / stride + 2;
        double[] median = new double[points];
        for (int p = 0; p < points; p++) {
            int from = Math.max(0, p * stride - reach);
            int to = Math.min(logs.length, p * stride + reach + 1);
            median[p] =
                    from < to
                            ? Statistics.median(Arrays.copyOfRange(logs, from, to))
                            : median[p - 1];
        }
        double[] above = new double[logs.length];
        for (int k = 0; k < logs.length; k++) {
            int p = k / stride;
            double share = (double) (k % stride) / stride;
            double around = median[p] + share * (median[p + 1] - median[p]);
            above[k] = Math.max(LEAST_LOG, Math.min(MOST_LOG, logs[k] - around));
        }
        return above;
    }

    private double score(double[] above, double binHz, double speedHz) {
        return contrast(above, firingOrder * speedHz / binHz, firingOn, firingOff)
                + contrast(above, cycleOrder * speedHz / binHz, cycleOn, cycleOff);
    }

    /** Mean level at multiples of a frequency less the mean level half-way between them. */
    private static double contrast(
            double[] above, double spacingBins, boolean[] on, boolean[] off) {
        double sumOn = 0;
        double sumOff = 0;
        int usedOn = 0;
        int usedOff = 0;
        for (int k = 1; k <= on.length; k++) {
            double place = k * spacingBins;
            if (place + 1 < above.length) {
                if (on[k - 1]) {
                    sumOn += between(above, place);
                    usedOn++;
                }
                if (off[k - 1]) {
                    sumOff += between(above, place - spacingBins / 2);
                    usedOff++;
                }
            }
        }
        return sumOn / Math.max(1, usedOn) - sumOff / Math.max(1, usedOff);
    }

    /**
     * Which multiples of an order, each less a part of it, no belt-driven line can stand at. All,
     * if these are fewer than half: too few lines would tell any speed.
     */
    private static boolean[] clear(AnglePrior prior, double order, int lines, double less) {
        boolean[] clear = new boolean[lines];
        int left = 0;
        for (int k = 1; k <= lines; k++) {
            clear[k - 1] = !prior.nearDrive((k - less) * order);
            left += clear[k - 1] ? 1 : 0;
        }
        if (2 * left < lines) {
            Arrays.fill(clear, true);
        }
        return clear;
    }

    private static double between(double[] values, double place) {
        int k = (int) place;
        return values[k] + (place - k) * (values[k + 1] - values[k]);
    }

    int frames() {
        return frames;
    }

    int speeds() {
        return speeds;
    }

    /** Middle of a frame, s. */
    double timeS(int frame) {
        return frame * cut.hopS() + cut.frameS() / 2;
    }

    double speedHz(int speed) {
        return lowestHz * Math.exp(speed * cut.stepRatio());
    }

    /** Place of a speed on the grid; may lie off it. */
    double placeOf(double speedHz) {
        return Math.log(speedHz / lowestHz) / cut.stepRatio();
    }

    double score(int frame, int speed) {
        return scores[frame][speed];
    }

    /** Score of any speed; that of nothing off the grid. */
    double scoreAt(int frame, double speedHz) {
        double place = placeOf(speedHz);
        return place >= 0 && place + 1 < speeds ? between(scores[frame], place) : 0;
    }
}
