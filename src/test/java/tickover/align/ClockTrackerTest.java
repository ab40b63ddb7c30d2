package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.unit.HostNanos;

/** Steps, drift, and long gaps. */
class ClockTrackerTest {
    private static final int SEEDS = 12;

    /** Steps back show at once, steps on without pings when all has been late for long enough. */
    @ParameterizedTest
    @CsvSource({
        "UNIFORM, FOUR, 0.02, 1",
        "UNIFORM, NONE, 0.32, 25",
        "TIMER_16_MS, FOUR, 0.02, 1",
        "TIMER_16_MS, NONE, 0.32, 25",
        "TIMER_50_MS, FOUR, 0.05, 1",
        "TIMER_50_MS, NONE, 0.35, 25",
        "BURSTS, FOUR, 0.05, 4",
        "BURSTS, NONE, 3600, 40",
        "SPELLS, NONE, 0.35, 40"
    })
    void stepsShowWithinSecondsEitherWayOnEitherSide(
            SimulatedLine.Delay delay, SimulatedLine.Pings pings, double stepS, double withinS) {
        for (int seed = 0; seed < SEEDS; seed++) {
            for (int way = 0; way < 4; way++) {
                SimulatedLine line = new SimulatedLine(seed, 20e-6, delay, pings);
                ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
                assertFalse(line.runTo(25, tracker), "false alarm, seed " + seed);
                double by = (way & 1) == 0 ? stepS : -stepS;
                if ((way & 2) == 0) {
                    line.stepHost(by);
                } else {
                    line.stepDevice(by);
                }
                String what = "seed " + seed + ", " + by + " s, way " + way;
                assertTrue(line.runTo(25 + withinS, tracker), what);
                int steps = tracker.steps();
                line.runTo(25 + withinS + 15, tracker);
                assertEquals(steps, tracker.steps(), what);
                ClockFit fit = tracker.fit().orElseThrow();
                double tick = fit.originTick();
                double hostS = fit.origin().value() / 1e9 + fit.hostSecondsAt(tick);
                double truthS = line.hostSecondsAt(tick) + (fit.bracketed() ? 0 : line.leastS());
                assertEquals(truthS, hostS, fit.errorAtS(tick) + 0.1e-3, what);
            }
        }
    }

    /** Without pings a change that a timer could make is followed, held by the width, not told. */
    @Test
    void aChangeOfDelayWithoutPingsIsFollowedAndNotCalledAStep() {
        for (double changeS : new double[] {0.04, -0.04}) {
            for (int seed = 0; seed < SEEDS; seed++) {
                SimulatedLine line =
                        new SimulatedLine(
                                seed, 20e-6, SimulatedLine.Delay.UNIFORM, SimulatedLine.Pings.NONE);
                ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
                line.runTo(30, tracker);
                line.stepHost(changeS);
                double oldS = -changeS;
                for (int second = 31; second < 90; second++) {
                    line.runTo(second, tracker);
                    ClockFit fit = tracker.fit().orElseThrow();
                    double tick = line.lastTick();
                    double hostS = fit.origin().value() / 1e9 + fit.hostSecondsAt(tick);
                    double offS = hostS - line.hostSecondsAt(tick) - line.leastS();
                    // From the change until it is doubted, and never after, the old line stands.
                    boolean held = Math.abs(offS) <= fit.errorAtS(tick);
                    boolean old =
                            second <= 30 + LateRun.DOUBT_S + 4 && Math.abs(offS - oldS) <= 1e-3;
                    assertTrue(held || old, "seed " + seed + ", " + second + " s: " + offS);
                }
                assertEquals(0, tracker.steps(), "seed " + seed);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"UNIFORM, FOUR", "UNIFORM, NONE", "TIMER_50_MS, FOUR", "TIMER_50_MS, NONE"})
    void aHostThatLooksAwayForTwoSecondsIsNoStep(
            SimulatedLine.Delay delay, SimulatedLine.Pings pings) {
        for (int seed = 0; seed < SEEDS; seed++) {
            SimulatedLine line = new SimulatedLine(seed, 20e-6, delay, pings);
            ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
            for (int second = 20; second < 120; second += 20) {
                line.runTo(second, tracker);
                line.stall(2);
            }
            line.runTo(120, tracker);
            assertEquals(0, tracker.steps(), "seed " + seed);
        }
    }

    /** A crystal that warms up and cools down by some 20 °C and more each hour. */
    @Test
    void slowDriftIsFollowedOverADayInOneSizeOfMemory() {
        SimulatedLine line =
                new SimulatedLine(7, 30e-6, SimulatedLine.Delay.UNIFORM, SimulatedLine.Pings.FOUR);
        double swing = 8e-6;
        line.swing(swing, 3600);
        ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
        double worst = 0;
        double worstOfBound = 0;
        for (int second = 60; second <= 86_400; second += 120) {
            line.runTo(second, tracker);
            ClockFit fit = tracker.fit().orElseThrow();
            double tick = fit.originTick() + 55e6;
            double hostS = fit.origin().value() / 1e9 + fit.hostSecondsAt(tick);
            double error = Math.abs(hostS - line.hostSecondsAt(tick));
            worst = Math.max(worst, error);
            worstOfBound = Math.max(worstOfBound, error / fit.errorAtS(tick));
        }
        assertEquals(0, tracker.steps());
        System.out.printf(
                "ClockTracker, 24 h of drift: worst %.3f ms, %.2f of what was stated%n",
                1e3 * worst, worstOfBound);
        double aimS = 0.5e-3;
        assertTrue(worst <= aimS, "off by " + worst + " s");
        assertTrue(worstOfBound <= 1, "off by " + worstOfBound + " of what was stated");
    }

    @Test
    void oneWrongTickIsNoStep() {
        SimulatedLine line =
                new SimulatedLine(3, 20e-6, SimulatedLine.Delay.UNIFORM, SimulatedLine.Pings.NONE);
        ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
        line.runTo(30, tracker);
        ClockFit before = tracker.fit().orElseThrow();
        long tick = before.originTick() + 15_000_000;
        HostNanos at = before.origin().plusS(15);
        assertFalse(tracker.arrival(tick + 5_000_000, at));
        assertFalse(line.runTo(40, tracker));
    }

    @Test
    void ticksAreFoundAgainAfterManyRounds() {
        long round = 1L << 32;
        double tickHz = 16e6;
        TickUnwrapper unwrapper = new TickUnwrapper(tickHz, round);
        double resonator = 1.004;
        long tick = 4_294_960_000L;
        HostNanos at = new HostNanos(5_000_000_000L);
        unwrapper.settle(unwrapper.unwrap(tick, at), at);
        for (double silenceS : new double[] {0.1, 300, 5000, 20_000, 0.02}) {
            tick += Math.round(silenceS * resonator * tickHz);
            at = at.plusS(silenceS);
            long found = unwrapper.unwrap(tick % round, at);
            assertEquals(tick, found, "after " + silenceS + " s");
            unwrapper.settle(found, at);
        }
        // A tick from just before is not taken for one of the next round.
        assertEquals(tick - 1000, unwrapper.unwrap((tick - 1000) % round, at));
    }
}
