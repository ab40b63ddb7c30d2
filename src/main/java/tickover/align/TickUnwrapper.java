package tickover.align;

import tickover.unit.HostNanos;

/**
 * Makes a counter that starts over into one that does not, by the host's time: of all readings that
 * the raw one could stand for, the one nearest to what the counter should show by now is taken. So
 * it holds over gaps of many rounds, until the clocks' disagreement over the gap reaches half a
 * round: 16 MHz, 32 bits and a resonator off by 0.5 % allow 7 hours of silence, a crystal a month.
 */
final class TickUnwrapper {
    /** No message is later than that, nor is a tick further ahead, s. */
    static final double MOST_LATE_S = 5;

    private final double tickHz;
    private final long round;
    private boolean started;
    private long lastTick;
    private HostNanos lastAt = new HostNanos(0);

    /**
     * @param tickHz nominal ticks per second, Hz
     * @param round the counter goes from {@code round - 1} to 0
     */
    TickUnwrapper(double tickHz, long round) {
        this.tickHz = tickHz;
        this.round = round;
    }

    boolean started() {
        return started;
    }

    /** The tick that a raw reading stands for; changes nothing. */
    long unwrap(long raw, HostNanos at) {
        if (!started) {
            return raw;
        }
        long ahead = Math.floorMod(raw - lastTick, round);
        double expected = at.secondsAfter(lastAt) * tickHz;
        return lastTick + ahead + round * Math.round((expected - ahead) / round);
    }

    /** How far a tick lies past what the host expects by now, s. */
    double aheadS(long tick, HostNanos at) {
        return started ? (tick - lastTick) / tickHz - at.secondsAfter(lastAt) : 0;
    }

    /** Whether a tick can be that of a message which comes now. */
    boolean isNear(long tick, HostNanos at) {
        return Math.abs(aheadS(tick, at)) < MOST_LATE_S;
    }

    /** From here on: a tick that is believed. */
    void settle(long tick, HostNanos at) {
        started = true;
        lastTick = tick;
        lastAt = at;
    }

    void restart() {
        started = false;
    }
}
