package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class LevelTrendTest {
    private static final double ROUND_OFF_DB = 1e-9;

    private static double level(double db) {
        return Math.pow(10, db / 20);
    }

    @Test
    void twiceTheLevelIsSixDecibels() {
        LevelTrend trend = LevelTrend.of(List.of(1.0, 2.0));
        assertEquals(20 * Math.log10(2), trend.changeDb(), ROUND_OFF_DB);
        assertTrue(trend.limitDb().isEmpty());
        assertFalse(trend.standsOut());
    }

    /**
     * A baseline of five visits needs t sqrt(1 + 1/n) = 3.04 of its own scatter, textbook formula
     * with the number recomputed.
     */
    @Test
    void fiveEarlierVisitsAllowThreePointZeroFourTimesTheirScatter() {
        List<Double> levels =
                List.of(level(-2), level(-1), level(0), level(1), level(2), level(4.5));
        LevelTrend trend = LevelTrend.of(levels);
        double scatterDb = Math.sqrt(10.0 / 4);
        double printed = 0.005;
        assertEquals(3.04, trend.limitDb().getAsDouble() / scatterDb, printed);
        assertEquals(4.5, trend.changeDb(), ROUND_OFF_DB);
        assertFalse(trend.standsOut());
    }

    @Test
    void standsOutBeyondTheLimit() {
        List<Double> levels = List.of(level(-1), level(0), level(1), level(6));
        // Student's t of 2 degrees of freedom, s = 1 dB, n = 3.
        double limit = 4.303 * Math.sqrt(1 + 1.0 / 3);
        LevelTrend trend = LevelTrend.of(levels);
        assertEquals(limit, trend.limitDb().getAsDouble(), ROUND_OFF_DB);
        assertTrue(trend.standsOut());
    }

    @Test
    void refusesALevelOfNothing() {
        assertThrows(IllegalArgumentException.class, () -> LevelTrend.of(List.of(0.0, 1.0)));
        assertThrows(IllegalArgumentException.class, () -> LevelTrend.of(List.of(1.0)));
    }
}
