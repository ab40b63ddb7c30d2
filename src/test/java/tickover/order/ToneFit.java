package tickover.order;

import java.util.Arrays;
import tickover.dsp.Window;

/**
 * Amplitude and residual of a unit tone over 16-turn Hann frames that overlap by half, the first
 * and last 20 turns left out: the measure that resampling is judged by.
 */
record ToneFit(double meanErrorPercent, double worstErrorPercent, double floorDb) {
    private static final int SKIP_TURNS = 20;
    private static final int FRAME_TURNS = 16;

    static ToneFit of(AngularRecord record, double order) {
        int per = record.samplesPerTurn();
        double[] y = record.values();
        int n = per * FRAME_TURNS;
        double[] w = Window.HANN.periodic(n);
        double[] cos = new double[n];
        double[] sin = new double[n];
        for (int i = 0; i < n; i++) {
            cos[i] = Math.cos(2 * Math.PI * order * i / per);
            sin[i] = Math.sin(2 * Math.PI * order * i / per);
        }
        double sumW = Arrays.stream(w).sum();
        double sumW2 = Arrays.stream(w).map(v -> v * v).sum();
        double mean = 0;
        double worst = 0;
        double residual = 0;
        int frames = 0;
        for (int from = SKIP_TURNS * per; from + n <= y.length - SKIP_TURNS * per; from += n / 2) {
            double re = 0;
            double im = 0;
            for (int i = 0; i < n; i++) {
                re += 2 / sumW * w[i] * y[from + i] * cos[i];
                im -= 2 / sumW * w[i] * y[from + i] * sin[i];
            }
            for (int i = 0; i < n; i++) {
                double r = y[from + i] - re * cos[i] + im * sin[i];
                residual += r * r * w[i] * w[i] / sumW2;
            }
            double error = 100 * (Math.hypot(re, im) - 1);
            mean += error;
            worst = Math.abs(error) > Math.abs(worst) ? error : worst;
            frames++;
        }
        double rms = Math.sqrt(residual / frames);
        return new ToneFit(mean / frames, worst, 20 * Math.log10(rms / Math.sqrt(0.5) + 1e-20));
    }
}
