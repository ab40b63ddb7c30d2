package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class ModeBankReferenceTest {
    /** Decay 1/(2 pi zeta f): 3 kHz at 0.05 gives 1.06 ms; recomputed. */
    @Test
    void decayTimeIsTheClosedForm() {
        assertEquals(
                1.06e-3, new Mode(3000, 0.05, 1).decayS(), 0.005e-3, "printed to two decimals");
    }

    /** The ring falls by 1/e per decay time and starts at the impact's strength, at any rate. */
    @Test
    void anImpactRingsAlikeAtEveryRate() {
        Mode mode = new Mode(1500, 0.02, 1);
        for (double rateHz : new double[] {12800, 25600, 48000, 51200}) {
            double[] in = new double[2048];
            double[] out = new double[2048];
            in[0] = 1;
            ModeBank.ringing(List.of(mode), rateHz).addAll(in, out, in.length);
            double early = envelope(out, 0.25e-3, rateHz, mode);
            double late = envelope(out, 0.25e-3 + mode.decayS(), rateHz, mode);
            // The envelope is read from the largest swing of one period, sampled as it falls.
            assertEquals(Math.exp(-1), late / early, 0.05, "decay at " + rateHz);
            double start = Math.exp(-0.25e-3 / mode.decayS());
            assertEquals(start, early, 0.12, "strength at " + rateHz);
        }
    }

    private static double envelope(double[] x, double fromS, double rateHz, Mode mode) {
        int from = (int) Math.rint(fromS * rateHz);
        int span = (int) Math.ceil(rateHz / mode.frequencyHz());
        double most = 0;
        for (int i = from; i < from + span; i++) {
            most = Math.max(most, Math.abs(x[i]));
        }
        return most;
    }

    /** A steady tone at resonance passes a passing bank unchanged. */
    @Test
    void aToneAtResonancePassesWithItsAmplitude() {
        double rateHz = 25600;
        double[] in = new double[25600];
        double[] out = new double[25600];
        for (int i = 0; i < in.length; i++) {
            in[i] = Math.sin(2 * Math.PI * 2000 * i / rateHz);
        }
        ModeBank.passing(List.of(new Mode(2000, 0.03, 1)), rateHz).addAll(in, out, in.length);
        double most = 0;
        for (int i = out.length / 2; i < out.length; i++) {
            most = Math.max(most, Math.abs(out[i]));
        }
        assertEquals(1, most, 0.02, "the peak of the recursion is a little off its pole");
    }

    /** Where between two samples an impact falls changes its phase only. */
    @Test
    void impactsBetweenSamplesKeepTheirStrengthAndTime() {
        for (double at = 100; at < 101; at += 0.1) {
            double[] x = new double[256];
            Impacts.add(x, at, 2);
            for (double ofRate : new double[] {0.0, 0.1, 0.2, 0.3}) {
                double re = 0;
                double im = 0;
                for (int i = 0; i < x.length; i++) {
                    double phase = 2 * Math.PI * ofRate * (i - at);
                    re += x[i] * Math.cos(phase);
                    im -= x[i] * Math.sin(phase);
                }
                // A Hann-windowed sinc of 16 samples is flat to about a percent below 0.3.
                assertEquals(2, re, 0.03, "at " + at + ", " + ofRate + " of the rate");
                assertEquals(0, im, 0.03, "at " + at + ", " + ofRate + " of the rate");
            }
        }
    }
}
