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

    private final SignalQuality quality;
    private final double[] edgesS;

    AngleGrid(ShaftAngle angle, SignalQuality quality, double durationS) {
        this.quality = quality;
        double fromS = Math.max(0, angle.startS());
        double toS = Math.min(durationS, angle.endS());
        double first = angle.turnsAt(fromS);
        double last = angle.turnsAt(toS);
        int steps = Math.max(0, (int) Math.floor((last - first) * STEPS_PER_TURN));
        this.edgesS = new double[steps + 1];
        for (int i = 0; i <= steps; i++) {
            edgesS[i] =
                    Math.min(
                            toS, angle.timeAt(Math.min(last, first + (double) i / STEPS_PER_TURN)));
        }
    }

    double turns() {
        return (double) steps() / STEPS_PER_TURN;
    }

    int steps() {
        return edgesS.length - 1;
    }

    /** Means over the angle steps. */
    double[] resample(double[] values, double rateHz) {
        double[] sum = new double[values.length + 1];
        for (int i = 0; i < values.length; i++) {
            sum[i + 1] = sum[i] + values[i];
        }
        int steps = steps();
        double[] out = new double[steps];
        double usableSum = 0;
        int usable = 0;
        double before = integral(sum, edgesS[0] * rateHz);
        for (int i = 0; i < steps; i++) {
            double after = integral(sum, edgesS[i + 1] * rateHz);
            double width = (edgesS[i + 1] - edgesS[i]) * rateHz;
            out[i] = width > 0 ? (after - before) / width : 0;
            before = after;
            if (quality.usableAt(edgesS[i])) {
                usableSum += out[i];
                usable++;
            }
        }
        double mean = usable == 0 ? 0 : usableSum / usable;
        for (int i = 0; i < steps; i++) {
            if (!quality.usableAt(edgesS[i])) {
                out[i] = mean;
            }
        }
        return out;
    }

    private static double integral(double[] sum, double at) {
        // Value i covers the time from i-1/2 to i+1/2 samples.
        double p = Math.max(0, Math.min(sum.length - 1.0, at + 0.5));
        int i = Math.min(sum.length - 2, (int) p);
        return sum[i] + (p - i) * (sum[i + 1] - sum[i]);
    }

    /**
     * Power per bin of a series on this grid: a cosine of amplitude A at a bin's order reads A²/2.
     *
     * @return bins from order 0 in steps of {@link #binOrders(int)}
     */
    static double[] power(double[] series) {
        int size = paddedSize(series.length);
        double[] window = Window.HANN.periodic(series.length);
        double[] x = new double[size];
        double mean = Arrays.stream(series).average().orElse(0);
        double gain = 0;
        for (int i = 0; i < series.length; i++) {
            x[i] = (series[i] - mean) * window[i];
            gain += window[i];
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
