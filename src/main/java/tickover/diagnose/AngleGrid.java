package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.RealFft;
import tickover.dsp.Window;
import tickover.order.ShaftAngle;

/**
 * Brings squared envelopes of one capture to even crank angle and takes their order spectra.
 *
 * <p>Each angle step gets the mean of the envelope over the time that the crank took for it, so
 * nothing between two steps is lost. Stretches that the signal quality rules out are filled with
 * the mean of the rest.
 */
final class AngleGrid {
    /** Steps per crank turn; the highest order is half of it. */
    static final int STEPS_PER_TURN = 256;

    private final double[] edgesS;
    private final double firstTurns;
    private final boolean[] usable;

    AngleGrid(ShaftAngle angle, SignalQuality quality, double durationS) {
        double fromS = Math.max(0, angle.startS());
        double toS = Math.min(durationS, angle.endS());
        double first = angle.turnsAt(fromS);
        double last = angle.turnsAt(toS);
        this.firstTurns = first;
        int steps = Math.max(0, (int) Math.floor((last - first) * STEPS_PER_TURN));
        this.edgesS = new double[steps + 1];
        for (int i = 0; i <= steps; i++) {
            edgesS[i] =
                    Math.min(
                            toS, angle.timeAt(Math.min(last, first + (double) i / STEPS_PER_TURN)));
        }
        this.usable = new boolean[steps];
        for (int i = 0; i < steps; i++) {
            usable[i] = quality.usable(edgesS[i], edgesS[i + 1]);
        }
    }

    double turns() {
        return (double) steps() / STEPS_PER_TURN;
    }

    int steps() {
        return edgesS.length - 1;
    }

    /** Angle of the first step's beginning, crank turns. */
    double firstTurns() {
        return firstTurns;
    }

    /** Which steps can be used. Not to be written to. */
    boolean[] usable() {
        return usable;
    }

    /** Turns that can be used. */
    double usableTurns() {
        int n = 0;
        for (boolean u : usable) {
            n += u ? 1 : 0;
        }
        return (double) n / STEPS_PER_TURN;
    }

    /** Means over the angle steps. */
    double[] resample(double[] values, double rateHz) {
        double[] sum = new double[values.length + 1];
        for (int i = 0; i < values.length; i++) {
            sum[i + 1] = sum[i] + values[i];
        }
        int steps = steps();
        double[] out = new double[steps];
        double before = integral(sum, edgesS[0] * rateHz);
        for (int i = 0; i < steps; i++) {
            double after = integral(sum, edgesS[i + 1] * rateHz);
            double width = (edgesS[i + 1] - edgesS[i]) * rateHz;
            out[i] = width > 0 ? (after - before) / width : 0;
            before = after;
        }
        fillUnusable(out, usable);
        return out;
    }

    /** Puts the mean of the usable values in the place of the others. */
    static void fillUnusable(double[] values, boolean[] usable) {
        double sum = 0;
        int n = 0;
        for (int i = 0; i < values.length; i++) {
            sum += usable[i] ? values[i] : 0;
            n += usable[i] ? 1 : 0;
        }
        double mean = n == 0 ? 0 : sum / n;
        for (int i = 0; i < values.length; i++) {
            values[i] = usable[i] ? values[i] : mean;
        }
    }

    private static double integral(double[] sum, double at) {
        // Value i covers the time from i-1/2 to i+1/2 samples.
        double p = Math.max(0, Math.min(sum.length - 1.0, at + 0.5));
        int i = Math.min(sum.length - 2, (int) p);
        return sum[i] + (p - i) * (sum[i + 1] - sum[i]);
    }

    /**
     * Power per bin of a series on this grid: a cosine of amplitude A at a bin's order reads A²/2,
     * also where part of it is filled with the mean.
     *
     * @param series the values
     * @param usable which of them are not filled
     * @return bins from order 0 in steps of {@link #binOrders(int)}
     */
    static double[] power(double[] series, boolean[] usable) {
        int size = paddedSize(series.length);
        double[] window = Window.HANN.periodic(series.length);
        double[] x = new double[size];
        double mean = Arrays.stream(series).average().orElse(0);
        double gain = 0;
        for (int i = 0; i < series.length; i++) {
            x[i] = (series[i] - mean) * window[i];
            gain += usable[i] ? window[i] : 0;
        }
        double[] re = new double[size / 2 + 1];
        double[] im = new double[size / 2 + 1];
        new RealFft(size).forward(x, re, im);
        double[] out = new double[size / 2 + 1];
        double scale = 2 / (gain * gain);
        for (int i = 0; i < out.length; i++) {
            out[i] = scale * (re[i] * re[i] + im[i] * im[i]);
        }
        return out;
    }

    static double binOrders(int length) {
        return (double) STEPS_PER_TURN / paddedSize(length);
    }

    private static int paddedSize(int length) {
        return RealFft.goodSize(Math.max(2, length + length / 2));
    }
}
