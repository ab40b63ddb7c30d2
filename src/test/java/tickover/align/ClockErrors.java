package tickover.align;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/** How far off the clocks of many simulated lines were, and whether the stated widths held it. */
final class ClockErrors {
    /** The stated width is meant to hold the truth in so many cases. */
    static final double COVERAGE = 0.95;

    private static final double TEMPERATURE_SWING = 60e-6;

    /** With the swing above: 20 ppm a minute where the rate changes fastest. */
    private static final double SWING_PERIOD_S = 1131;

    /**
     * Which lines.
     *
     * @param delay what delays
     * @param pings how often the device is asked
     * @param resonator off by up to 0.5 %, not 10 to 50 ppm
     * @param warming its rate swings with the temperature, by 20 ppm a minute at the fastest
     */
    record Kind(
            SimulatedLine.Delay delay,
            SimulatedLine.Pings pings,
            boolean resonator,
            boolean warming) {
        /** One of these lines, ready to run. */
        SimulatedLine line(long seed) {
            Random random = new Random(seed + 100_000);
            double ppm = resonator ? 5000 * random.nextDouble() : 10 + 40 * random.nextDouble();
            double skew = 1e-6 * (random.nextBoolean() ? ppm : -ppm);
            SimulatedLine line = new SimulatedLine(seed, skew, delay, pings);
            if (warming) {
                double phase = 2 * Math.PI * random.nextDouble();
                line.swing(TEMPERATURE_SWING, SWING_PERIOD_S, phase);
            }
            return line;
        }

        @Override
        public String toString() {
            return delay.words + (warming ? ", resonator swinging by 20 ppm/min" : "");
        }
    }

    final List<Double> offsetS = new ArrayList<>();
    final List<Double> skewPpm = new ArrayList<>();
    final List<Double> statedOffsetS = new ArrayList<>();
    final List<Double> statedSkewPpm = new ArrayList<>();
    int offsetsHeld;
    int skewsHeld;

    /** What a share of the values does not exceed. */
    static double at(List<Double> values, double share) {
        List<Double> sorted = new ArrayList<>(values);
        Collections.sort(sorted);
        return sorted.get((int) Math.ceil(share * sorted.size()) - 1);
    }

    /** The same after some time on many lines. Line {@code i} has the seed {@code from + i}. */
    static ClockErrors of(Kind kind, long from, int lines, double afterS) {
        ClockErrors errors = new ClockErrors();
        for (int i = 0; i < lines; i++) {
            SimulatedLine line = kind.line(from + i);
            ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
            line.runTo(afterS, tracker);
            errors.add(line, tracker.fit().orElseThrow());
        }
        return errors;
    }

    /** Adds a line as it is now: the offset at the last frame, where a live session uses it. */
    void add(SimulatedLine line, ClockFit fit) {
        double tick = line.lastTick();
        // Without pings the shortest delay cannot be known; the stated width is not meant to.
        double unknownS = fit.bracketed() ? 0 : line.leastS();
        double hostS = fit.origin().value() / 1e9 + fit.hostSecondsAt(tick);
        double offset = Math.abs(hostS - line.hostSecondsAt(tick) - unknownS);
        double rate = fit.secondsPerTick() * SimulatedLine.TICK_HZ;
        double skew = Math.abs(rate / line.rateAt((double) fit.originTick()) - 1);
        offsetS.add(offset);
        skewPpm.add(1e6 * skew);
        statedOffsetS.add(fit.errorAtS(tick));
        statedSkewPpm.add(1e6 * fit.skewErrorRatio());
        offsetsHeld += offset <= fit.errorAtS(tick) ? 1 : 0;
        skewsHeld += skew <= fit.skewErrorRatio() ? 1 : 0;
    }

    int count() {
        return offsetS.size();
    }

    /** Share of the cases in which the stated offset and skew held the truth, the lesser. */
    double held() {
        return (double) Math.min(offsetsHeld, skewsHeld) / count();
    }

    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
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
