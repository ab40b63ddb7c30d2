package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class SpeedInstrumentsTest {
    private static final double DURATION_S = 60;

    @Test
    void tachJitterHasTheStatedSpread() {
        TachSensor tach = new TachSensor("crank", 1, 0, 50e-6, 1e-9, 0, 0);
        double[] times = record(tach, 13);
        double sum = 0;
        for (int i = 0; i < times.length; i++) {
            double exact = Math.rint(times[i] * 13) / 13;
            sum += (times[i] - exact) * (times[i] - exact);
        }
        double spread = Math.sqrt(sum / times.length);
        // Some 780 pulses give the spread to 2.5 %; four of that.
        assertEquals(50e-6, spread, 5e-6);
    }

    @Test
    void tachTimesLieOnTheTimersGrid() {
        double timerS = 1 / 25600.0;
        for (double t : record(new TachSensor("crank", 2, 0.003, 1e-5, timerS, 0, 0), 13)) {
            assertEquals(Math.rint(t / timerS), t / timerS, 1e-6);
        }
    }

    @Test
    void missedAndDoublePulsesComeInTheStatedShares() {
        int all = record(new TachSensor("crank", 4, 0, 0, 1e-9, 0, 0), 25).length;
        int missed = all - record(new TachSensor("crank", 4, 0, 0, 1e-9, 0.05, 0), 25).length;
        int twice = record(new TachSensor("crank", 4, 0, 0, 1e-9, 0, 0.05), 25).length - all;
        // 6000 pulses at 5 %: 300 with a standard deviation of 17; four of that.
        assertEquals(0.05 * all, missed, 68);
        assertEquals(0.05 * all, twice, 68);
    }

    @Test
    void unequalMarksRepeatEveryTurn() {
        double[] times = record(new TachSensor("crank", 3, 0.01, 0, 1e-9, 0, 0), 10);
        double uneven = 0;
        for (int i = 0; i + 3 < times.length; i++) {
            assertEquals(0.1, times[i + 3] - times[i], 1e-8, "one turn");
            uneven = Math.max(uneven, Math.abs(times[i + 1] - times[i] - 1 / 30.0));
        }
        assertTrue(uneven > 1e-4, "marks are uneven by " + uneven);
    }

    private static double[] record(TachSensor tach, double speedHz) {
        CrankMotion crank = Runs.steady(speedHz, DURATION_S);
        return tach.record(new PartMotion(crank, 1, 1, 0), DURATION_S, new Draw(2), new Draw(4))
                .timesS();
    }

    /** On a run-up, a reading shows the speed of the middle of its averaging, a latency ago. */
    @Test
    void obdReadingsAreLateByLatencyAndHalfTheAveraging() {
        double[] grid = new double[22_000];
        for (int i = 0; i < grid.length; i++) {
            grid[i] = 13 + 1.2 * i * CrankMotion.STEP_S;
        }
        CrankMotion crank = new CrankMotion(-1.5, 0, grid, new double[8]);
        ObdAdapter adapter = new ObdAdapter(0.18, 0, 10, 0.2);
        SpeedRecord.Readings readings = adapter.record(crank, 20, new Draw(9));
        double[] times = readings.timesS();
        double[] speeds = readings.speedsRpm();
        assertEquals(200, times.length, 8, "ten readings a second");
        for (int i = 0; i < times.length; i++) {
            double thenRpm = 60 * crank.meanSpeedHzAt(times[i] - 0.18 - 0.1);
            // A quarter rpm of rounding and half a millisecond of a 72 rpm/s run-up.
            assertEquals(thenRpm, speeds[i], 0.125 + 0.5e-3 * 72 + 1e-6);
            assertEquals(Math.rint(speeds[i] * 4), speeds[i] * 4, 1e-9, "quarter rpm");
        }
    }
}
