package tickover.order;

import tickover.align.CaptureSignal;
import tickover.dsp.AnalyticBand;
import tickover.dsp.RecordSpectrum;

/**
 * A capture cut down to the frequencies that a search for speed needs, at a rate of its own.
 *
 * <p>The engine's own orders lie low; resampling the full rate again and again to follow them is
 * most of the work of such a search. Cut with sharp edges out of the transform of the whole record,
 * so without delay.
 */
final class SlowCapture {
    /** Below this gain in rate the capture stays as it is. */
    private static final double LEAST_GAIN = 2;

    private SlowCapture() {}

    /**
     * Cuts a capture down.
     *
     * @param capture the capture
     * @param topHz highest frequency to keep, Hz
     * @return the same time base at a rate of at least twice that, or the capture itself where that
     *     gains little
     */
    static CaptureSignal of(CaptureSignal capture, double topHz) {
        if (!(capture.sampleRateHz() > 2 * LEAST_GAIN * 2 * topHz)) {
            return capture;
        }
        double[][] slow = new double[capture.channels()][];
        double rateHz = 0;
        for (int c = 0; c < slow.length; c++) {
            AnalyticBand band =
                    RecordSpectrum.of(capture.accelMps2(c), capture.sampleRateHz())
                            .analyticBand(0, topHz);
            double[] z = band.interleaved();
            rateHz = band.rateHz();
            slow[c] = new double[band.count()];
            for (int i = 0; i < slow[c].length; i++) {
                double turn = 2 * Math.PI * band.originHz() * i / rateHz;
                slow[c][i] = z[2 * i] * Math.cos(turn) - z[2 * i + 1] * Math.sin(turn);
            }
        }
        return new CaptureSignal(rateHz, slow, capture.speed());
    }
}
