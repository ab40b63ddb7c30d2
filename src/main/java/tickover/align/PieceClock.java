package tickover.align;

import tickover.unit.HostNanos;

/** The time base of a piece: host moments and ticks to seconds after its first sample. */
final class PieceClock {
    /**
     * Where a clock is not known, arrivals stand for it, and where nothing answered pings, the
     * shortest delay is held for none; no shortest delay is longer, s.
     */
    private static final double UNKNOWN_CLOCK_S = 0.05;

    private final SampleRun first;
    private final double tickHz;
    private final SampleClock samples;

    /** The probe's clock against the host's; null if it is not known. */
    private final ClockFit fit;

    private final double realHz;
    private final double rateHz;

    private PieceClock(SampleStretch stretch, SampleClock samples, ClockFit fit) {
        this.first = stretch.first();
        this.tickHz = stretch.tickHz();
        this.samples = samples;
        this.fit = fit;
        int last = stretch.count() - 1;
        double perTick = last > 0 ? last / (samples.tickAt(last) - samples.tickAt(0)) : 1;
        realHz = perTick * (fit == null ? tickHz : 1 / fit.secondsPerTick());
        rateHz = Math.max(1, Math.rint(realHz));
    }

    /**
     * @param fitOrNull the probe's clock against the host's; null if it is not known
     */
    static PieceClock of(SampleStretch stretch, ClockFit fitOrNull) {
        return new PieceClock(stretch, stretch.clock(), fitOrNull);
    }

    /** The whole number of Hz nearest to the real rate. */
    double rateHz() {
        return rateHz;
    }

    double rateErrorRatio() {
        return realHz / rateHz - 1;
    }

    double residualS() {
        return samples.residualTicks() / tickHz;
    }

    /** Host time of the first sample, s after an origin. */
    double startS(HostNanos origin) {
        return fit == null
                ? first.arrival().secondsAfter(origin)
                : fit.origin().secondsAfter(origin)
                        + fit.hostSecondsAt((double) first.firstTick().value());
    }

    double timeS(HostNanos at) {
        return fit == null
                ? at.secondsAfter(first.arrival()) + first.count() / rateHz
                : samples.sampleAt(fit.tickAt(at)) / rateHz;
    }

    double errorS(HostNanos at) {
        return fit == null ? UNKNOWN_CLOCK_S : errorS(fit, fit.tickAt(at));
    }

    /** What a clock can be wrong by; without pings nothing tells the constant part of the delay. */
    private static double errorS(ClockFit clock, double tick) {
        return clock.errorAtS(tick) + (clock.bracketed() ? 0 : UNKNOWN_CLOCK_S);
    }

    /** Times of edges of the probe's own board. */
    double[] timesS(EdgeRun run) {
        double[] at = new double[run.ticks().length];
        for (int i = 0; i < at.length; i++) {
            at[i] = samples.sampleAt((double) run.ticks()[i]) / rateHz;
        }
        return at;
    }

    /** Times of edges of another board, whose clock is given. */
    double[] timesS(EdgeRun run, ClockFit other) {
        double[] at = new double[run.ticks().length];
        for (int i = 0; i < at.length; i++) {
            at[i] = timeS(other.origin().plusS(other.hostSecondsAt((double) run.ticks()[i])));
        }
        return at;
    }

    /** How far those may be off, by both clocks. */
    double errorS(EdgeRun run, ClockFit other) {
        double worst = 0;
        for (long tick : run.ticks()) {
            worst = Math.max(worst, errorS(other, (double) tick));
        }
        return worst + errorS(run.arrival());
    }
}
