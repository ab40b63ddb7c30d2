package tickover.align;

import java.util.Objects;
import java.util.Optional;
import java.util.function.DoubleBinaryOperator;
import tickover.unit.HostNanos;

/**
 * Follows a device's clock against the host's.
 *
 * <p>In: arrivals (a device tick and when the host heard of it, always later by an unknown delay)
 * and answered pings (the tick is bounded from both sides). <br>
 * Out: {@link ClockFit} over the last {@value #MOST_S} s at most, over less where the clock's rate
 * changes so fast that a straight line over the whole errs more than noise does. <br>
 * Steps of either clock: told by {@link #arrival} and {@link #ping}. A step to an earlier host
 * time, or one that a ping contradicts, shows with the second message; one to a later host time
 * only when nothing has come in time for {@value #LATE_S} s, and in so many messages that chance is
 * ruled out, for a message may be late. Steps smaller than 5 ms plus four times the error of the
 * fit pass for delay or drift. <br>
 * Memory: fixed. Thread: one. <br>
 * Source: [ZhangLiuXia2002] for the hull under the delays, from memory; the likelihood over slopes
 * is in {@link SkewPosterior}.
 */
public final class ClockTracker {
    /** Longest stretch looked at, s. */
    static final int MOST_S = 120;

    /** How long everything must have been late before a step is called, s. */
    static final int LATE_S = 4;

    /** After so long nobody waits for agreement, s. */
    private static final double GIVE_UP_S = 20;

    /** No step is called before the line has been tried for so long, s. */
    private static final double SETTLED_S = 6;

    /** How seldom a row of messages may be late by chance alone and still be called a step. */
    private static final double BY_CHANCE = 1e-9;

    /** The share of late messages is taken over about so many. */
    private static final double SHARE_OVER = 1024;

    private static final double LEAST_STEP_S = 5e-3;
    private static final double STEP_ERRORS = 4;

    private final double tickHz;
    private final ClockWindow window = new ClockWindow(MOST_S);
    private final RecentDelays recent = new RecentDelays();

    private boolean started;
    private long originTick;
    private HostNanos origin = new HostNanos(0);
    private int steps;
    private ClockLine line = ClockLine.NONE;
    private int fittedAtChange = -1;
    private double pendingX;
    private long pendingFrom;
    private double pendingY;
    private int pendingSign;
    private boolean late;
    private double lateFromX;
    private long lateFrom;
    private double lateFromHostS;
    private double lateNeeded;
    private double heard;
    private double heardInTime;

    /**
     * @param tickHz nominal ticks per second, Hz, &gt; 0
     */
    public ClockTracker(double tickHz) {
        if (!(tickHz > 0)) {
            throw new IllegalArgumentException("tickHz=" + tickHz + ", need > 0 Hz");
        }
        this.tickHz = tickHz;
    }

    /**
     * Takes an arrival.
     *
     * @param tick device tick without wrap, at which what arrived was complete
     * @param at when it had arrived
     * @return true if one of the clocks stepped; everything before is forgotten then
     */
    public boolean arrival(long tick, HostNanos at) {
        start(tick, at);
        double x = x(tick);
        double y = at.secondsAfter(origin) - x;
        recent.add(x, y);
        if (settled()) {
            double over = y - line.over(x);
            if (over < -marginS(x)) {
                return suspect(-1, x, y);
            }
            if (pendingSign < 0) {
                pendingSign = 0;
            }
            boolean inTime = over <= marginS(x);
            share(inTime);
            if (inTime) {
                late = false;
            } else if (lateForLong(x, y)) {
                // The first of the late ones may have been late before the step.
                stepSince((lateFrom + recent.count()) / 2);
                return true;
            }
        }
        window.arrival(x, y);
        return false;
    }

    /**
     * Takes an answered ping.
     *
     * @param sent just before the ping was handed to the line
     * @param receivedTick device tick without wrap at which it had been received
     * @param sentTick device tick without wrap at which the answer was handed to the line
     * @param back when the answer had arrived
     * @return true if one of the clocks stepped; everything before is forgotten then
     */
    public boolean ping(HostNanos sent, long receivedTick, long sentTick, HostNanos back) {
        if (!(back.compareTo(sent) >= 0 && sentTick >= receivedTick)) {
            throw new IllegalArgumentException(
                    "sent=" + sent + ", back=" + back + ", need an answer after the question");
        }
        start(receivedTick, sent);
        double x = x(receivedTick);
        double y = sent.secondsAfter(origin) - x;
        boolean stepped = false;
        if (settled() && y - line.over(x) > marginS(x)) {
            stepped = suspect(1, x, y);
        } else {
            if (pendingSign > 0) {
                pendingSign = 0;
            }
            window.bound(x, y);
            // After a step to later host times the question itself would have been late.
            late = false;
        }
        return arrival(sentTick, back) || stepped;
    }

