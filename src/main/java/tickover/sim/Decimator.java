package tickover.sim;

/** Anti-alias filter and decimation, as a slow probe does it: windowed sinc, whole factors. */
final class Decimator {
    private static final int HALF_WIDTH_OUTPUTS = 12;
    private static final double CORNER_OF_RATE_RATIO = 0.44;

    private Decimator() {}

    /**
     * Keeps every {@code factor}-th sample of the filtered input.
     *
     * @param in samples
     * @param factor &gt;= 1
     * @param count outputs wanted
     * @return outputs; sample i stands at input i times factor
     */
    static double[] decimate(double[] in, int factor, int count) {
        if (factor == 1) {
            return in;
        }
        int half = HALF_WIDTH_OUTPUTS * factor;
        double[] kernel = new double[2 * half + 1];
        double sum = 0;
        for (int i = -half; i <= half; i++) {
            double arg = 2 * Math.PI * CORNER_OF_RATE_RATIO * i / factor;
            double sinc = i == 0 ? 1 : Math.sin(arg) / arg;
            kernel[i + half] = sinc * (0.5 + 0.5 * Math.cos(Math.PI * i / (half + 1.0)));
            sum += kernel[i + half];
        }
        double[] out = new double[count];
        for (int n = 0; n < count; n++) {
            double y = 0;
            for (int i = 0; i < kernel.length; i++) {
                int at = Math.max(0, Math.min(in.length - 1, n * factor + i - half));
                y += kernel[i] * in[at];
            }
            out[n] = y / sum;
        }
        return out;
    }
}
