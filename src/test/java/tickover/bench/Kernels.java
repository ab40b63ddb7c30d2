package tickover.bench;

import java.util.Comparator;
import java.util.List;
import java.util.stream.DoubleStream;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;
import tickover.diagnose.LineLevels;
import tickover.dsp.Kurtogram;
import tickover.dsp.RealFft;
import tickover.dsp.RecordSpectrum;
import tickover.dsp.Statistics;
import tickover.dsp.Window;
import tickover.order.AngleFinder;
import tickover.order.AnglePrior;
import tickover.order.AngularRecord;
import tickover.order.AngularResampler;
import tickover.order.LineTrack;
import tickover.order.ShaftAngle;
import tickover.order.TrackedLine;
import tickover.order.VoldKalman;
import tickover.order.Waterfall;

/** The kernels that are timed, each as the program itself does it. */
final class Kernels {
    static final int PER_TURN = 256;
    private static final int TURNS_PER_FRAME = 16;
    private static final int TURNS_PER_ROW = 4;
    private static final double LO_HZ = 3400;
    private static final double HI_HZ = 5000;
    private static final int LEVELS = 6;
    private static final double BANDWIDTH_HZ = 8;

    /** Lines of eight belt-driven parts, the first three multiples of a turn, in crank orders. */
    private static final double[][] PARTS =
            DoubleStream.of(1.32, 1.48, 1.72, 2.14, 2.33, 2.5, 2.82, 3.13)
                    .mapToObj(turn -> new double[] {turn, 2 * turn, 3 * turn})
                    .toArray(double[][]::new);

    private Kernels() {}

    static ShaftAngle angle(double[] x, double rateHz, double[] pulsesS) {
        TachPulses tach = new TachPulses(pulsesS, 1, 1);
        CaptureSignal signal = new CaptureSignal(rateHz, new double[][] {x}, tach);
        return AngleFinder.find(signal, AnglePrior.of(4, 4)).angle().orElseThrow();
    }

    /** Pulses to even steps of angle. */
    static AngularRecord onAngle(double[] x, double rateHz, double[] pulsesS) {
        return AngularResampler.resample(x, rateHz, angle(x, rateHz, pulsesS), PER_TURN);
    }

    /** Order spectra of 16 turns under a Hann window, overlapping by three quarters. */
    static Waterfall orderSpectra(AngularRecord onAngle, ShaftAngle angle) {
        Waterfall.Spec spec =
                new Waterfall.Spec(
                        TURNS_PER_FRAME, Waterfall.Axis.TURNS, TURNS_PER_ROW, Window.HANN);
        return Waterfall.of(onAngle, angle, spec);
    }

    static double[] envelopeSpectrum(double[] x, double rateHz) {
        return envelopeSpectrum(x, rateHz, LO_HZ, HI_HZ);
    }

    /** Amplitudes of the squared envelope of one band, from 0 Hz in steps of 1/duration. */
    private static double[] envelopeSpectrum(double[] x, double rateHz, double loHz, double hiHz) {
        // The upper edge is not part of the band.
        double stepHz = rateHz / x.length;
        double[] e =
                RecordSpectrum.ofPeriod(x, rateHz)
                        .squaredEnvelope(loHz, hiHz - stepHz / 2)
                        .valuesSquared();
        double mean = Statistics.mean(e);
        for (int i = 0; i < e.length; i++) {
            e[i] -= mean;
        }
        RealFft fft = new RealFft(e.length);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(e, re, im);
        for (int k = 0; k < re.length; k++) {
            re[k] = Math.sqrt(re[k] * re[k] + im[k] * im[k]) * 2 / e.length;
        }
        return re;
    }

    static List<Kurtogram.Band> kurtogram(double[] x, double rateHz) {
        return Kurtogram.of(x, rateHz, LEVELS);
    }

    /** Level and phase of order 1 at the points that the spline between them goes through. */
    static LineTrack orderOne(double[] x, double rateHz, ShaftAngle angle) {
        VoldKalman.Spec spec = VoldKalman.Spec.of(TrackedLine.orderWithinHz(1, BANDWIDTH_HZ));
        return VoldKalman.track(x, rateHz, angle, spec).tracks().get(0);
    }

    /**
     * What a record comes to.
     *
     * @param waterfall order spectra
     * @param levelsMps2 rms level of each part
     * @param band the spikiest band
     * @param envelope amplitudes of its squared envelope
     */
    @SuppressWarnings("ArrayRecordComponent") // handed on, never compared
    record Whole(
            Waterfall waterfall, double[] levelsMps2, Kurtogram.Band band, double[] envelope) {}

    /** The whole analysis of one record: angle, waterfall, part levels, band, envelope. */
    static Whole whole(double[] x, double rateHz, double[] pulsesS) {
        ShaftAngle angle = angle(x, rateHz, pulsesS);
        AngularRecord onAngle = AngularResampler.resample(x, rateHz, angle, PER_TURN);
        Waterfall waterfall = orderSpectra(onAngle, angle);
        double[] levels = LineLevels.of(onAngle.values(), PER_TURN, PARTS);
        Kurtogram.Band band =
                kurtogram(x, rateHz).stream()
                        .filter(b -> b.level() > 0)
                        .max(Comparator.comparingDouble(Kurtogram.Band::kurtosis))
                        .orElseThrow();
        double[] envelope = envelopeSpectrum(x, rateHz, band.loHz(), band.hiHz());
        return new Whole(waterfall, levels, band, envelope);
    }
}
