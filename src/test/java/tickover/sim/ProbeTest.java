package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class ProbeTest {
    private static final double RATE_HZ = 25600;
    private static final int COUNT = 25600;

    @Test
    void clipsAtItsRange() {
        Probe probe = new Probe(spec(Probe.Hold.STUD, 20, 0));
        double[] x = tone(100, 50);
        probe.convert(
                x, new SimulatedCapture.Recorder(25600, SimulatedCapture.SampleFormat.PCM_16, 20));
        assertEquals(20, Arrays.stream(x).max().orElseThrow(), 20.0 / (1 << 15));
        assertEquals(-20, Arrays.stream(x).min().orElseThrow(), 1e-12);
        long flat = Arrays.stream(x).filter(v -> Math.abs(v) > 19.99).count();
        // A sine of 2.5 times the range is outside for 1 - (2/pi) asin(0.4) of the time.
        double share = 1 - 2 / Math.PI * Math.asin(0.4);
        assertEquals(share, (double) flat / COUNT, 0.01);
    }

    @Test
    void sixteenBitsRoundByHalfAStepAtMost() {
        Probe probe = new Probe(spec(Probe.Hold.STUD, 160, 0));
        double[] exact = tone(137, 3);
        double[] kept = exact.clone();
        probe.convert(
                kept,
                new SimulatedCapture.Recorder(25600, SimulatedCapture.SampleFormat.PCM_16, 160));
        double stepMps2 = 160.0 / (1 << 15);
        double worst = 0;
        for (int i = 0; i < COUNT; i++) {
            worst = Math.max(worst, Math.abs(kept[i] - exact[i]));
        }
        assertTrue(worst <= stepMps2 / 2 * (1 + 1e-9), "worst " + worst);
        assertTrue(worst > stepMps2 / 4, "rounding is real: " + worst);
    }

    /** A hand passes low notes, and little of high ones; a screw passes both. */
    @Test
    void theMountTakesAwayTreble() {
        for (int luck = 0; luck < 8; luck++) {
            assertEquals(1, passed(Probe.Hold.HAND, 100, luck), 0.1, "hand at 100 Hz");
            assertTrue(passed(Probe.Hold.HAND, 7000, luck) < 0.25, "hand at 7 kHz");
            assertEquals(1, passed(Probe.Hold.STUD, 7000, luck), 0.25, "stud at 7 kHz");
        }
    }

    private static double passed(Probe.Hold hold, double hz, int luck) {
        Probe probe = new Probe(spec(hold, 500, 0));
        double[] x = tone(hz, 10);
        probe.touch(new Draw(luck), RATE_HZ, COUNT).hold(x, 0, new Draw(luck));
        double re = 0;
        double im = 0;
        for (int i = COUNT / 2; i < COUNT; i++) {
            re += x[i] * Math.cos(2 * Math.PI * hz * i / RATE_HZ);
            im += x[i] * Math.sin(2 * Math.PI * hz * i / RATE_HZ);
        }
        return Math.hypot(re, im) * 2 / (COUNT / 2) / 10;
    }

    @Test
    void theNoiseFloorHasTheStatedRms() {
        Probe probe = new Probe(spec(Probe.Hold.MAGNET, 500, 0.05));
        double[] x = new double[COUNT];
        probe.touch(new Draw(1), RATE_HZ, COUNT).hold(x, 0, new Draw(1));
        // 25600 values give the rms to 0.45 %; four of that.
        assertEquals(0.05, Runs.rms(x), 0.05 * 0.018);
    }

    @Test
    void touchesOfOneProbeDifferByTheStatedDecibels() {
        Probe probe = new Probe(new Probe.Spec(Probe.Hold.STUD, 500, 0, 2, false, false));
        double sum = 0;
        int touches = 200;
        for (int t = 0; t < touches; t++) {
            double[] x = new double[2560];
            Arrays.setAll(x, i -> 10 * Math.sin(2 * Math.PI * 100 * i / RATE_HZ));
            probe.touch(new Draw(1000 + t), RATE_HZ, x.length).hold(x, 0, new Draw(t));
            double db = 20 * Math.log10(Runs.rms(x) / (10 / Math.sqrt(2)));
            sum += db * db;
        }
        // 200 touches give the spread to 5 %; four of that.
        assertEquals(2, Math.sqrt(sum / touches), 0.4);
    }

    @Test
    void gravityShowsAsAConstantOfOneG() {
        Probe probe = new Probe(new Probe.Spec(Probe.Hold.MAGNET, 500, 0, 1, true, false));
        Probe.Touch touch = probe.touch(new Draw(6), RATE_HZ, 256);
        double sum = 0;
        for (int c = 0; c < 3; c++) {
            double[] x = new double[256];
            touch.hold(x, c, new Draw(c));
            sum += x[128] * x[128];
        }
        assertEquals(9.80665, Math.sqrt(sum), 1e-9);
    }

    private static Probe.Spec spec(Probe.Hold hold, double rangeMps2, double noiseRmsMps2) {
        return new Probe.Spec(hold, rangeMps2, noiseRmsMps2, 0, false, false);
    }

    private static double[] tone(double hz, double amplitude) {
        double[] x = new double[COUNT];
        Arrays.setAll(x, i -> amplitude * Math.sin(2 * Math.PI * hz * i / RATE_HZ));
        return x;
    }
}
