package tickover.sim;

/**
 * A sum of harmonics as a table over one period, read with linear interpolation. With {@value
 * #SIZE} entries, harmonic k is true to (2 pi k / SIZE)² / 8: better than -75 dB at k = 72.
 */
final class AngleTable {
    static final int SIZE = 16384;

    private final double[] values = new double[SIZE + 1];

    /** Adds amplitude * cos(2 pi (harmonic * x + phase)), x in periods. */
    void add(int harmonic, double amplitude, double phaseTurns) {
        double step = 2 * Math.PI * harmonic / SIZE;
        double turnRe = Math.cos(step);
        double turnIm = Math.sin(step);
        double re = amplitude * Math.cos(2 * Math.PI * phaseTurns);
        double im = amplitude * Math.sin(2 * Math.PI * phaseTurns);
        for (int i = 0; i <= SIZE; i++) {
            values[i] += re;
            double next = re * turnRe - im * turnIm;
            im = re * turnIm + im * turnRe;
            re = next;
        }
    }

    double at(double periods) {
        double at = (periods - Math.floor(periods)) * SIZE;
        int i = (int) at;
        return values[i] + (at - i) * (values[i + 1] - values[i]);
    }

    /** One period without its repeated end. */
    double[] onePeriod(int size) {
        double[] out = new double[size];
        for (int i = 0; i < size; i++) {
            out[i] = at((double) i / size);
        }
        return out;
    }
}
