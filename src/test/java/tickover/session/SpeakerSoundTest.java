package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class SpeakerSoundTest {
    private static final double SLOW_HZ = 25_600;
    private static final double FAST_HZ = 48_000;

    private static double[] tone(double hz, double rateHz, int count) {
        double[] x = new double[count];
        for (int i = 0; i < count; i++) {
            x[i] = Math.sin(2 * Math.PI * hz * i / rateHz);
        }
        return x;
    }

    /** The largest difference from a wanted tone, away from the ends. */
    private static double worst(double[] got, double[] wanted) {
        double worst = 0;
        for (int i = 200; i < got.length - 200; i++) {
            worst = Math.max(worst, Math.abs(got[i] - wanted[i]));
        }
        return worst;
    }

    @Test
    void tonesStayWhatTheyAreAtTheOtherRate() {
        double stopBand = 2e-3; // the window's ripple, and the straight lines of its table
        for (double hz : new double[] {50, 1000, 9000}) {
            double[] up = SpeakerSound.at(tone(hz, SLOW_HZ, 8000), SLOW_HZ, FAST_HZ);
            assertEquals(15_000, up.length);
            assertTrue(worst(up, tone(hz, FAST_HZ, up.length)) < stopBand, hz + " Hz");
        }
    }

    @Test
    void whatTheLowerRateCannotCarryIsGoneAndNotFolded() {
        double[] down = SpeakerSound.at(tone(20_000, FAST_HZ, 9600), FAST_HZ, SLOW_HZ);
        double stopBand = 2e-3;
        assertTrue(worst(down, new double[down.length]) < stopBand);
    }

    @Test
    void equalRatesChangeNothing() {
        double[] x = tone(100, SLOW_HZ, 100);
        assertSame(x, SpeakerSound.at(x, SLOW_HZ, SLOW_HZ));
        assertThrows(IllegalArgumentException.class, () -> SpeakerSound.at(x, Double.NaN, 1));
    }
}
