package tickover.align;

import tickover.unit.HostNanos;

/**
 * A device's clock seen from the host's: {@code host = origin + offset + secondsPerTick * (tick -
 * originTick)}.
 *
 * @param origin a host moment near the data
 * @param originTick the device tick that belongs to it
 * @param offsetS host time of {@code originTick} minus {@code origin}, s
 * @param secondsPerTick host seconds per device tick, &gt; 0
 * @param offsetErrorS half-width of what the offset can be wrong by, s: a bound where pings bracket
 *     it, otherwise without the constant part of the one-way delay
 * @param skewErrorRatio half-width of what {@code secondsPerTick} can be wrong by, relative
 * @param bracketed whether pings bound the offset from both sides
 */
public record ClockFit(
        HostNanos origin,
        long originTick,
        double offsetS,
        double secondsPerTick,
        double offsetErrorS,
        double skewErrorRatio,
        boolean bracketed) {
    public ClockFit {
        if (!(secondsPerTick > 0)) {
            throw new IllegalArgumentException("secondsPerTick=" + secondsPerTick + ", need > 0 s");
        }
        if (!(offsetErrorS >= 0 && skewErrorRatio >= 0)) {
            throw new IllegalArgumentException(
                    "offsetErrorS="
                            + offsetErrorS
                            + ", skewErrorRatio="
                            + skewErrorRatio
                            + ", need >= 0");
        }
    }

    /**
     * Returns when a tick was, by the host's clock.
     *
     * @param tick device tick, fractions allowed
     * @return s after {@link #origin}
     */
    public double hostSecondsAt(double tick) {
        return offsetS + secondsPerTick * (tick - originTick);
    }

    /**
     * Returns the tick of a host moment.
     *
     * @param at the moment
     * @return device tick, a fraction in general
     */
    public double tickAt(HostNanos at) {
        return originTick + (at.secondsAfter(origin) - offsetS) / secondsPerTick;
    }

    /**
     * Returns what {@link #hostSecondsAt} can be wrong by.
     *
     * @param tick device tick
     * @return half-width, s
     */
    public double errorAtS(double tick) {
        return offsetErrorS + skewErrorRatio * secondsPerTick * Math.abs(tick - originTick);
    }
}
