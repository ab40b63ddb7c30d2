package tickover.diagnose;

import java.util.Arrays;
import tickover.order.AngularRecord;
import tickover.order.AngularResampler;
import tickover.order.ShaftAngle;
import tickover.order.TimeRange;

/**
 * The samples of a capture without what is ruled out: over time, faded out where nothing can be
 * used, and over angle, with a plan of where lines can be measured.
 */
final class Samples {
    /** Faded out and in over this long, so that no edge rings in a band filter, s. */
    private static final double FADE_S = 0.005;

    private final double[][] centred;
    private final double[][] channels;
    private final boolean[] usable;
    private final int firstStep;
    private final SegmentPlan plan;

    private Samples(
            double[][] centred,
            double[][] channels,
            boolean[] usable,
            int firstStep,
            SegmentPlan plan) {
        this.centred = centred;
        this.channels = channels;
        this.usable = usable;
        this.firstStep = firstStep;
        this.plan = plan;
    }

    static Samples of(CaptureInput input, SignalQuality quality, AngleGrid grid) {
        double[][] centred = new double[input.accelMps2().length][];
        double[][] channels = new double[centred.length][];
        AngularRecord record = null;
        for (int c = 0; c < centred.length; c++) {
            double[] x = input.accelMps2()[c];
            double[] keep = keep(x.length, input.sampleRateHz(), quality);
            double mean = mean(x, keep);
            centred[c] = new double[x.length];
            for (int i = 0; i < x.length; i++) {
                centred[c][i] = keep[i] * (x[i] - mean);
            }
            record =
                    AngularResampler.resample(
                            centred[c],
                            input.sampleRateHz(),
                            input.angle(),
                            AngleGrid.STEPS_PER_TURN);
            channels[c] = record.values();
        }
        boolean[] usable = usable(record, input.angle(), quality);
        int firstStep =
                (int) Math.rint((record.turnsAt(0) - grid.firstTurns()) * AngleGrid.STEPS_PER_TURN);
        // The plan is for the envelopes too, which may end a step sooner.
        boolean[] common =
                new boolean[Math.max(0, Math.min(usable.length, grid.steps() - firstStep))];
        System.arraycopy(usable, 0, common, 0, common.length);
        return new Samples(
                centred,
                channels,
                usable,
                firstStep,
                SegmentPlan.of(common, AngleGrid.STEPS_PER_TURN));
    }

    private static boolean[] usable(AngularRecord record, ShaftAngle angle, SignalQuality quality) {
        int n = record.values().length;
        boolean[] usable = new boolean[n];
        Arrays.fill(usable, true);
        double first = record.turnsAt(0);
        double perTurn = record.samplesPerTurn();
        for (TimeRange r : quality.ruledOut()) {
            double fromS = clamp(r.fromS() - SignalQuality.GUARD_S, angle);
            double toS = clamp(r.toS() + SignalQuality.GUARD_S, angle);
            int from = (int) Math.floor((angle.turnsAt(fromS) - first) * perTurn);
            int to = (int) Math.ceil((angle.turnsAt(toS) - first) * perTurn);
            for (int i = Math.max(0, from); i <= Math.min(n - 1, to); i++) {
                usable[i] = false;
            }
        }
        return usable;
    }

    private static double clamp(double timeS, ShaftAngle angle) {
        return Math.max(angle.startS(), Math.min(angle.endS(), timeS));
    }

    /** 1 where a sample can be used, 0 where not, and a smooth passage on the inner side. */
    private static double[] keep(int count, double sampleRateHz, SignalQuality quality) {
        double[] keep = new double[count];
        Arrays.fill(keep, 1);
        for (TimeRange r : quality.ruledOut()) {
            int from = Math.max(0, (int) Math.floor(r.fromS() * sampleRateHz));
            int to = Math.min(count, (int) Math.ceil(r.toS() * sampleRateHz));
            for (int i = from; i < to; i++) {
                double insideS =
                        Math.min(
                                from == 0 ? FADE_S : (i - from + 1) / sampleRateHz,
                                to == count ? FADE_S : (to - i) / sampleRateHz);
                keep[i] = insideS >= FADE_S ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * insideS / FADE_S);
            }
        }
        return keep;
    }

    private static double mean(double[] x, double[] keep) {
        double sum = 0;
        int n = 0;
        for (int i = 0; i < x.length; i++) {
            sum += keep[i] < 1 ? 0 : x[i];
            n += keep[i] < 1 ? 0 : 1;
        }
        return n > 0 ? sum / n : 0;
    }

    /** Rms of all channels together about their means, of what can be used, m/s². */
    static double rmsMps2(CaptureInput input, SignalQuality quality) {
        double total = 0;
        for (double[] x : input.accelMps2()) {
            double[] keep = keep(x.length, input.sampleRateHz(), quality);
            double mean = mean(x, keep);
            double squares = 0;
            int n = 0;
            for (int i = 0; i < x.length; i++) {
                squares += keep[i] < 1 ? 0 : (x[i] - mean) * (x[i] - mean);
                n += keep[i] < 1 ? 0 : 1;
            }
            total += n == 0 ? 0 : squares / n;
        }
        return Math.sqrt(total);
    }

    /** Over time, m/s². Not to be written to. */
    double[][] centred() {
        return centred;
    }

    /** Over angle, m/s². Not to be written to. */
    double[][] channels() {
        return channels;
    }

    /** Which angle steps can be used. */
    boolean[] usable() {
        return usable;
    }

    /** The step of the envelopes' grid at which the channels begin. */
    int firstStep() {
        return firstStep;
    }

    /** Where lines can be measured. */
    SegmentPlan plan() {
        return plan;
    }
}
