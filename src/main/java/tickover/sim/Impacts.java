package tickover.sim;

/**
 * Puts impacts between samples: a windowed sinc that keeps to the lower 80 % of the band, so that
 * an impact at any time stays free of aliasing and its strength does not depend on where between
 * two samples it falls.
 */
final class Impacts {
    private static final int HALF_WIDTH_SAMPLES = 8;
    private static final double BAND_RATIO = 0.8;

    private Impacts() {}

    /**
     * Adds one impact of unit area times strength.
     *
     * @param into samples
     * @param atSamples when, samples; may lie outside
     * @param strength area, in the unit of the samples
     */
    static void add(double[] into, double atSamples, double strength) {
        int first = (int) Math.ceil(atSamples - HALF_WIDTH_SAMPLES);
        int last = (int) Math.floor(atSamples + HALF_WIDTH_SAMPLES);
        if (last < 0 || first >= into.length) {
            return;
        }
        for (int i = Math.max(0, first); i <= Math.min(into.length - 1, last); i++) {
            double x = i - atSamples;
            double arg = Math.PI * BAND_RATIO * x;
            double sinc = Math.abs(arg) < 1e-9 ? 1 : Math.sin(arg) / arg;
            double window = 0.5 + 0.5 * Math.cos(Math.PI * x / HALF_WIDTH_SAMPLES);
            into[i] += strength * BAND_RATIO * sinc * window;
        }
    }
}
