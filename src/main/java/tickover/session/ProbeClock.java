package tickover.session;

import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.unit.HostNanos;

/**
 * When things happened, counted in samples of one probe: ticks of its own board, ticks of another
 * one, moments of the host.
 *
 * <p>Where samples follow the board's ticks, edges of the same board fall exactly. Otherwise a line
 * is kept through the ticks that come with samples, and other clocks are tied by what arrived with
 * the least delay: good to some milliseconds. One thread.
 */
final class ProbeClock {
    /** So long is listened to a probe that does not say its rate, s. */
    private static final double RATE_S = 1;

    /** Shares of a stray that the line's place and slope take over. */
    private static final double PLACE_RATIO = 0.1;

    private static final double SLOPE_RATIO = 0.005;

    private final ProbeStart start;
    private final LeastDelay host = new LeastDelay();
    private boolean begun;
    private long baseSample;
    private double baseTick;
    private double ticksPerSample;
    private boolean sure;

    /** How much earlier than it arrives a thing happens, by the quickest arrival so far. */
    static final class LeastDelay {
        /** Clocks drift: an old quickest arrival is trusted less and less, s per s. */
        private static final double DRIFT_RATIO = 2e-4;

        private boolean any;
        private double offsetS;
        private double lastS;

        void heard(double deviceS, HostNanos arrival) {
            double offset = arrival.secondsAfter(new HostNanos(0)) - deviceS;
            double drift = DRIFT_RATIO * Math.max(0, deviceS - lastS);
            offsetS = any ? Math.min(offsetS + drift, offset) : offset;
            lastS = deviceS;
            any = true;
        }

        boolean isKnown() {
            return any;
        }

        double hostS(double deviceS) {
            return deviceS + offsetS;
        }

        double deviceS(double hostS) {
            return hostS - offsetS;
        }
    }

    ProbeClock(ProbeStart start) {
        this.start = start;
        this.ticksPerSample = start.ticksPerSample();
        this.sure = start.samplesFollowTicks() && ticksPerSample > 0;
    }

    /** Hears the next samples. */
    void heard(SampleRun run) {
        double tick = (double) run.firstTick().value();
        if (!begun) {
            begun = true;
            baseSample = run.firstSample();
            baseTick = tick;
        } else if (!sure) {
            follow((double) (run.firstSample() - baseSample), tick);
        }
        if (isReady()) {
            long last = run.firstSample() + run.count() - 1;
            host.heard((double) (last - baseSample) / rateHz(), run.arrival());
        }
    }

    private void follow(double since, double tick) {
        if (!(ticksPerSample > 0)) {
            if (tick - baseTick >= RATE_S * start.tickHz() && since > 0) {
                ticksPerSample = (tick - baseTick) / since;
            }
            return;
        }
        double stray = tick - (baseTick + since * ticksPerSample);
        baseTick += PLACE_RATIO * stray;
        if (since > 0) {
            ticksPerSample += SLOPE_RATIO * stray / since;
        }
    }

    /** Whether the rate is known. */
    boolean isReady() {
        return begun && ticksPerSample > 0;
    }

    /** Samples per second, as far as known, Hz. */
    double rateHz() {
        return start.tickHz() / ticksPerSample;
    }

    /** Number of the sample at a tick of the same board. */
    double sampleAtTick(double tick) {
        return baseSample + (tick - baseTick) / ticksPerSample;
    }

    /** Number of the sample that was taken at a host's moment. */
    double sampleAt(double hostS) {
        return baseSample + host.deviceS(hostS) * rateHz();
    }
}
