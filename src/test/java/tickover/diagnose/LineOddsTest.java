package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LineOddsTest {
    @Test
    void oddsOfNoiseAverageToOneAtMost() {
        // Under noise a ratio is exponential, and the mean of a likelihood ratio is 1; the bound on
        // what one line can say takes off the rest.
        double step = 0.01;
        double mean = 0;
        for (double r = step / 2; r < 40; r += step) {
            mean += LineOdds.of(r) * Math.exp(-r) * step;
        }
        assertTrue(mean <= 1, "mean " + mean);
    }

    @Test
    void noSingleLineSaysMoreThanOneInFifty() {
        double most = 50;
        double printed = 0.01;
        assertEquals(most, LineOdds.of(1e9), printed);
    }

    @Test
    void morePowerNeverSpeaksLessForALine() {
        for (double r = 0.1; r < 60; r += 0.1) {
            assertTrue(LineOdds.of(r) >= LineOdds.of(r - 0.1), "ratio " + r);
        }
    }
}
