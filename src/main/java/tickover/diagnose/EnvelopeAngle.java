package tickover.diagnose;

import java.util.function.DoubleUnaryOperator;
import tickover.dsp.RealFft;

/** Brings envelopes from even time to even angle and averages their spectra over segments. */
final class EnvelopeAngle {
    /**
     * Longest segment. A bearing's balls slip at random, so its lines are not sharper than about
     * one in five hundred turns and longer segments gain nothing.
     */
    private static final int LONGEST_SEGMENT_TURNS = 512;

    /** Fewer turns do not tell a bearing's orders from the shaft's. */
    private static final int FEWEST_TURNS = 16;

    /** Samples per cycle of the highest order, for the anti-alias filter to fall off. */
    private static final double SAMPLES_PER_CYCLE = 2.56;

    /**
     * How much faster than the highest frequency the envelope is sampled before it is interpolated
     * by straight lines: the loss is then sinc²(1/8), under half a decibel at the very top.
     */
    private static final double OVERSAMPLING_RATIO = 8;

    private static final int SPEED_STEPS = 256;

    private final DoubleUnaryOperator turnsAtS;
    private final double startTurns;
    private final int samplesPerTurn;
    private final int segmentTurns;
    private final int segments;
    private final int segmentSamples;
    private final double topHz;
    private final double maxOrder;
    private final int turns;

    private EnvelopeAngle(
            DoubleUnaryOperator turnsAtS,
            double startTurns,
            int turns,
            double maxOrder,
            double topHz) {
        this.turnsAtS = turnsAtS;
        this.startTurns = startTurns;
        this.turns = turns;
        this.maxOrder = maxOrder;
        this.topHz = topHz;
        this.samplesPerTurn = RealFft.goodSize((int) Math.ceil(SAMPLES_PER_CYCLE * maxOrder));
        this.segments = (turns + LONGEST_SEGMENT_TURNS - 1) / LONGEST_SEGMENT_TURNS;
        this.segmentTurns = EnvelopeOrders.smoothSizeAtMost(turns / segments);
        this.segmentSamples = segmentTurns * samplesPerTurn;
    }

    static EnvelopeAngle of(DoubleUnaryOperator turnsAtS, double durationS, double maxOrder) {
        double start = turnsAtS.applyAsDouble(0);
        double before = start;
        double fastestHz = 0;
        for (int i = 1; i <= SPEED_STEPS; i++) {
            double now = turnsAtS.applyAsDouble(durationS * i / SPEED_STEPS);
            if (!(now > before)) {
                throw new IllegalArgumentException(
                        "turns at " + durationS * i / SPEED_STEPS + " s do not rise, need a rise");
            }
            fastestHz = Math.max(fastestHz, (now - before) * SPEED_STEPS / durationS);
            before = now;
        }
        double turns = Math.floor(before - start);
        if (!(turns >= FEWEST_TURNS)) {
            throw new IllegalArgumentException(
                    "turns=" + turns + ", need >= " + FEWEST_TURNS + " turns in the record");
        }
        return new EnvelopeAngle(turnsAtS, start, (int) turns, maxOrder, maxOrder * fastestHz);
    }

    double resolutionOrders() {
        return 1.0 / segmentTurns;
    }

    int turns() {
        return segments * segmentTurns;
    }

    int segments() {
        return segments;
    }

    /**
     * Squared amplitude per order bin, averaged over segments, from 0 to the highest order.
     *
     * <p>Segments are whole turns and are not weighted: the reference's own lines then fall on
     * single bins and stay there, and neighbouring cages, whose orders differ by a few per cent of
     * a small number, stay apart better than under any window.
     */
    double[] averagedPower(double[] envelope, double durationS) {
        double[] even = toEvenAngle(envelope, durationS);
        int size = segmentTurns * samplesPerTurn;
        RealFft fft = new RealFft(size);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        double[] frame = new double[size];
        int bins = Math.min(fft.bins(), (int) Math.ceil(maxOrder * segmentTurns) + 1);
        double[] power = new double[bins];
        for (int s = 0; s < segments; s++) {
            for (int i = 0; i < size; i++) {
                frame[i] = even[s * segmentSamples + i];
            }
            fft.forward(frame, re, im);
            double scale = 2.0 / size;
            for (int k = 0; k < bins; k++) {
                power[k] += scale * scale * (re[k] * re[k] + im[k] * im[k]) / segments;
            }
        }
        return power;
    }

    private double[] toEvenAngle(double[] envelope, double durationS) {
        double[] smooth = lowPassed(envelope, durationS);
        double stepS = durationS / smooth.length;
        double[] even = new double[turns * samplesPerTurn];
        int i = 0;
        double left = startTurns;
        double right = turnsAtS.applyAsDouble(stepS);
        for (int j = 0; j < even.length; j++) {
            double wanted = startTurns + (double) j / samplesPerTurn;
            while (right < wanted && i + 2 < smooth.length) {
                i++;
                left = right;
                right = turnsAtS.applyAsDouble((i + 1) * stepS);
            }
            double part = Math.min(1, Math.max(0, (wanted - left) / (right - left)));
            even[j] = smooth[i] + part * (smooth[i + 1] - smooth[i]);
        }
        return even;
    }

    /** Only what lies below the highest wanted frequency, at a rate well above it. */
    private double[] lowPassed(double[] envelope, double durationS) {
        int n = envelope.length;
        RealFft forward = new RealFft(n);
        double[] re = new double[forward.bins()];
        double[] im = new double[forward.bins()];
        forward.forward(envelope, re, im);
        int kept = (int) Math.min(n / 2.0 - 1, Math.ceil(topHz * durationS));
        int size = RealFft.goodSize((int) Math.ceil(OVERSAMPLING_RATIO * kept) + 2);
        double[] wideRe = new double[size / 2 + 1];
        double[] wideIm = new double[size / 2 + 1];
        double scale = (double) size / n;
        for (int k = 1; k <= kept; k++) {
            wideRe[k] = scale * re[k];
            wideIm[k] = scale * im[k];
        }
        double[] smooth = new double[size];
        new RealFft(size).inverse(wideRe, wideIm, smooth);
        return smooth;
    }
}
