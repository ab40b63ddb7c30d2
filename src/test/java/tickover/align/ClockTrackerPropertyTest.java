package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the clock's fit reaches on many simulated lines. Line {@code i} has the seed {@code i}. */
class ClockTrackerPropertyTest {
    private static final int LINES = 200;

    /** The aims: 0.5 ms after 10 s, 1 ppm after 60 s. */
    private static final double OFFSET_S = 0.5e-3;

    private static final double SKEW_PPM = 1;

    /** The stated width has to hold the truth in so many lines. */
    private static final double COVERAGE = 0.95;

    /** The share of the lines that has to reach an aim, where not all do. */
    private static final double MOST_LINES = 0.95;

    private static final class Errors {
        final List<Double> offsetS = new ArrayList<>();
        final List<Double> skewPpm = new ArrayList<>();
        final List<Double> statedOffsetS = new ArrayList<>();
        final List<Double> statedSkewPpm = new ArrayList<>();
        int offsetsHeld;
        int skewsHeld;

        String text() {
            return String.format(
                    "offset ms: median %.3f, 95 %% %.3f, worst %.3f, stated %.3f, held %d; "
                            + "skew ppm: median %.2f, 95 %% %.2f, worst %.2f, stated %.2f, held %d",
                    1e3 * at(offsetS, 0.5),
                    1e3 * at(offsetS, 0.95),
                    1e3 * at(offsetS, 1),
                    1e3 * at(statedOffsetS, 0.5),
                    offsetsHeld,
                    at(skewPpm, 0.5),
                    at(skewPpm, 0.95),
                    at(skewPpm, 1),
                    at(statedSkewPpm, 0.5),
                    skewsHeld);
        }
    }

    private static double at(List<Double> values, double share) {
        List<Double> sorted = new ArrayList<>(values);
        Collections.sort(sorted);
        return sorted.get((int) Math.ceil(share * sorted.size()) - 1);
    }

    private static Errors errors(
            SimulatedLine.Delay delay, boolean pings, boolean resonator, double afterS) {
        Errors errors = new Errors();
        for (int seed = 0; seed < LINES; seed++) {
            Random random = new Random(seed + 100_000L);
            double size =
                    resonator ? 5e-3 * random.nextDouble() : (10 + 40 * random.nextDouble()) * 1e-6;
            double skew = random.nextBoolean() ? size : -size;
            SimulatedLine line = new SimulatedLine(seed, skew, delay, pings);
            ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
            line.runTo(afterS, tracker);
            ClockFit fit = tracker.fit().orElseThrow();
            assertEquals(pings, fit.bracketed());
            // At the end of what was heard, where a live session uses it.
            double tick = fit.originTick() + 0.45 * afterS * SimulatedLine.TICK_HZ;
            double constantS = pings ? 0 : line.constantS;
            double hostS = fit.origin().value() / 1e9 + fit.hostSecondsAt(tick);
            double offset = Math.abs(hostS - line.hostSecondsAt(tick) - constantS);
            double rate = fit.secondsPerTick() * SimulatedLine.TICK_HZ;
            double skewError = Math.abs(rate / (1 + skew) - 1);
            errors.offsetS.add(offset);
            errors.skewPpm.add(1e6 * skewError);
            errors.statedOffsetS.add(fit.errorAtS(tick));
            errors.statedSkewPpm.add(1e6 * fit.skewErrorRatio());
            errors.offsetsHeld += offset <= fit.errorAtS(tick) ? 1 : 0;
            errors.skewsHeld += skewError <= fit.skewErrorRatio() ? 1 : 0;
        }
        String what = delay + (pings ? ", pings" : ", no pings") + (resonator ? ", 0.5 %" : "");
        System.out.println("ClockTracker, " + what + ", " + afterS + " s: " + errors.text());
        return errors;
    }

    private static void assertHonest(Errors errors) {
        assertTrue(errors.offsetsHeld >= COVERAGE * LINES, errors.text());
        assertTrue(errors.skewsHeld >= COVERAGE * LINES, errors.text());
    }

    @ParameterizedTest
    @CsvSource({
        "UNIFORM, true, false",
        "UNIFORM, true, true",
        "EXPONENTIAL, true, false",
        "TIMER_16_MS, true, true",
        "BURSTS, true, false"
    })
    void pingsGiveHalfAMillisecondAfterTenSecondsAndOnePpmAfterSixty(
            SimulatedLine.Delay delay, boolean pings, boolean resonator) {
        Errors early = errors(delay, pings, resonator, 10.5);
        assertTrue(at(early.offsetS, 1) <= OFFSET_S, early.text());
        assertHonest(early);
        Errors late = errors(delay, pings, resonator, 60.5);
        assertTrue(at(late.skewPpm, MOST_LINES) <= SKEW_PPM, late.text());
        assertTrue(at(late.offsetS, 1) <= OFFSET_S, late.text());
        assertHonest(late);
        // A bracket is half the shortest round trip wide: 2 ms at most on these lines.
        double widestS = 1.2e-3;
        assertTrue(at(late.statedOffsetS, 0.5) <= widestS, late.text());
    }

    @ParameterizedTest
    @CsvSource({"UNIFORM, 1.6", "EXPONENTIAL, 1", "BURSTS, 1"})
    void withoutPingsOnlyTheConstantDelayStaysUnknown(SimulatedLine.Delay delay, double skewPpm) {
        Errors early = errors(delay, false, false, 10.5);
        // A host that looks away for most of the ten seconds leaves nothing to go by.
        double share = delay == SimulatedLine.Delay.BURSTS ? MOST_LINES : 1;
        assertTrue(at(early.offsetS, share) <= OFFSET_S, early.text());
        assertHonest(early);
        Errors late = errors(delay, false, false, 60.5);
        // Evenly spread delays of up to 16 ms, 46 a second, leave more than 1 ppm in one line of
        // ten: their shortest come no closer.
        assertTrue(at(late.skewPpm, MOST_LINES) <= skewPpm, late.text());
        assertHonest(late);
        double absurd = 10;
        assertTrue(at(late.statedSkewPpm, 0.5) <= absurd * at(late.skewPpm, 0.5), late.text());
    }

    @ParameterizedTest
    @CsvSource({"TIMER_16_MS, false", "TIMER_50_MS, false", "TIMER_50_MS, true"})
    void timersThatKeepStepWithTheFramesAreOwnedUpTo(SimulatedLine.Delay delay, boolean pings) {
        assertHonest(errors(delay, pings, false, 10.5));
        assertHonest(errors(delay, pings, false, 60.5));
    }
}
