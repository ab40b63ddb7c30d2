package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import tickover.dsp.RealFft;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/** The ground on which a shaft's speed is looked for: how far each bin of a record stands out. */
final class TurnComb {
    /** A line counts for at most this factor over its surroundings, as a power of ten. */
    private static final double STRONGEST_LOG10 = 2;

    private TurnComb() {}

    /**
     * Base-10 logarithm of 1 + power over the median of the surroundings, bounded, mean over the
     * channels; one value per bin of the longest smooth length that the record holds.
     *
     * @param channels samples, m/s²
     * @param sampleRateHz samples per second, Hz
     * @param topHz bins above are left out, Hz
     * @param widthHz width of the surroundings, Hz
     */
    static double[] logStrength(
            List<double[]> channels, double sampleRateHz, double topHz, double widthHz) {
        double[] sum = new double[0];
        for (double[] channel : channels) {
            double[] one = logStrength(channel, sampleRateHz, topHz, widthHz);
            sum = sum.length == 0 ? new double[one.length] : sum;
            for (int k = 0; k < sum.length; k++) {
                sum[k] += one[k] / channels.size();
            }
        }
        return sum;
    }

    private static double[] logStrength(
            double[] accelMps2, double sampleRateHz, double topHz, double widthHz) {
        int n = EnvelopeOrders.smoothSizeAtMost(accelMps2.length);
        double binHz = sampleRateHz / n;
        double[] weights = Window.HANN.periodic(n);
        double[] x = new double[n];
        double mean = Statistics.mean(accelMps2);
        for (int i = 0; i < n; i++) {
            x[i] = weights[i] * (accelMps2[i] - mean);
        }
        RealFft fft = new RealFft(n);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(x, re, im);
        int bins = (int) Math.min(fft.bins(), Math.ceil(topHz / binHz));
        double[] power = new double[bins];
        for (int k = 0; k < bins; k++) {
            power[k] = re[k] * re[k] + im[k] * im[k];
        }
        int width = (int) Math.max(9, Math.min(bins, widthHz / binHz));
        double[] log = new double[bins];
        double[] level = new double[bins / Math.max(1, width / 4) + 2];
        int hop = Math.max(1, width / 4);
        for (int j = 0; j < level.length; j++) {
            int from = Math.max(0, Math.min(j * hop - width / 2, bins - width));
            level[j] =
                    Statistics.median(
                            Arrays.copyOfRange(power, from, Math.min(bins, from + width)));
        }
        for (int k = 0; k < bins; k++) {
            double ratio = power[k] / Math.max(level[k / hop], Double.MIN_NORMAL);
            log[k] = Math.min(STRONGEST_LOG10, Math.log10(1 + ratio));
        }
        return log;
    }
}