    /**
     * Returns the line over what was heard so far.
     *
     * @return empty until there are some seconds of arrivals
     */
    public Optional<ClockFit> fit() {
        refit();
        if (!line.isThere()) {
            return Optional.empty();
        }
        long middleTick = originTick + Math.round(line.middle() * tickHz);
        double middle = x(middleTick);
        double hostS = middle + line.over(middle);
        HostNanos at = origin.plusS(hostS);
        return Optional.of(
                new ClockFit(
                        at,
                        middleTick,
                        hostS - at.secondsAfter(origin),
                        (1 + line.slope()) / tickHz,
                        line.heightError(),
                        line.slopeError() / (1 + line.slope()),
                        line.bracketed()));
    }

    /**
     * Returns how often a clock stepped.
     *
     * @return steps so far
     */
    public int steps() {
        return steps;
    }

    /** Forgets everything, as after an unplug. */
    public void restart() {
        started = false;
        forget();
        recent.clear();
    }

    private void forget() {
        window.clear();
        line = ClockLine.NONE;
        fittedAtChange = -1;
        pendingSign = 0;
        late = false;
    }

    private void start(long tick, HostNanos at) {
        if (!started) {
            started = true;
            originTick = tick;
            origin = Objects.requireNonNull(at, "at");
        }
    }

    private double x(long tick) {
        return (tick - originTick) / tickHz;
    }

    private boolean settled() {
        refit();
        return line.spanS() >= SETTLED_S;
    }

    private double marginS(double x) {
        return LEAST_STEP_S + STEP_ERRORS * line.errorAt(x);
    }

    /** One message may be wrong; the second that says the same is believed. */
    private boolean suspect(int sign, double x, double y) {
        boolean again =
                pendingSign == sign
                        && Math.abs((y - line.over(x)) - (pendingY - line.over(pendingX)))
                                < Math.max(0.05, marginS(x))
                        && x != pendingX;
        if (!again) {
            pendingSign = sign;
            pendingX = x;
            pendingFrom = recent.count() - (sign < 0 ? 1 : 0);
            pendingY = y;
            return false;
        }
        stepSince(pendingFrom);
        return true;
    }

    private void share(boolean inTime) {
        double kept = 1 - 1 / SHARE_OVER;
        heard = heard * kept + 1;
        heardInTime = heardInTime * kept + (inTime ? 1 : 0);
    }

    /** How many messages in a row are late by chance hardly ever, as the line has been so far. */
    private double neededForChance() {
        double inTime = (heardInTime + 1) / (heard + 2);
        return Math.log(BY_CHANCE) / Math.log1p(-inTime);
    }

    private boolean lateForLong(double x, double y) {
        if (!late || x < lateFromX) {
            late = true;
            lateFromX = x;
            lateFrom = recent.count() - 1;
            lateFromHostS = x + y;
            lateNeeded = neededForChance();
        }
        // On a line whose messages are seldom in time, a row of late ones means little.
        if (recent.count() - lateFrom < lateNeeded) {
            return false;
        }
        // Both clocks must have run on: what a busy host had left unread comes late in one burst.
        if (!(x - lateFromX > LATE_S && x + y - lateFromHostS > LATE_S)) {
            return false;
        }
        if (x - lateFromX > GIVE_UP_S) {
            return true;
        }
        // After a step all are late by the same; in a row of stalls each by another time.
        DoubleBinaryOperator lateness = (px, py) -> py - line.over(px);
        long third = (recent.count() - lateFrom) / 3;
        long now = recent.count();
        double early = recent.least(now - 2 * third, now - third, lateness);
        double recently = recent.least(now - third, now, lateness);
        return Math.abs(recently - early) < marginS(x);
    }

    /** What came after a step belongs to the new line. */
    private void stepSince(long number) {
        forget();
        steps++;
        recent.each(number, recent.count(), window::arrival);
    }

    private void refit() {
        // While nothing comes in time the line stays, or it would creep towards the late ones.
        if (window.change() != fittedAtChange && !late) {
            fittedAtChange = window.change();
            line = ClockLine.under(window, recent, 1 / tickHz);
        }
    }
}
